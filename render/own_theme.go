package render

import (
	"bytes"
	"encoding/binary"
	"encoding/xml"
	"fmt"
	"io"
	"path"
	"slices"
	"strconv"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/render/photo"
)

// themePictures is how a photo of a theme is made fit to be published: at its own size up to one that no screen needs more of.
var themePictures = photo.Recipe{Large: 4000, Small: 3999, Quality: 88}

// withTheme adds the fonts and pictures of the journal's own theme, as far as its style sheets name them: under plain names, and a picture
// without what it tells beside its looks.
func (s *site) withTheme(sheets []sheet) []sheet {
	s.themeFiles = map[string]string{}
	used := map[string]bool{}
	for _, style := range s.ownStyles() {
		for _, a := range style.Addresses {
			name, _, _ := a.Local()
			file := s.journal.Theme.Find(name)
			if file == nil || file.Reason != "" || s.themeFiles[name] != "" {
				continue
			}
			content, err := bare(file)
			if err != nil {
				s.leftOff = append(s.leftOff, LeftOff{file.Name, err.Error()})
				continue
			}
			to := themeFileName(name, used)
			s.themeFiles[name] = to
			sheets = append(sheets, sheet{to, func(p *page) { p.bytes = append(p.bytes, content...) }})
		}
	}
	return sheets
}

// ownStyles are the style sheets of the journal's own theme that can be put on a site.
func (s *site) ownStyles() []*parse.Style {
	var list []*parse.Style
	for _, style := range s.journal.Theme.Styles {
		if !style.Broken && !style.Outside() {
			list = append(list, style)
		}
	}
	return list
}

// themeFileName gives a file of the theme a name of its own below `theme/`, its ending kept.
func themeFileName(name string, used map[string]bool) string {
	ending := strings.ToLower(path.Ext(name))
	base := "theme/" + fileName(strings.TrimSuffix(strings.TrimPrefix(name, "theme/"), path.Ext(name)))
	to := base + ending
	for n := 2; used[to]; n++ {
		to = base + "~" + strconv.Itoa(n) + ending
	}
	used[to] = true
	return to
}

// ownStyle writes the style sheets of the journal's own theme, one after another, less their comments. Their addresses, which are relative to
// `theme/`, become relative to the site; one that leads to nothing that is published becomes one that is never asked for.
func (p *page) ownStyle() {
	for _, style := range p.site.ownStyles() {
		text, from := style.File.Text, style.From
		p.put("\n")
		comments, addresses := style.Comments, style.Addresses
		for len(comments) > 0 || len(addresses) > 0 {
			if len(addresses) == 0 || len(comments) > 0 && comments[0].Start < addresses[0].At.Start {
				p.bytes = append(p.bytes, text[from:comments[0].Start]...)
				p.put("/**/") // it may part two words
				from, comments = comments[0].End, comments[1:]
				continue
			}
			p.bytes = append(p.bytes, text[from:addresses[0].At.Start]...)
			p.put(`"`)
			p.bytes = append(p.bytes, p.site.themeAddress(addresses[0])...)
			p.put(`"`)
			from, addresses = addresses[0].At.End, addresses[1:]
		}
		p.bytes = append(p.bytes, text[from:]...)
		p.put("\n")
	}
}

// themeAddress is an address of a style sheet as it stands in that of the site, fit for a text in quotes.
func (s *site) themeAddress(a parse.StyleAddress) string {
	name, fragment, _ := a.Local()
	at := "about:invalid"
	switch {
	case name == "" && fragment != "":
		return "#" + encode(strings.TrimPrefix(fragment, "#"))
	case s.themeFiles[name] != "":
		at = encode(s.themeFiles[name])
	}
	if fragment != "" && at != "about:invalid" {
		at += "#" + encode(fragment)
	}
	return at
}

// bare returns the content of a file of the theme, less what a picture tells beside its looks.
func bare(file *model.ThemeFile) ([]byte, error) {
	switch strings.ToLower(path.Ext(file.Name)) {
	case ".jpg", ".jpeg":
		made, err := photo.Make(file.Name, file.Content, themePictures)
		if err != nil {
			return nil, err
		}
		return made[0].Content, nil
	case ".png":
		return barePNG(file.Content), nil
	case ".svg":
		return bareSVG(file.Content)
	}
	return file.Content, nil
}

// pngLooks are the chunks of a PNG that its looks need: PNG Specification, Third Edition, 4.3 and 11 (from memory). Texts, times, profiles and
// previews are others.
var pngLooks = []string{"IHDR", "PLTE", "IDAT", "IEND", "tRNS", "gAMA", "cHRM", "sRGB", "sBIT", "bKGD", "pHYs", "acTL", "fcTL", "fdAT"}

func barePNG(content []byte) []byte {
	const head, frame = 8, 12 // the signature; the length, name and check sum of a chunk
	out := slices.Clone(content[:min(head, len(content))])
	for rest := content[len(out):]; len(rest) > 0; {
		if len(rest) < frame || uint64(binary.BigEndian.Uint32(rest)) > uint64(len(rest)-frame) {
			break // cut short, and yet it could be read
		}
		size := frame + int(binary.BigEndian.Uint32(rest))
		name := string(rest[4:8])
		if slices.Contains(pngLooks, name) {
			out = append(out, rest[:size]...)
		}
		if name == "IEND" {
			break
		}
		rest = rest[size:]
	}
	return out
}

// bareSVG writes a drawing again without comments, metadata, and what a drawing program keeps for itself in elements and attributes of its
// own namespace, such as the folder that the file was exported to.
func bareSVG(content []byte) ([]byte, error) {
	d := xml.NewDecoder(bytes.NewReader(content))
	var w writer
	skipped := 0 // depth in an element that is left out
	for {
		token, err := d.RawToken()
		if err == io.EOF {
			w.put("\n")
			return w.bytes, nil
		}
		if err != nil {
			return nil, fmt.Errorf("it can't be read as a drawing: %w", err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			if skipped > 0 || !isDrawn(token.Name) {
				skipped++
				continue
			}
			w.startDrawn(token)
		case xml.EndElement:
			if skipped > 0 {
				skipped--
				continue
			}
			w.bytes = append(append(append(w.bytes, "</"...), prefixed(token.Name)...), '>')
		case xml.CharData:
			if skipped == 0 {
				w.text(string(token))
			}
		}
	}
}

func isDrawn(name xml.Name) bool {
	return (name.Space == "" || name.Space == "svg") && name.Local != "metadata"
}

func (w *writer) startDrawn(element xml.StartElement) {
	w.bytes = append(append(w.bytes, '<'), prefixed(element.Name)...)
	for _, a := range element.Attr {
		if slices.Contains([]string{"", "xml", "xlink", "xmlns"}, a.Name.Space) {
			w.bytes = append(append(append(w.bytes, ' '), prefixed(a.Name)...), '=', '"')
			w.text(a.Value)
			w.put(`"`)
		}
	}
	w.put(">")
}

func prefixed(name xml.Name) string {
	if name.Space == "" {
		return name.Local
	}
	return name.Space + ":" + name.Local
}
