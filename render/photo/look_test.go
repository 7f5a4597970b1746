package photo

import (
	"bytes"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

func look(t *testing.T, content []byte) error {
	t.Helper()
	f, err := fstest.MapFS{"a": {Data: content}}.Open("a")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	return Look(f)
}

// What Look lets through Make makes pictures of, and what it says breaks off it does not; whatever stands behind a picture.
func TestLookSeesWhatBreaksOff(t *testing.T) {
	film := bytes.Repeat([]byte("film"), 50_000)
	for name, whole := range map[string][]byte{"a.jpg": jpegOf(t, corners(320, 240)), "a.png": pngOf(t, corners(320, 240))} {
		for _, content := range [][]byte{whole, slices.Concat(whole, film)} {
			if err := look(t, content); err != nil {
				t.Errorf("%s of %d bytes: %v", name, len(content), err)
			}
			if _, err := Make(name, content, Usual); err != nil {
				t.Errorf("%s of %d bytes isn't made: %v", name, len(content), err)
			}
		}
		for i := range 20 {
			cut := whole[:len(whole)*(i+1)/21]
			if err := look(t, cut); err == nil {
				t.Errorf("%s: %d of %d bytes pass", name, len(cut), len(whole))
			}
			if _, err := Make(name, cut, Usual); err == nil {
				t.Errorf("%s: %d of %d bytes are made", name, len(cut), len(whole))
			}
		}
		if err := look(t, whole[:len(whole)-8]); err == nil || !strings.Contains(err.Error(), "breaks off") {
			t.Errorf("%s without its end: %v", name, err)
		}
	}
	filled := jpegOf(t, corners(32, 32))
	filled = slices.Concat(filled[:2], bytes.Repeat([]byte{0xff}, 300), filled[2:])
	if err := look(t, filled); err != nil {
		t.Errorf("fill bytes before a marker: %v", err)
	}
	if err := look(t, []byte("a note")); err == nil || !strings.Contains(err.Error(), "no JPEG") {
		t.Errorf("a note: %v", err)
	}
}

// The small copy that a camera puts into the head of a picture has an end of its own, which says nothing of the picture's: here it lies within the last
// 64 KiB of what is left of the file.
func TestTheEndOfASmallCopyIsNotThePictures(t *testing.T) {
	whole := jpegOf(t, corners(640, 480))
	small := jpegOf(t, corners(32, 24))
	body := append(bytes.Repeat([]byte{0}, 60_000-len(small)), small...)
	segment := append([]byte{0xff, 0xe1, byte((len(body) + 2) >> 8), byte(len(body) + 2)}, body...)
	content := slices.Concat(whole[:2], segment, whole[2:], bytes.Repeat([]byte("film"), 20_000))
	if err := look(t, content); err != nil {
		t.Errorf("whole: %v", err)
	}
	torn := slices.Concat(whole[:2], segment, whole[2:len(whole)/2], bytes.Repeat([]byte{0}, 10_000))
	if len(torn) <= tail {
		t.Fatalf("%d bytes prove nothing", len(torn))
	}
	if err := look(t, torn); err == nil || !strings.Contains(err.Error(), "breaks off") {
		t.Errorf("torn: %v", err)
	}
}
