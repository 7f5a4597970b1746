package parse

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// Tyre is what the size code of a tyre says.
type Tyre struct {
	Rim     float64 // diameter, in m: the code's inches, 25.4 mm each
	Width   float64 // in m
	Height  float64 // as a share of the width
	Assumed bool    // the code of an inch size says no height: it is taken to be as high as it is wide
}

var (
	metricTyre = late(`^(?:P|LT)?(\d{2,3})/(\d{2,3})(?: ?-? ?[A-Z]{1,2}X? ?-? ?| ?- ?)(\d{2}(?:\.\d)?)[A-Z]?$`)
	inchTyre   = late(`^(\d\.\d{2})(?:/(\d{2,3}))?(?: ?-? ?[A-Z]{1,2} ?-? ?| ?- ?)(\d{2})$`)
	tyreTail   = late(`^(?:M/C|\(?\d{2,3}[A-Z]\)?|\d{2}|\(?[A-Z]\)?|TL|TT|REINF|XL|\dPR)$`)
)

// ReadTyre reads the size code of a tyre: metric, as `130/80-17`, `130/80 R17` and `180/55 ZR 17 M/C (73W)`, or in inches, as `3.00-18`, `3.50H18`. What
// follows the size, its load and speed, is passed over. Where it can't be read it says why.
//
// Source: the metric form is that of the documentation of a US national laboratory's vehicle library, read in the source; the others are from memory. That
// inch sizes ending in .00, .25, .50 and .75 are about as high as they are wide, and others lower, is common practice, no source.
func ReadTyre(text string) (tyre Tyre, why string) {
	code := tyreSize(text)
	if m := metricTyre().FindStringSubmatch(code); m != nil {
		tyre = Tyre{Width: number(m[1]) / 1000, Height: number(m[2]) / 100, Rim: number(m[3]) * inch}
	} else if m := inchTyre().FindStringSubmatch(code); m != nil {
		tyre = Tyre{Width: number(m[1]) * inch, Height: number(m[2]) / 100, Rim: number(m[3]) * inch}
		if m[2] == "" {
			if !slices.Contains([]string{".00", ".25", ".50", ".75"}, m[1][1:]) {
				return Tyre{}, "the code of a low inch size doesn't say how high the tyre is"
			}
			tyre.Height, tyre.Assumed = 1, true
		}
	} else {
		return Tyre{}, "it is no size code that is known here"
	}
	switch {
	case tyre.Width < 0.04 || tyre.Width > 0.4:
		return Tyre{}, "no tyre is so wide or so narrow"
	case tyre.Height < 0.25 || tyre.Height > 1.1:
		return Tyre{}, "no tyre is so high or so low for its width"
	case tyre.Rim < 8*inch || tyre.Rim > 26*inch:
		return Tyre{}, "no tyre has such a rim"
	}
	return tyre, ""
}

const inch = 0.0254 // m, by the international yard and pound agreement of 1959

// tyreSize cuts what follows the size off a code: its load and speed, and the like.
func tyreSize(text string) string {
	words := strings.Fields(strings.ToUpper(text))
	for n := len(words); n > 0; n-- {
		if size := strings.Join(words[:n], " "); metricTyre().MatchString(size) || inchTyre().MatchString(size) {
			return size
		}
		if !tyreTail().MatchString(words[n-1]) {
			break
		}
	}
	return text
}

func number(digits string) float64 {
	x, _ := strconv.ParseFloat(digits, 64) // digits and a point, by the expressions above; nothing is no height
	return x
}

// tyre decodes the size code of a tyre, which stays words, or a measured rolling circumference.
func (d *decoder) tyre(f *Field, n *node) bool {
	if !n.isString() || n.runsOverLines() {
		return d.wrongKind(f, n)
	}
	if written, slip := quantity.Parse(n.text); slip == nil && written.Kind != quantity.Words {
		return d.figure(f, n)
	}
	value, ok := d.tyreCode(n, f.Key.Name)
	if ok {
		f.Figures = append(f.Figures, value)
	}
	return ok
}

// tyreCode decodes a size code, and reports one that can't be read.
func (d *decoder) tyreCode(n *node, subject string) (Value, bool) {
	value := Value{At: n.at, Text: n.text, Kind: quantity.Words, home: inWords}
	value.stand(n, 0)
	if _, why := ReadTyre(n.text); why != "" {
		d.report("bad-quantity", source.Error, n.at, subject, fmt.Sprintf("`%s` can't be read as the size of a tyre: %s", n.text, why),
			"write a code such as `130/80-17` or `3.00-18`, or the rolling circumference as it was measured, `1985 mm`")
		return value, false
	}
	return value, true
}

// looksLikeTyre reports whether a text is meant as a size code and not as a figure: a slash or a dash between digits, or a letter among them.
func looksLikeTyre(text string) bool { return tyreShape().MatchString(strings.ToUpper(text)) }

var tyreShape = late(`^(?:P|LT)?\d[\d.]*(?:/\d+)? ?(?:-|[A-Z]{1,2} ?-?) ?\d|^\d+/\d+`)
