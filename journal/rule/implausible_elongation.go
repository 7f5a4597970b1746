package rule

import (
	"fmt"
	"math"
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// implausibleElongation reports a chain that would be shorter than when it was new, or longer than a chain can get, at the one of its three figures that is most likely wrong.
func implausibleElongation(c *Context) {
	for _, n := range c.Numbers {
		if n.Path != "chain.elongation" || n.Reason == "" || len(n.Inputs) != 3 {
			continue
		}
		k := chain{n.Inputs[0].Value, n.Inputs[1].Value, n.Inputs[2].Value}
		e, err := calc.ChainElongation(k.length.Estimate.Value, k.links.Estimate.Value, k.pitch.Estimate.Value)
		if err != nil || derive.NoElongation(quantity.Estimate{Value: e}) == "" {
			continue
		}
		blamed, do := k.blamed()
		c.value(blamed, source.Error, k.message(e, blamed), do, slices.DeleteFunc(inputRemarks(n, nil), func(r source.Remark) bool { return r.At == blamed.At() })...)
	}
	c.oldChains()
}

// oldChains reports lengths of chains that were measured before the last one and can't be: no later reading makes them right. A wrong pitch, or a wrong count of links, is told of the last one.
func (c *Context) oldChains() {
	j := c.Journal
	then := func(path string, v *model.Value) *model.Value {
		moment := v.Entry
		if v.Origin == model.Found {
			moment = j.AsFound(v.Entry)
		}
		w := j.At(path, moment)
		if w == nil || w.Quantity.Unit == nil || w.Quantity.IsOpenEnded() || j.IsUnreadSince(path, w, moment) {
			return nil
		}
		return w
	}
	for _, v := range j.History("chain.length") {
		if !v.Counts || v.Current || !v.IsReading() || v.Quantity.Unit == nil || v.Quantity.IsOpenEnded() || v.Verdict == model.Out {
			continue
		}
		k := chain{v, then("chain.links", v), then("drive.chain-pitch", v)}
		if k.links == nil || k.pitch == nil {
			continue
		}
		e, err := calc.ChainElongation(v.Estimate.Value, k.links.Estimate.Value, k.pitch.Estimate.Value)
		if err != nil {
			continue
		}
		slack := v.Estimate.Expanded() / (k.links.Estimate.Value * k.pitch.Estimate.Value)
		if derive.NoElongation(quantity.Estimate{Value: e + slack}) == "" || derive.NoElongation(quantity.Estimate{Value: e - slack}) == "" {
			continue
		}
		if blamed, do := k.blamed(); blamed == v {
			c.value(v, source.Warning, k.message(e, v), do, source.Remark{At: k.links.At(), Message: "`chain.links`"}, source.Remark{At: k.pitch.At(), Message: "`drive.chain-pitch`"}).State = source.Open
		}
	}
}

// message says by how much the chain is none, and which figure is blamed.
func (k chain) message(e float64, blamed *model.Value) string {
	fresh := quantity.Show(k.links.Estimate.Value*k.pitch.Estimate.Value, k.length.Quantity.Unit, k.length.Quantity.StepSI())
	way := "shorter than it was new"
	if e > 0 {
		way = "longer than it was new, more than a chain can get"
	}
	return fmt.Sprintf("%s over %s of %s, which are %s new, is a chain %s %s: `%s` is most likely wrong", k.length.Quantity.Shown(), k.linksShown(k.links.Estimate.Value), k.pitch.Quantity.Shown(), fresh,
		percentShown(math.Abs(e)), way, blamed.Path)
}

// chain is what the elongation of a chain is worked out from.
type chain struct{ length, links, pitch *model.Value }

// pitches are those of roller chains, in m: eighths of an inch, from memory of the series of ISO 606.
var pitches = []float64{0.00635, 0.009525, 0.0127, 0.015875, 0.01905, 0.0254}

// What a chain is held to once one of its figures is mended, and by what share a pitch may be rounded. Common practice, no source.
const (
	nearPitch  = 0.001
	mostWorn   = 0.03 // the most by which a chain in use is longer than new
	hardlyWorn = 0.01 // where its links were miscounted: one more or fewer makes as much
)

// blamed returns the figure that is most likely wrong, and what it should probably be: the one that a usual mistake in makes a chain of the three. Which of them is asked first is common practice, no source.
func (k chain) blamed() (v *model.Value, do string) {
	length, links, pitch := k.length.Estimate.Value, k.links.Estimate.Value, k.pitch.Estimate.Value
	try := func(length, links, pitch, most float64) string {
		e, err := calc.ChainElongation(length, links, pitch)
		if err != nil || derive.NoElongation(quantity.Estimate{Value: e}) != "" || e > most {
			return ""
		}
		return " would make it " + percentShown(math.Abs(e)) + " longer than new"
	}
	isUsual := func(pitch, p float64) bool { return math.Abs(pitch/p-1) < nearPitch }
	for _, p := range pitches {
		if words := try(length, links, p, mostWorn); words != "" && !isUsual(pitch, p) {
			return k.pitch, fmt.Sprintf("look at the pitch again: %s%s", quantity.Show(p, k.pitch.Quantity.Unit, 1e-6), words)
		}
	}
	for by := 1.0; by <= 2; by++ {
		for _, n := range []float64{links - by, links + by} {
			if words := try(length, n, pitch, hardlyWorn); words != "" {
				return k.links, fmt.Sprintf("count them again, from pin to pin, between the two that the length was taken at: %s%s", k.linksShown(n), words)
			}
		}
	}
	if !chainLinks.Holds(links) {
		for _, r := range k.links.Quantity.OtherReadings(quantity.OnePlace) {
			if words := try(length, r.SI(), pitch, mostWorn); words != "" && r.SI() == math.Trunc(r.SI()) {
				return k.links, fmt.Sprintf("a digit too many or too few? %s%s", k.linksShown(r.SI()), words)
			}
		}
	}
	for _, r := range k.length.Quantity.OtherReadings(quantity.OnePlace | quantity.TwoPlaces) {
		if words := try(r.SI(), links, pitch, mostWorn); words != "" {
			return k.length, fmt.Sprintf("the point in the wrong place? %s%s", r.Shown(), words)
		}
	}
	for _, r := range k.length.Quantity.OtherReadings(quantity.SwappedDigits) {
		if words := try(r.SI(), links, pitch, mostWorn); words != "" {
			return k.length, fmt.Sprintf("%s? %s%s", r.Why, r.Shown(), words)
		}
	}
	return k.length, "look at the figure again; measure again, taut, from pin to pin, and count the links between"
}

// linksShown shows a number of links.
func (k chain) linksShown(n float64) string {
	return quantity.Show(n, k.links.Quantity.Unit, 1).String()
}

// percentShown shows a share in per cent, to two figures or to whole ones.
func percentShown(share float64) string {
	u := quantity.UnitShown("%")
	return quantity.Show(share, u, min(quantity.TwoFigures(100*share), 1)*u.Factor).String()
}
