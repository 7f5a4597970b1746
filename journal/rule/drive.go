package rule

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
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
		return quantity.Span{Low: topOverall.Low, High: lowOverall.High}.Holds(whole(low))
	}
	return topOverall.Holds(whole(top)) && lowOverall.Holds(whole(low))
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
