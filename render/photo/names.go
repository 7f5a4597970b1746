package photo

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"path"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// namesOf returns the names that [Make] would give, without decoding the picture. A PNG may stay one or become a JPEG, which only its pixels
// tell: then there are two sets of names, and Make gives one of them. Each set is in the order of Make. The errors are those of Make that
// the head of the file tells.
func namesOf(name string, content []byte, r Recipe) ([][]string, error) {
	if err := r.check(); err != nil {
		return nil, err
	}
	h, err := readHead(content)
	if err != nil {
		return nil, err
	}
	var sets [][]string
	for _, ending := range h.kind.endings() {
		var names []string
		for _, s := range h.sizes(r) {
			names = append(names, address(name, content, r, s.width, ending))
		}
		sets = append(sets, names)
	}
	return sets, nil
}

// Reuse returns what [Make] would, out of pictures made before: `kept` gives the content of a file by its name, as an earlier site has it.
// It is false where one is missing or is not the picture that its name promises.
func Reuse(kept func(name string) ([]byte, bool), name string, content []byte, r Recipe) ([]Made, bool) {
	sets, err := namesOf(name, content, r)
	if err != nil {
		return nil, false
	}
	h, err := readHead(content)
	if err != nil {
		return nil, false
	}
	for _, names := range sets {
		if made, ok := reuseSet(kept, names, h.sizes(r)); ok {
			return made, true
		}
	}
	return nil, false
}

func reuseSet(kept func(name string) ([]byte, bool), names []string, sizes []size) ([]Made, bool) {
	var made []Made
	for i, name := range names {
		content, ok := kept(name)
		if !ok {
			return nil, false
		}
		var config image.Config
		var err error
		if path.Ext(name) == ".png" {
			config, err = png.DecodeConfig(bytes.NewReader(content))
		} else {
			config, err = jpeg.DecodeConfig(bytes.NewReader(content))
		}
		if err != nil || config.Width != sizes[i].width || config.Height != sizes[i].height {
			return nil, false
		}
		made = append(made, Made{Name: name, Width: config.Width, Height: config.Height, Content: content})
	}
	return made, true
}

// address returns the name of a made picture. The hash takes in the recipe, so that another recipe never meets an old picture.
func address(name string, content []byte, r Recipe, width int, ending string) string {
	sum := sha256.New()
	fmt.Fprintf(sum, "photo %d, %d, %d, %d\n", version, r.Large, r.Small, r.Quality)
	sum.Write(content)
	return "photos/" + stem(name) + "-" + hex.EncodeToString(sum.Sum(nil)[:4]) + "-" + strconv.Itoa(width) + ending
}

// maxStem is how many bytes of a file's name are kept: enough to know the picture by.
const maxStem = 80

// stem folds the name of a file to letters, digits and single dashes, which need no care in any file system or link.
func stem(name string) string {
	name = path.Base(strings.ReplaceAll(name, `\`, "/"))
	name = strings.ToLower(strings.TrimSuffix(name, path.Ext(name)))
	var b strings.Builder
	dash := false
	for _, r := range name {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.IsMark(r) {
			dash = true
			continue
		}
		if b.Len()+len("-")+utf8.RuneLen(r) > maxStem {
			break
		}
		if dash && b.Len() > 0 {
			b.WriteByte('-')
		}
		dash = false
		b.WriteRune(r)
	}
	if b.Len() == 0 {
		return "picture"
	}
	return b.String()
}
