package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// absurdPistonSpeed reports a stroke and a redline that can't belong together: one of them is a slip.
func absurdPistonSpeed(c *Context) { c.tellCauses() }

// racing finds them: at the one that alone would do if its digits meant something else, else at the redline.
func (c *Context) racing() []*cause {
	n := c.soundNumberAt(pistonSpeed)
	if n == nil || pistonSpeeds.Holds(n.Estimate.Value) {
		return nil
	}
	stroke, redline := n.Inputs[0].Value, n.Inputs[1].Value
	fits := func(speed, is float64, v *model.Value) func(quantity.Quantity) bool {
		return func(q quantity.Quantity) bool {
			return speed*q.SI()/v.Quantity.SI() <= pistonSpeeds.High && q.SI() >= is
		}
	}
	rpm := quantity.UnitShown("rpm")
	slower := fittingFirst(redline.Quantity, quantity.OnePlace|quantity.TwoPlaces, fits(n.Estimate.Value, rpm.SI(redlines.Low), redline))
	shorter := fittingFirst(stroke.Quantity, slipOfPen, fits(n.Estimate.Value, leastStroke, stroke))
	at, other, do := redline, stroke, "look at both figures and their units again"
	switch {
	case len(slower) == 0 && len(shorter) == 1:
		at, other, do = stroke, redline, fmt.Sprintf("%s? %s would fit; else look at the redline again", shorter[0].Why, shorter[0].Shown())
	case len(slower) == 1 && len(shorter) == 0:
		do = fmt.Sprintf("%s? %s would fit; else look at the stroke again", slower[0].Why, slower[0].Shown())
	}
	message := fmt.Sprintf("a stroke of %s at %s is a mean piston speed of %s: no engine is built for more than %.0f m/s", stroke.Quantity.Shown(), redline.Quantity.Shown(), n.Shown(), pistonSpeeds.High)
	word := "stroke"
	if other == redline {
		word = "redline"
	}
	return []*cause{{report: reportAbout(at, source.Warning, message, do, source.Remark{At: other.At(), Message: word}), against: []*model.Value{stroke, redline}, weight: doubted}}
}

// fittingFirst returns what a figure may have been meant for by some ways; where none fits, with two digits swapped.
func fittingFirst(q quantity.Quantity, ways quantity.Misreading, fits func(quantity.Quantity) bool) []quantity.OtherReading {
	if found := quantity.Fitting(q.OtherReadings(ways), fits); len(found) > 0 {
		return found
	}
	return quantity.Fitting(q.OtherReadings(quantity.SwappedDigits), fits)
}

// leastStroke is the shortest stroke, in m, that a slip may stand for. Common practice, no source.
const leastStroke = 0.02
