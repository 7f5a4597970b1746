package photo

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"image/color"
	"image/gif"
	"math"
	"path"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/bep/imagemeta"
)

// TestUpright stores one picture in each of the eight ways that Exif knows and wants it back. Where the first row and the first column of
// the file lie in the picture is typed from Exif 2.3, table 6 (also TIFF 6.0, page 36): from memory.
func TestUpright(t *testing.T) {
	const width, height = 96, 64
	picture := corners(width, height)
	ways := []struct {
		firstRow, firstColumn string
	}{
		{"top", "left"}, {"top", "right"}, {"bottom", "right"}, {"bottom", "left"},
		{"left", "top"}, {"right", "top"}, {"right", "bottom"}, {"left", "bottom"},
	}
	for i, way := range ways {
		for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
			name := fmt.Sprintf("orientation %d, %v", i+1, order)
			stored := storedAs(picture, way.firstRow, way.firstColumn)
			block := exif(order, uint16(i+1))
			for _, content := range [][]byte{
				withSegments(jpegOf(t, stored), exifSegment(block)),
				withChunks(pngOf(t, stored), chunk("eXIf", string(block))),
			} {
				made := makeOne(t, name, content)
				if made.Width != width || made.Height != height {
					t.Errorf("%s: %d × %d, want %d × %d", name, made.Width, made.Height, width, height)
				}
				wantCorners(t, name, decoded(t, made), red, green, blue, white)
			}
		}
	}
}

// storedAs returns the rows of a file whose first row and column lie at those sides of the picture.
func storedAs(picture *image.NRGBA, firstRow, firstColumn string) *image.NRGBA {
	width, height := picture.Rect.Dx(), picture.Rect.Dy()
	// place sets the co-ordinate of the picture that lies n from a side.
	place := func(side string, n int, x, y *int) {
		switch side {
		case "top":
			*y = n
		case "bottom":
			*y = height - 1 - n
		case "left":
			*x = n
		case "right":
			*x = width - 1 - n
		}
	}
	rows, columns := height, width
	if firstRow == "left" || firstRow == "right" {
		rows, columns = width, height
	}
	return painted(columns, rows, func(column, row int) color.NRGBA {
		var x, y int
		place(firstRow, row, &x, &y)
		place(firstColumn, column, &x, &y)
		return picture.NRGBAAt(x, y)
	})
}

func TestOrientationThatCantBeRead(t *testing.T) {
	good := exif(binary.LittleEndian, 6)
	odd := func(change func(b []byte)) []byte {
		b := slices.Clone(good)
		change(b)
		return b
	}
	tests := []struct {
		name string
		exif []byte
	}{
		{"none", nil},
		{"nought", exif(binary.LittleEndian, 0)},
		{"nine", exif(binary.LittleEndian, 9)},
		{"no such byte order", odd(func(b []byte) { b[0] = 'X' })},
		{"the directory lies outside", odd(func(b []byte) { b[6] = 9 })},
		{"the directory lies at the end of the world", odd(func(b []byte) { copy(b[4:], "\xff\xff\xff\xff") })},
		{"the directory is cut off", good[:20]},
		{"the number is a text", odd(func(b []byte) { b[24] = 2 })},
	}
	for _, test := range tests {
		content := jpegOf(t, corners(96, 64))
		if test.exif != nil {
			content = withSegments(content, exifSegment(test.exif))
		}
		wantCorners(t, test.name, decoded(t, makeOne(t, test.name, content)), red, green, blue, white)
	}

	// What is broken after the orientation does not matter.
	content := withSegments(jpegOf(t, storedAs(corners(96, 64), "right", "top")), exifSegment(good[:40]))
	wantCorners(t, "cut off after the orientation", decoded(t, makeOne(t, "cut", content)), red, green, blue, white)
}

func TestNothingIsLeft(t *testing.T) {
	tests := []struct {
		name    string
		format  imagemeta.ImageFormat
		content []byte
		ending  string
		secrets []string
		tags    []string // some that the independent reader finds in the file as made; it reads no XMP in a PNG
	}{
		{"shed.jpg", imagemeta.JPEG, taggedJPEG(t, shaded(600, 400), 6), ".jpg",
			[]string{secretCamera, secretComment, secretXMP, secretIPTC, secretPreview, secretTrailer},
			[]string{"Make", "Orientation", "GPSLatitude", "GPSLongitude", "Creator", "By-line"}},
		{"drawing.png", imagemeta.PNG, taggedPNG(t, corners(600, 400)), ".png",
			[]string{secretCamera, secretComment, secretXMP, secretPreview, secretTrailer},
			[]string{"Make", "Orientation", "GPSLatitude", "GPSLongitude"}},
		{"screen.png", imagemeta.PNG, taggedPNG(t, shaded(600, 400)), ".jpg",
			[]string{secretCamera, secretComment, secretXMP, secretPreview, secretTrailer},
			[]string{"Make", "Orientation", "GPSLatitude", "GPSLongitude"}},
	}
	for _, test := range tests {
		// That the tags are there to be found shows that the search is able to.
		before := tagsIn(t, test.format, test.content)
		for _, tag := range test.tags {
			if !slices.Contains(before, tag) {
				t.Errorf("%s: the reader of tags finds no %s in the file as made: it has %q", test.name, tag, before)
			}
		}
		for _, made := range makeAll(t, test.name, test.content) {
			if path.Ext(made.Name) != test.ending {
				t.Errorf("%s: %s, want a %s", test.name, made.Name, test.ending)
			}
			format := imagemeta.JPEG
			if test.ending == ".png" {
				format = imagemeta.PNG
			}
			if left := tagsIn(t, format, made.Content); len(left) != 0 {
				t.Errorf("%s: %s still has %q", test.name, made.Name, left)
			}
			for _, secret := range append(test.secrets, "Exif", "eXIf", "xpacket", "xmpmeta", "ns.adobe.com", "8BIM",
				"ICC_PROFILE", "iCCP", "acsp", "tEXt", "iTXt", "zTXt") {
				if bytes.Contains(made.Content, []byte(secret)) {
					t.Errorf("%s: %s still has %q", test.name, made.Name, secret)
				}
			}
			wantPixelsAlone(t, made)
		}
	}
}

// tagsIn returns the names of the tags that an independent reader finds.
func tagsIn(t *testing.T, format imagemeta.ImageFormat, content []byte) []string {
	t.Helper()
	var names []string
	_, err := imagemeta.Decode(imagemeta.Options{
		R: bytes.NewReader(content), ImageFormat: format, Sources: imagemeta.EXIF | imagemeta.IPTC | imagemeta.XMP,
		ShouldHandleTag: func(imagemeta.TagInfo) bool { return true },
		HandleTag: func(tag imagemeta.TagInfo) error {
			names = append(names, tag.Tag)
			return nil
		},
		Warnf: t.Logf,
	})
	if err != nil {
		t.Fatal(err)
	}
	return names
}

// wantPixelsAlone walks a file by its standard and wants nothing but what it takes to read the pixels.
func wantPixelsAlone(t testing.TB, made Made) {
	t.Helper()
	var parts []string
	content := made.Content
	if path.Ext(made.Name) == ".png" {
		// PNG, third edition, 5.3 and 5.6: read in the standard's table of chunks, from memory.
		for i := 8; i < len(content); {
			parts = append(parts, string(content[i+4:i+8]))
			i += 12 + int(binary.BigEndian.Uint32(content[i:]))
		}
		for _, part := range parts {
			if !slices.Contains([]string{"IHDR", "PLTE", "tRNS", "IDAT", "IEND"}, part) {
				t.Errorf("%s has the chunks %q", made.Name, parts)
				return
			}
		}
		return
	}
	// ISO/IEC 10918-1, table B.1: DQT, SOF0, DHT, SOS; from memory. After SOS come the pixels, where ff is followed by 00, up to EOI.
	i := 2
	for content[i+1] != 0xda {
		if !slices.Contains([]byte{0xdb, 0xc0, 0xc4}, content[i+1]) {
			t.Errorf("%s has the segment %x at %d", made.Name, content[i:i+2], i)
			return
		}
		i += 2 + int(binary.BigEndian.Uint16(content[i+2:]))
	}
	for i += 2; i+1 < len(content); i++ {
		if content[i] == 0xff && content[i+1] != 0 {
			break
		}
	}
	if i+2 != len(content) || content[i+1] != 0xd9 {
		t.Errorf("%s goes on for %d bytes after its pixels", made.Name, len(content)-i)
	}
}

func TestSizes(t *testing.T) {
	tests := []struct {
		name        string
		width       int
		height      int
		orientation uint16
		want        string
	}{
		{"wide", 2000, 1000, 1, "1600x800 480x240"},
		{"a pixel wider than large", 1601, 40, 1, "1600x40 480x12"},
		{"as large", 1600, 1200, 1, "1600x1200 480x360"},
		{"never enlarged", 1000, 500, 1, "1000x500 480x240"},
		{"a pixel wider than small", 481, 100, 1, "481x100 480x100"},
		{"as small", 480, 320, 1, "480x320"},
		{"smaller than small", 30, 20, 1, "30x20"},
		{"one pixel", 1, 1, 1, "1x1"},
		{"upright, the turned one is wide", 1000, 2000, 6, "1600x800 480x240"},
		{"turned, the upright one is tall", 2000, 1000, 8, "1000x2000 480x960"},
		{"a line", 2000, 1, 1, "1600x1 480x1"},
	}
	for _, test := range tests {
		content := withSegments(jpegOf(t, image.NewGray(image.Rect(0, 0, test.width, test.height))),
			exifSegment(exif(binary.LittleEndian, test.orientation)))
		var got []string
		for _, made := range makeAll(t, test.name, content) {
			got = append(got, fmt.Sprintf("%dx%d", made.Width, made.Height))
			if b := decoded(t, made).Bounds(); b.Dx() != made.Width || b.Dy() != made.Height {
				t.Errorf("%s: the file is %d × %d, its word is %d × %d", test.name, b.Dx(), b.Dy(), made.Width, made.Height)
			}
		}
		if strings.Join(got, " ") != test.want {
			t.Errorf("%s: %q, want %q", test.name, got, test.want)
		}
	}
}

// TestShrinkingAverages wants stripes as fine as a pixel to become an even grey: half of black and white is 127.5 by definition. Picking
// pixels would give black, white or bands.
func TestShrinkingAverages(t *testing.T) {
	stripes := painted(3200, 320, func(x, _ int) color.NRGBA { return []color.NRGBA{black, white}[x%2] })
	for _, made := range makeAll(t, "stripes", pngOf(t, stripes)) {
		p := decoded(t, made)
		for x := 4; x < made.Width-4; x++ {
			r, _, _, _ := p.At(x, made.Height/2).RGBA()
			if got := float64(r) / 257; got < 120 || got > 135 {
				t.Fatalf("%s: %.0f at column %d, want 127.5 ± 7.5", made.Name, got, x)
			}
		}
	}
}

func TestColourProfile(t *testing.T) {
	picture, swapped := corners(96, 64), swappedProfile()
	broken := slices.Clone(swapped)
	binary.BigEndian.PutUint32(broken[128:], 0x00ffffff)
	endless := slices.Clone(swapped) // its last curve claims four thousand million points
	binary.BigEndian.PutUint32(endless[len(endless)-8:], 0xffffffff)
	outside := slices.Clone(swapped)
	binary.BigEndian.PutUint32(outside[128+4+4:], 0xfffffff0)
	tests := []struct {
		name                  string
		content               []byte
		topLeft, below, right color.NRGBA
	}{
		{"none", jpegOf(t, picture), red, blue, green},
		{"red and blue swapped", withSegments(jpegOf(t, picture), profileSegment(swapped)), blue, red, green},
		{"in two parts, the second first", withSegments(jpegOf(t, picture),
			segment(0xe2, "ICC_PROFILE\x00\x02\x02"+string(swapped[100:])),
			segment(0xe2, "ICC_PROFILE\x00\x01\x02"+string(swapped[:100]))), blue, red, green},
		{"a part is missing", withSegments(jpegOf(t, picture), segment(0xe2, "ICC_PROFILE\x00\x01\x02"+string(swapped[:100]))), red, blue, green},
		{"a table too long", withSegments(jpegOf(t, picture), profileSegment(broken)), red, blue, green},
		{"a tag outside", withSegments(jpegOf(t, picture), profileSegment(outside)), red, blue, green},
		{"an endless curve", withSegments(jpegOf(t, picture), profileSegment(endless)), red, blue, green},
		{"in a drawing", withChunks(pngOf(t, picture), chunk("iCCP", "x\x00\x00"+packed(t, string(swapped)))), blue, red, green},
		{"too long when unpacked", withChunks(pngOf(t, picture),
			chunk("iCCP", "x\x00\x00"+packed(t, string(swapped)+strings.Repeat("\x00", maxProfile)))), red, blue, green},
		{"not packed", withChunks(pngOf(t, picture), chunk("iCCP", "x\x00\x00"+string(swapped))), red, blue, green},
	}
	for _, test := range tests {
		wantCorners(t, test.name, decoded(t, makeOne(t, test.name, test.content)), test.topLeft, test.right, test.below, white)
	}
}

// TestProfileCurve recomputes colours from the definitions: the profile's power of 2.19921875, then the curve of sRGB (IEC 61966-2-1, from
// memory), with red and blue swapped by the profile.
func TestProfileCurve(t *testing.T) {
	level := func(v uint8) float64 {
		linear := math.Pow(float64(v)/255, 2.19921875)
		if linear <= 0.0031308 {
			return 255 * 12.92 * linear
		}
		return 255 * (1.055*math.Pow(linear, 1/2.4) - 0.055)
	}
	// A drawing keeps its pixels, so that nothing but the profile has changed them.
	at := func(x, y int) color.NRGBA { return color.NRGBA{uint8(x), uint8(y), uint8((x*3 + y*5) % 256), 255} }
	picture := painted(256, 256, at)
	picture.SetNRGBA(255, 255, color.NRGBA{}) // which can be seen through, and makes it a drawing
	got := decoded(t, makeOne(t, "curve", withChunks(pngOf(t, picture), chunk("iCCP", "x\x00\x00"+packed(t, string(swappedProfile()))))))
	for y := range 255 {
		for x := range 255 {
			c, was := color.NRGBAModel.Convert(got.At(x, y)).(color.NRGBA), at(x, y)
			for _, pair := range [][2]float64{{float64(c.R), level(was.B)}, {float64(c.G), level(was.G)}, {float64(c.B), level(was.R)}} {
				if math.Abs(pair[0]-pair[1]) > 2 {
					t.Fatalf("%v becomes %v, where %.1f is due", was, c, pair[1])
				}
			}
		}
	}
}

func TestDrawingOrPhotograph(t *testing.T) {
	colours := func(n int) image.Image {
		return painted(64, 64, func(x, y int) color.NRGBA { i := (y*64 + x) % n; return color.NRGBA{uint8(i), uint8(i >> 8), 9, 255} })
	}
	glass := shaded(64, 64)
	glass.SetNRGBA(63, 63, color.NRGBA{1, 2, 3, 254})
	tests := []struct {
		name    string
		content []byte
		want    string
	}{
		{"two colours", pngOf(t, colours(2)), ".png"},
		{"256 colours", pngOf(t, colours(256)), ".png"},
		{"257 colours", pngOf(t, colours(257)), ".jpg"},
		{"thousands of colours", pngOf(t, shaded(64, 64)), ".jpg"},
		{"one pixel that can be seen through", pngOf(t, glass), ".png"},
		{"a JPEG of two colours", jpegOf(t, colours(2)), ".jpg"},
	}
	for _, test := range tests {
		made := makeOne(t, test.name, test.content)
		if path.Ext(made.Name) != test.want {
			t.Errorf("%s: %s, want a %s", test.name, made.Name, test.want)
		}
		wantPixelsAlone(t, made)
	}

	// A drawing that keeps its size keeps every pixel.
	for name, drawing := range map[string]image.Image{"256 colours": colours(256), "seen through": glass} {
		kept := decoded(t, makeOne(t, name, pngOf(t, drawing)))
		for y := range 64 {
			for x := range 64 {
				got := color.NRGBAModel.Convert(kept.At(x, y))
				if want := color.NRGBAModel.Convert(drawing.At(x, y)); got != want {
					t.Fatalf("%s: %v at %d, %d, want %v", name, got, x, y, want)
				}
			}
		}
	}
}

func TestWhatCantBeSeenHasNoColour(t *testing.T) {
	rubbed := painted(600, 40, func(x, _ int) color.NRGBA {
		if x < 300 {
			return color.NRGBA{200, 10, 10, 0}
		}
		return green
	})
	for _, made := range makeAll(t, "rubbed out", pngOf(t, rubbed)) {
		got := color.NRGBAModel.Convert(decoded(t, made).At(10, 10))
		if got != (color.NRGBA{}) {
			t.Errorf("%s: %v where nothing can be seen", made.Name, got)
		}
	}
}

func TestFirstFrame(t *testing.T) {
	palette := color.Palette{color.NRGBA{}, red, blue}
	first, second := image.NewPaletted(image.Rect(32, 0, 64, 64), palette), image.NewPaletted(image.Rect(0, 0, 64, 64), palette)
	for i := range first.Pix {
		first.Pix[i] = 1
	}
	for i := range second.Pix {
		second.Pix[i] = 2
	}
	var b bytes.Buffer
	film := gif.GIF{Image: []*image.Paletted{first, second}, Delay: []int{9, 9}, Config: image.Config{Width: 64, Height: 64, ColorModel: palette}}
	if err := gif.EncodeAll(&b, &film); err != nil {
		t.Fatal(err)
	}
	made := makeOne(t, "film.gif", b.Bytes())
	if path.Ext(made.Name) != ".png" {
		t.Errorf("%s, want a .png", made.Name)
	}
	wantCorners(t, "film", decoded(t, made), color.NRGBA{}, red, color.NRGBA{}, red)
	wantPixelsAlone(t, made)
}

func TestSameBytes(t *testing.T) {
	content := taggedJPEG(t, shaded(1700, 900), 6)
	before := runtime.GOMAXPROCS(1)
	defer runtime.GOMAXPROCS(before)
	want := makeAll(t, "a.jpg", content)
	runtime.GOMAXPROCS(8)
	var wait sync.WaitGroup
	for range 6 {
		wait.Go(func() {
			got, err := Make("a.jpg", content, Usual)
			if err != nil || !slices.EqualFunc(got, want, same) {
				t.Errorf("another run gives other pictures (%v)", err)
			}
		})
	}
	wait.Wait()
}

func same(a, b Made) bool {
	return a.Name == b.Name && a.Width == b.Width && a.Height == b.Height && bytes.Equal(a.Content, b.Content)
}

// makeAll makes the pictures of a file by the usual recipe.
func makeAll(t testing.TB, name string, content []byte) []Made {
	t.Helper()
	made, err := Make(name, content, Usual)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return made
}

// makeOne makes the only picture of a small file.
func makeOne(t testing.TB, name string, content []byte) Made {
	t.Helper()
	made := makeAll(t, name, content)
	if len(made) != 1 {
		t.Fatalf("%s: %d pictures, want 1", name, len(made))
	}
	return made[0]
}

func decoded(t testing.TB, made Made) image.Image {
	t.Helper()
	p, _, err := image.Decode(bytes.NewReader(made.Content))
	if err != nil {
		t.Fatalf("%s: %v", made.Name, err)
	}
	return p
}

// wantCorners wants the colours in the middle of the four quarters, in the order of reading, within what a JPEG blurs.
func wantCorners(t testing.TB, name string, p image.Image, want ...color.NRGBA) {
	t.Helper()
	b := p.Bounds()
	for i, w := range want {
		at := image.Pt(b.Dx()/4+i%2*b.Dx()/2, b.Dy()/4+i/2*b.Dy()/2)
		got := color.NRGBAModel.Convert(p.At(at.X, at.Y)).(color.NRGBA)
		for _, pair := range [][2]uint8{{got.R, w.R}, {got.G, w.G}, {got.B, w.B}, {got.A, w.A}} {
			if off := int(pair[0]) - int(pair[1]); off < -8 || off > 8 {
				t.Errorf("%s: %v at %v, want %v", name, got, at, w)
				break
			}
		}
	}
}
