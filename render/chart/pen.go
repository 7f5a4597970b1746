package chart

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// markup is SVG that stands in this package's code. A constant converts to it by itself, a variable does not: so what the builder typed
// can't go out unescaped by mistake.
type markup string

// pen appends one drawing.
type pen struct{ out []byte }

func (p *pen) put(m markup) { p.out = append(p.out, m...) }

// open begins a drawing: its classes, its size in px, and what it says to those who don't see it. An image has one label, so the title
// repeats it for those who point at it; the longer description is only where there is one. A small drawing stands beside words that say all of it:
// it is there for those who see it, and the page hides it from all others.
func (p *pen) open(kind markup, size Size, width, height float64, label, description string) {
	p.put(`<svg class="chart `)
	p.put(kind)
	p.put(` `)
	p.put(size.class())
	if size.isLarge() {
		p.put(`" role="img" aria-label="`)
		p.text(label)
	}
	p.put(`" viewBox="0 0`)
	p.nums(width, height)
	p.put(`"`)
	p.attr("width", width)
	p.attr("height", height)
	if size.isLarge() {
		p.put(` font-size="13"`)
	}
	p.put(`><title>`)
	p.text(label)
	p.put(`</title>`)
	if description != "" {
		p.put(`<desc>`)
		p.text(description)
		p.put(`</desc>`)
	}
}

func (p *pen) shut() { p.put("</svg>") }

// num writes a number of the drawing: to a tenth of a px, far below what an eye tells apart.
func (p *pen) num(x float64) {
	tenths := math.Round(x * 10)
	if !(math.Abs(tenths) < 1<<53) { // no drawing is that large; what is no number is shown as such
		p.out = strconv.AppendFloat(p.out, x, 'f', -1, 64)
		return
	}
	n := int64(tenths)
	if n < 0 {
		p.out = append(p.out, '-')
		n = -n
	}
	p.out = strconv.AppendInt(p.out, n/10, 10)
	if n%10 != 0 {
		p.out = append(p.out, '.', byte('0'+n%10))
	}
}

// nums writes numbers with a blank before each.
func (p *pen) nums(list ...float64) {
	for _, x := range list {
		p.put(" ")
		p.num(x)
	}
}

func (p *pen) attr(name markup, x float64) {
	p.put(" ")
	p.put(name)
	p.put(`="`)
	p.num(x)
	p.put(`"`)
}

// begin opens a path; step and end finish it.
func (p *pen) begin(class markup) {
	p.put(`<path class="`)
	p.put(class)
	p.put(`" d="`)
}

// step writes one letter of a path with its numbers.
func (p *pen) step(letter markup, numbers ...float64) {
	p.put(letter)
	for i, x := range numbers {
		if i > 0 {
			p.put(" ")
		}
		p.num(x)
	}
}

func (p *pen) end() { p.put(`"/>`) }

// line joins points, two numbers each.
func (p *pen) line(class markup, xy ...float64) {
	p.begin(class)
	p.step("M", xy[0], xy[1])
	for i := 2; i < len(xy); i += 2 {
		p.step("L", xy[i], xy[i+1])
	}
	p.end()
}

// shape fills the outline through points, two numbers each.
func (p *pen) shape(class markup, xy ...float64) {
	p.begin(class)
	p.step("M", xy[0], xy[1])
	for i := 2; i < len(xy); i += 2 {
		p.step("L", xy[i], xy[i+1])
	}
	p.put("Z")
	p.end()
}

func (p *pen) box(class markup, x0, y0, x1, y1 float64) {
	p.shape(class, x0, y0, x1, y0, x1, y1, x0, y1)
}

func (p *pen) ring(class markup, x, y, r float64) {
	p.put(`<circle class="`)
	p.put(class)
	p.put(`"`)
	p.attr("cx", x)
	p.attr("cy", y)
	p.attr("r", r)
	p.put("/>")
}

// hatch draws strokes from lower left to upper right across a box, a gap apart. It needs no pattern, and so no id that could clash. The strokes hang
// on a grid of the whole drawing, so that boxes side by side go on into each other.
func (p *pen) hatch(class markup, x0, y0, x1, y1, gap float64) {
	if !(x1 > x0) || !(y1 > y0) {
		return
	}
	p.begin(class)
	first := math.Floor((x0+y0)/gap) + 1
	for i := 0; i < 2000; i++ {
		sum := (first + float64(i)) * gap // a stroke has x + y alike all along
		if sum >= x1+y1 {
			break
		}
		left, right := max(x0, sum-y1), min(x1, sum-y0)
		p.step("M", left, sum-left)
		p.step("L", right, sum-right)
	}
	p.end()
}

// whisker draws what is not known of a figure: a line from one place to another, with an end to it on both sides.
func (p *pen) whisker(from, to, y float64) {
	p.begin("c-error")
	p.step("M", from, y)
	p.step("H", to)
	for _, x := range []float64{from, to} {
		p.step("M", x, y-3)
		p.step("V", y+3)
	}
	p.end()
}

// anchor is the end of a label that its place is.
type anchor uint8

const (
	start anchor = iota
	middle
	end
)

var anchors = [...]markup{start: ``, middle: ` text-anchor="middle"`, end: ` text-anchor="end"`}

// label writes a text with its base line at y.
func (p *pen) label(class markup, from anchor, x, y float64, s string) {
	p.put(`<text class="`)
	p.put(class)
	p.put(`"`)
	p.attr("x", x)
	p.attr("y", y)
	p.put(anchors[from])
	p.put(">")
	p.text(s)
	p.put("</text>")
}

// group opens a group with its whole text for those who point at it; ungroup closes it.
func (p *pen) group(title string) {
	p.put("<g><title>")
	p.text(title)
	p.put("</title>")
}

func (p *pen) ungroup() { p.put("</g>") }

// text writes a text, escaped for an element and for a quoted attribute alike. Control characters and broken UTF-8, which no XML may
// hold, become U+FFFD.
func (p *pen) text(s string) {
	for _, r := range s {
		switch {
		case r == '&':
			p.put("&amp;")
		case r == '<':
			p.put("&lt;")
		case r == '>':
			p.put("&gt;")
		case r == '"':
			p.put("&#34;")
		case r == '\t' || r == '\n' || r == '\r':
			p.put(" ")
		case r < ' ' || r >= 0x7f && r < 0xa0 || r == 0xfffe || r == 0xffff:
			p.put("\ufffd")
		default:
			p.out = utf8.AppendRune(p.out, r)
		}
	}
}

// fontSize is the size of all text, in px of the drawing.
const fontSize = 13

// widthOf is about how wide a text is set, on the wide side: sans faces differ, and there is none to measure here.
func widthOf(s string) float64 {
	em := 0.0
	for _, r := range s {
		switch {
		case strings.ContainsRune("iljtfrI.,:;'|!()[] -", r):
			em += 0.34
		case r == '\u202f' || r == '\u2009':
			em += 0.2
		case strings.ContainsRune("mwMW%@", r):
			em += 0.9
		case r >= 'A' && r <= 'Z':
			em += 0.7
		case r >= 0x1100: // wide scripts, and the arrows
			em++
		default:
			em += 0.6
		}
	}
	return em * fontSize
}

// boldWidth is about how wide a text is set in bold.
func boldWidth(s string) float64 { return widthOf(s) * 1.12 }

// cut shortens a text to a width, with an ellipsis for what is gone. The page's table has it whole.
func cut(s string, width float64) string {
	if widthOf(s) <= width {
		return s
	}
	runes := []rune(s)
	for n := min(len(runes)-1, int(width)); n > 0; n-- {
		if short := strings.TrimRight(string(runes[:n]), " ,") + "…"; widthOf(short) <= width {
			return short
		}
	}
	return "…"
}

// wrap breaks a text into lines of a width, at blanks.
func wrap(s string, width float64, most int) []string {
	var lines []string
	line := ""
	words := strings.Split(s, " ")
	for i, word := range words {
		if len(lines) == most-1 {
			line = strings.TrimSpace(line + " " + strings.Join(words[i:], " "))
			break
		}
		joined := strings.TrimSpace(line + " " + word)
		if line != "" && widthOf(joined) > width {
			lines = append(lines, cut(line, width))
			joined = word
		}
		line = joined
	}
	return append(lines, cut(line, width))
}
