package render

import (
	"bytes"
	"image"
	"image/jpeg"
	"io/fs"
	"slices"
	"strings"
	"testing"

	"example.org/locknut/render/photo"
)

// spoiled returns a picture whose head and end are whole and whose middle is not: a bit of its pixels is wrong, which a PNG shows by its check
// sums at the latest (PNG Specification, Third Edition, 5.3, from memory).
func spoiled(t *testing.T) string {
	t.Helper()
	content := []byte(drawnPicture(t, 600, 400))
	content[len(content)/2] ^= 1
	return string(content)
}

func leftOff(t *testing.T, folder fs.FS) []LeftOff {
	t.Helper()
	var m Memory
	left, err := Site(compiled(t, folder), &m)
	if err != nil {
		t.Fatal(err)
	}
	checkSite(t, &m)
	return left
}

// A finding tells of a picture that breaks off, and of a file that is none; what only decoding shows is told when the site is made.
func TestWhatIsLeftOffTheSiteIsTold(t *testing.T) {
	files := photographed(t) // with photos/torn.png, of which there is a finding
	if left := leftOff(t, inMemory(files)); len(left) != 0 {
		t.Errorf("left off: %v", left)
	}
	files = with(files, map[string]string{
		"photos/z.png": spoiled(t), "photos/b.png": spoiled(t), "photos/unseen.png": spoiled(t), "other/note.txt": "no picture",
		"photos/note.png":       "no picture, which a finding tells",
		"entries/2026-03-05.md": "```toml\n```\n\n![Z](../photos/z.png)\n\n![B](../photos/b.png)\n\n![B again](../photos/b.png)\n\n![A note](../other/note.txt)\n\n![Another](../photos/note.png)\n",
	})
	want := []LeftOff{
		{"other/note.txt", "it is no JPEG, PNG or GIF picture"},
		{"photos/b.png", "it is broken or cut off"},
		{"photos/z.png", "it is broken or cut off"},
	}
	for range 5 {
		left := leftOff(t, inMemory(files))
		for i := range left {
			left[i].Why, _, _ = strings.Cut(left[i].Why, ": ") // the decoder says more
		}
		if !slices.Equal(left, want) {
			t.Fatalf("left off\n%v\nwant\n%v", left, want)
		}
	}
	if got := want[1].String(); got != "photos/b.png: it is broken or cut off" {
		t.Error(got)
	}
	if got := (LeftOff{"photos/\x1b[31m\n.png", "it is broken"}).String(); strings.ContainsAny(got, "\x1b\n") {
		t.Errorf("it acts on a terminal: %q", got)
	}
	hidden := with(files, nil)
	hidden["build.toml"] = strings.Replace(hidden["build.toml"], "[site]\n", "[site]\nhide = [\"photos\"]\n", 1)
	if left := leftOff(t, inMemory(hidden)); len(left) != 0 {
		t.Errorf("photos are hidden, and left off are %v", left)
	}
}

func TestAPictureThatIsTooBigIsLeftOff(t *testing.T) {
	files := with(shed(), map[string]string{
		"other/big.png":         strings.Repeat("\x00", photo.MaxBytes+1),
		"entries/2026-03-05.md": "```toml\n```\n\n![Big](../other/big.png)\n",
	})
	want := []LeftOff{{"other/big.png", "it has 40000001 bytes, more than 40 MB"}}
	if left := leftOff(t, inMemory(files)); !slices.Equal(left, want) {
		t.Errorf("left off\n%v\nwant\n%v", left, want)
	}
}

// The journal decodes the pictures of a theme, but what is made of them for the site is made later.
func TestAPictureOfTheThemeThatCantBeMadeIsLeftOff(t *testing.T) {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 64, 64)), nil); err != nil {
		t.Fatal(err)
	}
	result := compiled(t, inMemory(with(shed(), map[string]string{"theme/own.css": "body { background: url(\"tank.jpg\") }\n", "theme/tank.jpg": b.String()})))
	var whole, torn Memory
	if left, err := Site(result, &whole); err != nil || len(left) != 0 || whole.Page("theme/tank.jpg") == nil {
		t.Fatalf("left off %v, error %v", left, err)
	}
	file := result.Journal.Theme.Find("theme/tank.jpg")
	file.Content = file.Content[:len(file.Content)/2]
	left, err := Site(result, &torn)
	if err != nil {
		t.Fatal(err)
	}
	if len(left) != 1 || left[0].File != "theme/tank.jpg" || !strings.HasPrefix(left[0].Why, "it is cut off") {
		t.Errorf("left off: %v", left)
	}
	if torn.Page("theme/tank.jpg") != nil || strings.Contains(string(torn.Page("theme.css")), "tank") {
		t.Error("the site has it, or names it")
	}
}
