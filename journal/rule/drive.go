package rule

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// span is what a figure of the drive usually is.
type span struct{ low, high float64 }

func (s span) holds(x float64) bool {
	return quantity.Compare(x, s.low, 0) >= 0 && quantity.Compare(x, s.high, 0) <= 0
}

// off is by what factor, as a logarithm, a figure lies outside.
func (s span) off(x float64) float64 { return max(0, math.Log(s.low/x), math.Log(x/s.high)) }

// What drives are geared like. All of it is common practice, no source.
var (
	topOverall    = span{2, 18}    // engine over wheel in the highest gear
	lowOverall    = span{6, 60}    // in the lowest
	usualPrimary  = span{1, 5}     // the ratios of the three steps, driven over driver
	usualFinal    = span{1, 6}     //
	usualLow      = span{1.4, 5.5} // of the lowest gear
	usualTop      = span{0.5, 2}   // of the highest
	circumference = span{0.6, 2.6} // of a driven wheel, in m
	usualWheel    = span{0.9, 2.4} // of most
	leastRedline  = 3000.0         // rpm of a light engine
)

// drive is what is known of the drive now; what isn't is nil.
type drive struct {
	c                    *Context
	primary, final, tyre *model.Value
	ratios               []*derive.Number // overall, by gear
}

// figureNow returns the figure in force at a path; nil where there is none.
func (c *Context) figureNow(path string) *model.Value {
	if v := c.Journal.Current(path); v != nil && v.Quantity.Unit != nil && v.Quantity.Kind != quantity.Interval {
		return v
	}
	return nil
}

// fall reports whether the ratios fall from gear to gear.
func (d drive) fall() bool {
	return slices.IsSortedFunc(d.ratios, func(a, b *derive.Number) int { return cmp.Compare(b.Estimate.Value, a.Estimate.Value) })
}

// fits reports whether the highest and the lowest gear are geared as drives are, with one of the steps replaced by another ratio, or none.
func (d drive) fits(step *model.Value, by float64) bool {
	whole := func(n *derive.Number) float64 {
		product := 1.0
		for _, in := range n.Inputs {
			if in.Value == step {
				product *= by
				continue
			}
			product *= in.Value.Estimate.Value
		}
		return product
	}
	low, top := d.ratios[0], d.ratios[len(d.ratios)-1]
	if low == top {
		return span{topOverall.low, lowOverall.high}.holds(whole(low))
	}
	return topOverall.holds(whole(top)) && lowOverall.holds(whole(low))
}

// turnAbout offers the ratio the other way about, where that would do.
func (d drive) turnAbout(m *misgeared) {
	text := m.value.Written.Text
	driven, driver, ok := strings.Cut(text, "/")
	if !ok || len(d.ratios) == 0 || !d.fits(m.value, 1/m.value.Estimate.Value) {
		return
	}
	about := strings.TrimSpace(driver) + "/" + strings.TrimSpace(driven)
	m.do = fmt.Sprintf("turned about? the teeth of the wheel that is driven stand first: write `%s`", about)
	m.fixes = []source.Fix{source.Replace(fmt.Sprintf("write `%s`", about), m.value.Written.Span(0, len(text)), about)}
}

// around returns how far the driven wheel rolls in a turn, in m.
func (d drive) around() (float64, bool) {
	if d.tyre == nil {
		return 0, false
	}
	if d.tyre.Words == "" {
		return d.tyre.Estimate.Value, d.tyre.Quantity.Unit != nil && d.tyre.Quantity.Unit.Dimension == quantity.Length
	}
	n := d.c.numberAt("drive.circumference")
	if n == nil {
		return 0, false
	}
	return n.Estimate.Value, true
}

func (d drive) metres(si float64) string {
	u := quantity.UnitShown("mm")
	if d.tyre.Words == "" {
		u = d.tyre.Quantity.Unit
	}
	return quantity.Show(si, u, quantity.TwoFigures(u.FromSI(si))/10*u.Factor).String()
}

// ratioWords shows a ratio as it was written, and as a figure where that is another.
func ratioWords(v *model.Value) string {
	written := v.Quantity.Shown().String()
	if !strings.Contains(written, "/") {
		return written
	}
	return written + ", " + ratioShown(v)
}
