package journal

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"image"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// What a font or a picture of a theme may have: it is loaded with every page.
const (
	maxThemeBytes  = 1_000_000
	maxThemePixels = 25_000_000
)

// theme reads the style sheets in `theme/`, and the fonts and pictures that they name. Other files there are not looked at.
func (r *reader) theme(files []string) model.Theme {
	var t model.Theme
	var names []string
	for _, name := range files {
		if path.Dir(name) == "theme" && strings.EqualFold(path.Ext(name), ".css") {
			names = append(names, name)
		}
	}
	t.Styles = decodeAll(r, names, parse.MaxSheet, parse.DecodeStyle)
	var named []string
	for _, style := range t.Styles {
		if style == nil {
			continue // it could not be read, which is the reader's error
		}
		for _, a := range style.Addresses {
			if name, _, _ := a.Local(); slices.Contains(files, name) {
				named = append(named, name)
			}
		}
	}
	slices.Sort(named)
	for _, name := range slices.Compact(named) {
		t.Files = append(t.Files, r.themeFile(name))
	}
	return t
}

func (r *reader) themeFile(name string) model.ThemeFile {
	f := model.ThemeFile{Name: name}
	check, known := themeChecks[strings.ToLower(path.Ext(name))]
	if !known {
		f.Reason = "is no WOFF2 font and no SVG, PNG or JPEG picture"
		return f
	}
	info, err := fs.Stat(r.folder, name)
	if err != nil {
		r.fail(fmt.Errorf("read %s: %w", name, err))
		return f
	}
	if info.Size() > maxThemeBytes {
		f.Reason = fmt.Sprintf("has %d bytes; a file of a theme may have %d", info.Size(), maxThemeBytes)
		return f
	}
	content, err := fs.ReadFile(r.folder, name)
	if err != nil {
		r.fail(fmt.Errorf("read %s: %w", name, err))
		return f
	}
	if f.Reason = check(content); f.Reason == "" {
		f.Content = content
	}
	return f
}

// themeChecks look, by ending, whether a file is what its name says. Each returns why not, or nothing.
var themeChecks = map[string]func([]byte) string{".woff2": checkFont, ".svg": checkDrawing, ".png": checkPNG, ".jpg": checkJPEG, ".jpeg": checkJPEG}

// checkFont looks for the signature of a font (W3C, WOFF 2.0, section 4.1, from memory).
func checkFont(content []byte) string {
	if !bytes.HasPrefix(content, []byte("wOF2")) {
		return "is no WOFF2 font"
	}
	return ""
}

func checkPNG(content []byte) string { return checkPicture(content, "png", "is no PNG picture") }

func checkJPEG(content []byte) string { return checkPicture(content, "jpeg", "is no JPEG picture") }

func checkPicture(content []byte, want, why string) string {
	config, format, err := image.DecodeConfig(bytes.NewReader(content))
	if err != nil || format != want {
		return why
	}
	if config.Width < 1 || config.Height < 1 || config.Width > maxThemePixels/config.Height {
		return fmt.Sprintf("is %d × %d pixels, which is too big to load with every page", config.Width, config.Height)
	}
	if _, _, err := image.Decode(bytes.NewReader(content)); err != nil {
		return "is broken: it can't be read to its end"
	}
	return ""
}

// checkDrawing looks whether an SVG is one, and runs and loads nothing: it stands on the site as a page of its own, too.
func checkDrawing(content []byte) string {
	d := xml.NewDecoder(bytes.NewReader(content))
	d.CharsetReader = func(string, io.Reader) (io.Reader, error) { return nil, errors.New("it is not UTF-8") }
	root, inStyle := true, false
	for {
		token, err := d.Token()
		if err == io.EOF && !root {
			return ""
		}
		if err != nil {
			return "is no SVG picture that can be read"
		}
		switch token := token.(type) {
		case xml.CharData:
			if inStyle && namesOutside(string(token)) {
				return "loads something by its `style`"
			}
		case xml.StartElement:
			if root && token.Name.Local != "svg" {
				return "is no SVG picture"
			}
			root, inStyle = false, token.Name.Local == "style"
			if why := checkElement(token.Name.Local, token.Attr); why != "" {
				return why
			}
		}
	}
}

func checkElement(name string, attributes []xml.Attr) string {
	if slices.Contains([]string{"script", "foreignobject", "iframe", "embed", "object"}, strings.ToLower(name)) {
		return "holds `" + name + "`, which a picture of a theme can't have"
	}
	for _, a := range attributes {
		attribute := strings.ToLower(a.Name.Local)
		if strings.HasPrefix(attribute, "on") {
			return "holds `" + a.Name.Local + "`, which runs a script"
		}
		if (attribute == "href" || attribute == "src") && !strings.HasPrefix(strings.TrimSpace(a.Value), "#") || namesOutside(a.Value) {
			return "loads something by `" + a.Name.Local + "`"
		}
	}
	return ""
}

// namesOutside reports whether a text in CSS, such as many attributes hold, names more than a place in its own drawing.
func namesOutside(value string) bool {
	if !strings.ContainsAny(value, "(@") {
		return false
	}
	style, _ := parse.DecodeStyle(source.NewFile("attribute", value))
	return slices.ContainsFunc(style.Addresses, func(a parse.StyleAddress) bool { return a.Import || a.Text != "" && !strings.HasPrefix(a.Text, "#") })
}
