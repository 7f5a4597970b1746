package photo

import (
	"encoding/binary"
	"slices"
	"strings"
	"testing"
)

func TestRefused(t *testing.T) {
	// ofSize returns the head of a PNG that claims a size.
	ofSize := func(width, height uint32) []byte {
		size := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, width), height)
		return append([]byte("\x89PNG\r\n\x1a\n"), chunk("IHDR", string(size)+"\x08\x02\x00\x00\x00")...)
	}
	heavy := append(jpegOf(t, corners(32, 32)), make([]byte, MaxBytes)...)
	whole := jpegOf(t, shaded(64, 64))
	badSum := pngOf(t, shaded(64, 64))
	badSum[len(badSum)-20] ^= 1
	tests := []struct {
		name    string
		content []byte
		want    string
	}{
		{"empty", nil, "it is no JPEG, PNG or GIF picture"},
		{"a text", []byte("torque\n"), "it is no JPEG, PNG or GIF picture"},
		{"a phone's own format", []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic"), "it is no JPEG, PNG or GIF picture"},
		{"a format that the scaler knows", []byte("P6 1 1 255\nabc"), "it is no JPEG, PNG or GIF picture"},
		{"too many bytes", heavy, "it has 40000634 bytes, more than 40 MB"},
		{"too many pixels", ofSize(12000, 9000), "it is 12000 × 9000 pixels, more than 60 megapixels"},
		{"one row too many", ofSize(10000, 6001), "it is 10000 × 6001 pixels, more than 60 megapixels"},
		{"as many pixels as may be, none there", ofSize(10000, 6000), "it is cut off: the file ends before the picture does"},
		{"a side of nothing", []byte(strings.Replace(dot, "\x01\x00\x01\x00", "\x00\x00\x01\x00", 1)), "it is 0 × 1 pixels: there is nothing to see"},
		{"two bytes", []byte("\xff\xd8"), "it is cut off: the file ends before the picture does"},
		{"cut in half", whole[:len(whole)/2], "it is broken or cut off: "},
		{"a wrong check sum", badSum, "it is broken or cut off: "},
	}
	for _, test := range tests {
		made, err := Make(test.name, test.content, Usual)
		if err == nil || !strings.HasPrefix(err.Error(), test.want) || test.want != "it is broken or cut off: " && err.Error() != test.want {
			t.Errorf("%s: %v, want %q", test.name, err, test.want)
		}
		if made != nil {
			t.Errorf("%s: refused, yet there is %s", test.name, made[0].Name)
		}
	}
}

func TestNoSuchRecipe(t *testing.T) {
	for _, r := range []Recipe{{}, {480, 480, 82}, {1600, 0, 82}, {1600, 480, 0}, {1600, 480, 101}, {-1, -2, 82}} {
		if _, err := Make("dot.gif", []byte(dot), r); err == nil {
			t.Errorf("%+v makes pictures", r)
		}
		if _, err := namesOf("dot.gif", []byte(dot), r); err == nil {
			t.Errorf("%+v gives names", r)
		}
	}
}

// TestCutAnywhere cuts a file after every byte of its head and here and there in its pixels: none may pass for a whole picture.
func TestCutAnywhere(t *testing.T) {
	for name, content := range map[string][]byte{
		"a.jpg": withSegments(jpegOf(t, corners(32, 32)), exifSegment(exif(binary.LittleEndian, 6)), profileSegment(swappedProfile())),
		"a.png": withChunks(pngOf(t, shaded(32, 32)), chunk("eXIf", string(exif(binary.LittleEndian, 6)))),
		"a.gif": []byte(dot),
	} {
		for n := range len(content) {
			made, err := Make(name, content[:n], Usual)
			// The last byte of a GIF only says that no further frame follows; the last twelve of a PNG that nothing does.
			spare := map[string]int{"a.jpg": 2, "a.png": 12, "a.gif": 1}[name]
			if err == nil && n < len(content)-spare {
				t.Errorf("%s: %d bytes of %d make a picture", name, n, len(content))
			}
			for _, m := range made {
				wantPixelsAlone(t, m)
			}
		}
	}
}

// TestAnyByteWrong changes every byte in turn: there is a reason or a clean picture.
func TestAnyByteWrong(t *testing.T) {
	for _, content := range map[string][]byte{
		"a.jpg": withSegments(jpegOf(t, corners(32, 32)), exifSegment(exif(binary.LittleEndian, 6))),
		"a.png": withChunks(pngOf(t, corners(32, 32)), chunk("eXIf", string(exif(binary.LittleEndian, 6)))),
		"a.gif": []byte(dot),
	} {
		for i := range content {
			for _, with := range []byte{0, 0xff, content[i] ^ 1} {
				wrong := slices.Clone(content)
				wrong[i] = with
				wantReasonOrPicture(t, wrong)
			}
		}
	}
}

// TestProfileWrong does so with some bytes of a colour profile, of which each costs the work of a whole chart.
func TestProfileWrong(t *testing.T) {
	content := jpegOf(t, corners(32, 32))
	for i := 0; i < len(swappedProfile()); i += 5 {
		wrong := swappedProfile()
		wrong[i] ^= 0xff
		wantReasonOrPicture(t, withSegments(content, profileSegment(wrong)))
	}
}

// TestRoomForProfile holds back profiles that ask for more room than their bytes can fill, which the reader would make first.
func TestRoomForProfile(t *testing.T) {
	good := swappedProfile()
	// with returns the profile with a number put in, counted from its end where the place is negative.
	with := func(at int, number uint32) []byte {
		b := slices.Clone(good)
		binary.BigEndian.PutUint32(b[(at+len(b))%len(b):], number)
		return b
	}
	tests := []struct {
		name    string
		profile []byte
		want    bool
	}{
		{"as made", good, true},
		{"none", nil, false},
		{"no more than a header", good[:131], false},
		{"more tags than bytes", with(128, 0x40000000), false},
		{"a table that is cut off", good[:140], false},
		{"a tag before the table's end", with(132+4, 100), false},
		{"a tag after the end", with(132+4, 0xfffffff0), false},
		{"a tag past the end", with(132+8, 0xfffffff0), false},
		{"a curve of two points", with(-8, 2), true},
		{"a curve of three points, where there is room for two", with(-8, 3), false},
		{"a curve without end", with(-8, 0xffffffff), false},
		{"too many bytes", append(slices.Clone(good), make([]byte, maxProfile)...), false},
	}
	for _, test := range tests {
		if got := isWhole(test.profile); got != test.want {
			t.Errorf("%s: %v, want %v", test.name, got, test.want)
		}
	}
	embedded := slices.Concat([]byte("mAB \x00\x00\x00\x00"), []byte("curv\x00\x00\x00\x00\x00\x00\x00\x03\x01\x02\x03\x04"))
	if areCurvesWhole(embedded) {
		t.Error("a curve of three points, where there is room for two, passes inside a conversion")
	}
	packed := "x\x00\x00" + packed(t, strings.Repeat("\x00", 10*maxProfile))
	if n := len(unpackProfile([]byte(packed))); n > maxProfile+1 {
		t.Errorf("%d bytes of a profile are unpacked", n)
	}
}

func FuzzMake(f *testing.F) {
	f.Add(taggedJPEG(f, corners(32, 32), 6))
	f.Add(taggedPNG(f, corners(32, 32)))
	f.Add([]byte(dot))
	f.Fuzz(func(t *testing.T, content []byte) { wantReasonOrPicture(t, content) })
}

func wantReasonOrPicture(t *testing.T, content []byte) {
	t.Helper()
	// A wrong byte may claim a size that is allowed and takes seconds; what big pictures do is not asked here.
	if h, err := readHead(content); err == nil && h.stored.width*h.stored.height > 1_000_000 {
		return
	}
	made, err := Make("a", content, Usual)
	if err != nil {
		if made != nil || strings.Contains(err.Error(), "\n") || err.Error() == "" {
			t.Errorf("the reason is %q with %d pictures", err, len(made))
		}
		return
	}
	if len(made) == 0 {
		t.Error("neither a picture nor a reason")
	}
	for _, m := range made {
		wantPixelsAlone(t, m)
		if b := decoded(t, m).Bounds(); b.Dx() != m.Width || b.Dy() != m.Height || m.Width > Usual.Large {
			t.Errorf("%s is %v, its word is %d × %d", m.Name, b, m.Width, m.Height)
		}
	}
}
