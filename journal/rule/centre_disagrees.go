package rule

import (
	"fmt"
	"math"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// unlikeFlanks is how far, in rad, a lobe's middle may be from that between its events because its flanks differ: 5°, common practice, no source.
const unlikeFlanks = math.Pi / 36

// centreDisagrees reports middles of lobes that contradict the two events told beside them: in one list of one entry, or by one part.
func centreDisagrees(c *Context) {
	for _, side := range []string{"intake", "exhaust"} {
		path := "cam." + side + "."
		for _, v := range c.Journal.History(path + "centre") {
			if v.Path != path+"centre" || v.Origin == model.FromDegreeing || v.Quantity.Unit == nil {
				continue
			}
			opens, closes := c.toldBeside(v, path+"opens"), c.toldBeside(v, path+"closes")
			if opens == nil || closes == nil {
				continue
			}
			centre, ok := model.OverlapAngle(v.Path, v.Quantity)
			first, told := model.OverlapAngle(opens.Path, opens.Quantity)
			second, too := model.OverlapAngle(closes.Path, closes.Quantity)
			middle := (first + second) / 2
			if !ok || !told || !too || math.Abs(centre-middle) <= unlikeFlanks+v.Estimate.Expanded()+(opens.Estimate.Expanded()+closes.Estimate.Expanded())/2 {
				continue
			}
			event := quantity.ATDC
			if middle < 0 {
				event = quantity.BTDC
			}
			angle := quantity.UnitOf("°", quantity.Angle)
			by := quantity.Quantity{Kind: quantity.Figure, Unit: angle, Value: angle.FromSI(middle), Step: 0.1, Event: event}
			c.value(v, source.Warning, fmt.Sprintf("`%s` is %s, but the middle between opening at %s and closing at %s is %s", v.Path, v.Quantity.Shown(), opens.Quantity.Shown(), closes.Quantity.Shown(), by.Shown()),
				"look all three up again: one is mistyped, counted from another dead centre, or of another cam", source.Remark{At: opens.At(), Message: "opens"}, source.Remark{At: closes.At(), Message: "closes"})
		}
	}
}

// toldBeside returns the value at a path that was told where another was: in the same list of the same entry, or by the same part as it went in.
func (c *Context) toldBeside(v *model.Value, path string) *model.Value {
	for _, other := range c.Journal.History(path) {
		if other.Path == path && other.Origin == v.Origin && other.Order == v.Order && other.Part == v.Part && other.Quantity.Unit != nil {
			return other
		}
	}
	return nil
}
