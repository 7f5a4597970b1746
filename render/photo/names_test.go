package photo

import (
	"bytes"
	"image"
	"path"
	"slices"
	"strings"
	"testing"
)

// dot is a GIF of one black pixel.
const dot = "GIF89a\x01\x00\x01\x00\x80\x00\x00\x00\x00\x00\xff\xff\xff\x2c\x00\x00\x00\x00\x01\x00\x01\x00\x00\x02\x02\x44\x01\x00\x3b"

// TestAddress types the hashes as GNU sha256sum 9.1 gives them for the recipe's line and the file.
func TestAddress(t *testing.T) {
	narrow := Usual
	narrow.Large = 1200
	tests := []struct {
		name   string
		recipe Recipe
		want   string
	}{
		{"photos/bench.gif", Usual, "photos/bench-1cea20b8-1.png"},
		{"photos/bench.gif", narrow, "photos/bench-9dc3bcd3-1.png"},
		{"bench", Usual, "photos/bench-1cea20b8-1.png"},
		{"photos/2026/The Head, off (2).GIF", Usual, "photos/the-head-off-2-1cea20b8-1.png"},
		{`photos\DSC_0001.gif`, Usual, "photos/dsc-0001-1cea20b8-1.png"},
		{"photos/Zündkerze.gif", Usual, "photos/zündkerze-1cea20b8-1.png"},
		{"photos/....gif", Usual, "photos/picture-1cea20b8-1.png"},
		{"photos/a\xff\x00b.gif", Usual, "photos/a-b-1cea20b8-1.png"},
		{"", Usual, "photos/picture-1cea20b8-1.png"},
		{"photos/" + strings.Repeat("long ", 100) + ".gif", Usual, "photos/" + strings.Repeat("long-", 15) + "long-1cea20b8-1.png"},
	}
	for _, test := range tests {
		made, err := Make(test.name, []byte(dot), test.recipe)
		if err != nil {
			t.Errorf("%q: %v", test.name, err)
			continue
		}
		if len(made) != 1 || made[0].Name != test.want {
			t.Errorf("%q: %q, want %q", test.name, made[0].Name, test.want)
		}
	}
}

// TestNames wants the names that Make gives to be among those told beforehand.
func TestNames(t *testing.T) {
	tests := []struct {
		name    string
		content []byte
		sets    int
	}{
		{"turned.jpg", taggedJPEG(t, shaded(1000, 2000), 6), 1},
		{"small.jpg", jpegOf(t, shaded(90, 60)), 1},
		{"drawing.png", pngOf(t, corners(900, 600)), 2},
		{"screen.png", pngOf(t, shaded(900, 600)), 2},
		{"dot.gif", []byte(dot), 1},
	}
	for _, test := range tests {
		sets, err := namesOf(test.name, test.content, Usual)
		if err != nil || len(sets) != test.sets {
			t.Errorf("%s: %q (%v), want %d sets", test.name, sets, err, test.sets)
		}
		var names []string
		for _, made := range makeAll(t, test.name, test.content) {
			names = append(names, made.Name)
		}
		if !slices.ContainsFunc(sets, func(set []string) bool { return slices.Equal(set, names) }) {
			t.Errorf("%s: %q, which is not among %q", test.name, names, sets)
		}
	}
}

func TestReuse(t *testing.T) {
	for name, content := range map[string][]byte{
		"turned.jpg": taggedJPEG(t, shaded(600, 900), 8), "drawing.png": pngOf(t, corners(900, 600)), "dot.gif": []byte(dot),
	} {
		before := makeAll(t, name, content)
		site := map[string][]byte{}
		for _, made := range before {
			site[made.Name] = made.Content
		}
		kept := func(name string) ([]byte, bool) {
			content, ok := site[name]
			return content, ok
		}
		if got, ok := Reuse(kept, name, content, Usual); !ok || !slices.EqualFunc(got, before, same) {
			t.Errorf("%s: what was made before is not used again", name)
		}
		changed := append(bytes.Clone(content), 0)
		if _, ok := Reuse(kept, name, changed, Usual); ok {
			t.Errorf("%s: an old picture is used for a changed file", name)
		}
		if _, ok := Reuse(kept, name, content, Recipe{Large: 1200, Small: 480, Quality: 82}); ok {
			t.Errorf("%s: an old picture is used for another recipe", name)
		}
		small := before[len(before)-1]
		last := small.Name
		for what, spoilt := range map[string][]byte{
			"of another width":  encodedAs(t, last, image.NewGray(image.Rect(0, 0, small.Width+1, small.Height))),
			"of another height": encodedAs(t, last, image.NewGray(image.Rect(0, 0, small.Width, small.Height+1))),
			"cut off":           site[last][:20],
			"empty":             nil,
		} {
			site[last] = spoilt
			if _, ok := Reuse(kept, name, content, Usual); ok {
				t.Errorf("%s: an old picture is used that is %s", name, what)
			}
		}
		delete(site, last)
		if _, ok := Reuse(kept, name, content, Usual); ok {
			t.Errorf("%s: a picture is missing, and nobody minds", name)
		}
	}
	if _, ok := Reuse(func(string) ([]byte, bool) { return nil, true }, "a.jpg", []byte("no picture"), Usual); ok {
		t.Error("a file that is no picture has old ones")
	}
}

func encodedAs(t *testing.T, name string, p image.Image) []byte {
	t.Helper()
	if path.Ext(name) == ".png" {
		return pngOf(t, p)
	}
	return jpegOf(t, p)
}
