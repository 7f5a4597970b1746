package photo

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"slices"
	"testing"
)

// What the tests put into files and look for in what comes out.
const (
	secretCamera  = "SECRET-CAMERA"
	secretComment = "SECRET-COMMENT"
	secretXMP     = "SECRET-XMP"
	secretIPTC    = "SECRET-IPTC"
	secretPreview = "SECRET-PREVIEW"
	secretTrailer = "SECRET-SECOND-PICTURE"
)

// exif returns an Exif block with a camera, an orientation and a place (Exif 2.3, 4.6: from memory; imagemeta reads it as meant, which a
// test asserts). The place is in the open sea.
func exif(order binary.AppendByteOrder, orientation uint16) []byte {
	const ascii, short, long, rational = 2, 3, 4, 5
	const ifd0, gps, camera, latitude, longitude = 8, 50, 104, 120, 144
	b := []byte("II*\x00")
	if order == binary.AppendByteOrder(binary.BigEndian) {
		b = []byte("MM\x00*")
	}
	u16 := func(values ...uint16) {
		for _, v := range values {
			b = order.AppendUint16(b, v)
		}
	}
	u32 := func(values ...uint32) {
		for _, v := range values {
			b = order.AppendUint32(b, v)
		}
	}
	u32(ifd0)
	u16(3)
	u16(271, ascii)
	u32(uint32(len(secretCamera)+1), camera)
	u16(274, short)
	u32(1)
	u16(orientation, 0)
	u16(0x8825, long)
	u32(1, gps)
	u32(0)
	u16(4)
	u16(1, ascii)
	u32(2)
	b = append(b, 'N', 0, 0, 0)
	u16(2, rational)
	u32(3, latitude)
	u16(3, ascii)
	u32(2)
	b = append(b, 'W', 0, 0, 0)
	u16(4, rational)
	u32(3, longitude)
	u32(0)
	b = append(b, make([]byte, camera-len(b))...)
	b = append(b, secretCamera...)
	b = append(b, make([]byte, latitude-len(b))...)
	u32(50, 1, 30, 1, 0, 1)
	u32(20, 1, 15, 1, 0, 1)
	return append(b, secretPreview...)
}

const xmp = `<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">` +
	`<rdf:Description xmlns:dc="http://purl.org/dc/elements/1.1/" dc:creator="` + secretXMP + `"/></rdf:RDF></x:xmpmeta>`

// segment returns a segment of a JPEG.
func segment(marker byte, content string) []byte {
	return slices.Concat([]byte{0xff, marker}, binary.BigEndian.AppendUint16(nil, uint16(len(content)+2)), []byte(content))
}

func exifSegment(block []byte) []byte { return segment(0xe1, "Exif\x00\x00"+string(block)) }

func profileSegment(profile []byte) []byte {
	return segment(0xe2, "ICC_PROFILE\x00\x01\x01"+string(profile))
}

// withSegments puts segments after the first two bytes of a JPEG.
func withSegments(file []byte, segments ...[]byte) []byte {
	return slices.Concat(file[:2], slices.Concat(segments...), file[2:])
}

// taggedJPEG returns a JPEG with every kind of tag that a phone or an editor leaves, and a second picture behind the first.
func taggedJPEG(t testing.TB, p image.Image, orientation uint16) []byte {
	t.Helper()
	iptc := "\x1c\x02\x50" + string([]byte{0, byte(len(secretIPTC))}) + secretIPTC
	if len(iptc)%2 == 1 {
		iptc += "\x00"
	}
	file := withSegments(jpegOf(t, p),
		segment(0xe0, "JFIF\x00\x01\x02\x00\x00\x01\x00\x01\x00\x00"),
		exifSegment(exif(binary.LittleEndian, orientation)),
		segment(0xe1, "http://ns.adobe.com/xap/1.0/\x00"+xmp),
		segment(0xed, "Photoshop 3.0\x008BIM\x04\x04\x00\x00\x00\x00\x00"+string([]byte{byte(len(iptc))})+iptc),
		profileSegment(swappedProfile()),
		segment(0xfe, secretComment),
	)
	return append(file, secretTrailer...)
}

// chunk returns a chunk of a PNG.
func chunk(name, content string) []byte {
	b := binary.BigEndian.AppendUint32(nil, uint32(len(content)))
	b = append(b, name+content...)
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[4:]))
}

// withChunks puts chunks after the first one of a PNG, which always has 25 bytes and follows 8.
func withChunks(file []byte, chunks ...[]byte) []byte {
	return slices.Concat(file[:33], slices.Concat(chunks...), file[33:])
}

func taggedPNG(t testing.TB, p image.Image) []byte {
	t.Helper()
	return append(withChunks(pngOf(t, p),
		chunk("tEXt", "Comment\x00"+secretComment),
		chunk("zTXt", "Author\x00\x00"+packed(t, secretCamera)),
		chunk("iTXt", "XML:com.adobe.xmp\x00\x00\x00\x00\x00"+xmp),
		chunk("eXIf", string(exif(binary.BigEndian, 1))),
		chunk("iCCP", "swapped\x00\x00"+packed(t, string(swappedProfile()))),
		chunk("tIME", "\x07\xea\x03\x01\x0c\x00\x00"),
	), secretTrailer...)
}

func packed(t testing.TB, content string) string {
	t.Helper()
	var b bytes.Buffer
	z := zlib.NewWriter(&b)
	if _, err := z.Write([]byte(content)); err != nil {
		t.Fatal(err)
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// swappedProfile returns a colour profile (ICC.1, version 2.4, from memory) of sRGB's primaries with red and blue the other way round, so that a
// picture of pure red is meant to be seen as pure blue. The primaries are those of IEC 61966-2-1 adapted to D50, from memory; swapped,
// they cancel out, so that the test does not hang on their last digit.
func swappedProfile() []byte {
	fixed := func(v float64) []byte { return binary.BigEndian.AppendUint32(nil, uint32(int32(v*65536))) }
	xyz := func(x, y, z float64) string {
		return "XYZ \x00\x00\x00\x00" + string(slices.Concat(fixed(x), fixed(y), fixed(z)))
	}
	const gamma = "curv\x00\x00\x00\x00\x00\x00\x00\x01\x02\x33\x00\x00"
	tags := []struct{ name, content string }{
		{"wtpt", xyz(0.9642, 1, 0.8249)},
		{"bXYZ", xyz(0.4361, 0.2225, 0.0139)},
		{"gXYZ", xyz(0.3851, 0.7169, 0.0971)},
		{"rXYZ", xyz(0.1431, 0.0606, 0.7141)},
		{"rTRC", gamma}, {"gTRC", gamma}, {"bTRC", gamma},
	}
	header := make([]byte, 128)
	copy(header[8:], "\x02\x40\x00\x00mntrRGB XYZ ")
	copy(header[36:], "acsp")
	copy(header[68:], slices.Concat(fixed(0.9642), fixed(1), fixed(0.8249)))
	table := binary.BigEndian.AppendUint32(nil, uint32(len(tags)))
	var data []byte
	for _, tag := range tags {
		table = append(table, tag.name...)
		table = binary.BigEndian.AppendUint32(table, uint32(128+4+12*len(tags)+len(data)))
		table = binary.BigEndian.AppendUint32(table, uint32(len(tag.content)))
		data = append(data, tag.content...)
	}
	profile := slices.Concat(header, table, data)
	binary.BigEndian.PutUint32(profile, uint32(len(profile)))
	return profile
}

func jpegOf(t testing.TB, p image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, p, &jpeg.Options{Quality: 100}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func pngOf(t testing.TB, p image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// painted returns a picture whose colours a function gives.
func painted(width, height int, at func(x, y int) color.NRGBA) *image.NRGBA {
	p := image.NewNRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			p.SetNRGBA(x, y, at(x, y))
		}
	}
	return p
}

var (
	red   = color.NRGBA{255, 0, 0, 255}
	green = color.NRGBA{0, 255, 0, 255}
	blue  = color.NRGBA{0, 0, 255, 255}
	white = color.NRGBA{255, 255, 255, 255}
	black = color.NRGBA{0, 0, 0, 255}
)

// corners returns a picture with a colour in each quarter: red and green above, blue and white below.
func corners(width, height int) *image.NRGBA {
	return painted(width, height, func(x, y int) color.NRGBA {
		return []color.NRGBA{red, green, blue, white}[x*2/width+y*2/height*2]
	})
}

// shaded returns a picture with thousands of colours, as a photograph has.
func shaded(width, height int) *image.NRGBA {
	return painted(width, height, func(x, y int) color.NRGBA {
		return color.NRGBA{uint8(x * 255 / width), uint8(y * 255 / height), uint8((x*7 + y*13) % 256), 255}
	})
}
