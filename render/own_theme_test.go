package render

import (
	"bytes"
	"encoding/xml"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"strings"
	"testing"
)

func pictureOf(t *testing.T) image.Image {
	t.Helper()
	p := image.NewNRGBA(image.Rect(0, 0, 3, 2))
	for i := range 6 {
		p.SetNRGBA(i%3, i/3, color.NRGBA{R: uint8(40 * i), G: 90, B: 10, A: 255})
	}
	return p
}

// taggedPNG is a picture with a text chunk before its end (PNG Specification, Third Edition, 11.3.3.2, from memory).
func taggedPNG(t *testing.T) string {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, pictureOf(t)); err != nil {
		t.Fatal(err)
	}
	body := "tEXtComment\x00taken in Wombat Lane"
	sum := crc32.ChecksumIEEE([]byte(body))
	chunk := string([]byte{0, 0, 0, byte(len(body) - 4)}) + body + string([]byte{byte(sum >> 24), byte(sum >> 16), byte(sum >> 8), byte(sum)})
	whole := b.String()
	end := len(whole) - 12
	return whole[:end] + chunk + whole[end:] + "Wombat after the end"
}

// taggedJPEG is a picture with a comment (ITU-T T.81, B.2.4.5: FF FE and a length, from memory).
func taggedJPEG(t *testing.T) string {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, pictureOf(t), nil); err != nil {
		t.Fatal(err)
	}
	whole, words := b.String(), "taken in Wombat Lane"
	return whole[:2] + "\xff\xfe" + string([]byte{0, byte(len(words) + 2)}) + words + whole[2:]
}

func themed(t *testing.T, more map[string]string) *Memory {
	t.Helper()
	m := rendered(t, inMemory(with(shed(), more)))
	checkSite(t, m)
	return m
}

func TestTheJournalsOwnThemeFollowsTheChosenOne(t *testing.T) {
	m := themed(t, map[string]string{
		"theme/b.css": "\uFEFF/* Wombat's second sheet */\n.plate{background:url( 'my nut.svg#face' ) no-repeat,url(Paper.PNG)}a/* x */b{filter:url(#fade)}",
		"theme/a.css": "@font-face { font-family: Shed; src: url(fonts/shed.woff2) format(\"woff2\"); }\n.machine { background: image-set(\"photo.jpg\" 1x, url(none.png) 2x); }\n",
		"theme/my nut.svg": "<?xml version=\"1.0\"?><!-- Wombat --><svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:shop=\"urn:shop\" viewBox=\"0 0 8 8\" shop:file=\"/home/wombat/nut\"><metadata><shop:owner>Wombat</shop:owner></metadata>" +
			"<shop:view><g id=\"hidden\"/></shop:view><g id=\"face\"><path d=\"M1 1h6v6z\"/><text>a &lt; b</text></g></svg>",
		"theme/Paper.PNG":        taggedPNG(t),
		"theme/photo.jpg":        taggedJPEG(t),
		"theme/fonts/shed.woff2": "wOF2 a font",
		"theme/unnamed.svg":      "<svg xmlns=\"http://www.w3.org/2000/svg\"/>",
		"theme/notes.txt":        "Wombat",
	})
	css := string(m.Page("theme.css"))
	own := css[strings.Index(css, "@font-face"):]
	const want = "@font-face { font-family: Shed; src: url(\"theme/fonts.shed.woff2\") format(\"woff2\"); }\n" +
		".machine { background: image-set(\"theme/photo.jpg\" 1x, url(\"about:invalid\") 2x); }\n\n\n" +
		"/**/\n.plate{background:url( \"theme/my-nut.svg#face\" ) no-repeat,url(\"theme/paper.png\")}a/**/b{filter:url(\"#fade\")}\n"
	if own != want {
		t.Errorf("the style sheet ends with\n%s\nwanted\n%s", own, want)
	}
	if m.Page("theme/unnamed.svg") != nil || m.Page("theme/notes.txt") != nil {
		t.Error("files that no style sheet names are on the site")
	}
	if string(m.Page("theme/fonts.shed.woff2")) != "wOF2 a font" {
		t.Error("the font is not as it was")
	}
	if strings.Contains(strings.ToLower(everything(m)), "wombat") {
		t.Error("a comment, or what a picture tells beside its looks, got out")
	}
	drawing := string(m.Page("theme/my-nut.svg"))
	if err := xml.Unmarshal([]byte(drawing), new(struct{})); err != nil || !strings.Contains(drawing, "<text>a &lt; b</text></g></svg>") || strings.Contains(drawing, "hidden") {
		t.Errorf("the drawing: %v\n%s", err, drawing)
	}
	got, err := png.Decode(bytes.NewReader(m.Page("theme/paper.png")))
	if err != nil {
		t.Fatalf("the PNG: %v", err)
	}
	if dot := color.NRGBAModel.Convert(got.At(2, 1)); got.Bounds() != pictureOf(t).Bounds() || dot != pictureOf(t).At(2, 1) {
		t.Errorf("the PNG is %v, with %v in its corner", got.Bounds(), dot)
	}
	if _, err := jpeg.Decode(bytes.NewReader(m.Page("theme/photo.jpg"))); err != nil {
		t.Errorf("the JPEG: %v", err)
	}
}

// A style sheet that names what no page may load is left out whole, and so is one that never ends; the others stay.
func TestAStyleSheetThatAsksOutsideIsLeftOut(t *testing.T) {
	for _, bad := range []string{
		".bad { background: url(https://example.org/a.png); }", ".bad { } @import 'good.css';", ".bad { background: url(//example.org/a.png); }",
		".bad { background: url(/a.png) }", ".bad { src: url(../build.toml) }", ".bad { background: \\55rl(\\68 ttp:a) }", ".bad { background: url(data:,a) }",
		".bad { color: red", ".bad { } /* and", "\xff.bad { }",
	} {
		m := themed(t, map[string]string{"theme/a.css": bad, "theme/z.css": ".good { color: green; }"})
		if css := string(m.Page("theme.css")); strings.Contains(css, "bad") || strings.Contains(css, "example.org") || !strings.Contains(css, ".good { color: green; }") {
			t.Errorf("%s: the style sheet ends with %s", bad, css[len(css)-200:])
		}
	}
}

// Two files whose names fold to one are two files on the site.
func TestFilesOfAThemeDoNotMeet(t *testing.T) {
	const drawing = "<svg xmlns=\"http://www.w3.org/2000/svg\"><title>"
	m := themed(t, map[string]string{
		"theme/a.css":     ".a{background:url(x/nut.svg)}.b{background:url('x.nut.svg')}",
		"theme/x/nut.svg": drawing + "one</title></svg>", "theme/x.nut.svg": drawing + "two</title></svg>",
	})
	if one, two := string(m.Page("theme/x.nut.svg")), string(m.Page("theme/x.nut~2.svg")); !strings.Contains(one, "one") || !strings.Contains(two, "two") {
		t.Errorf("the files are %q and %q", one, two)
	}
}
