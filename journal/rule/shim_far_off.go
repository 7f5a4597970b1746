package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// shimFarOff reports shims that are more than twice as thick as any that there is, or less than half as thick; and sizes that no shim of the engine is near.
func shimFarOff(c *Context) {
	c.farStock()
	c.tellCauses()
}

// farShims finds the shims.
func (c *Context) farShims() []*cause {
	if !c.Journal.AreShimsKnown() {
		return nil
	}
	var found []*cause
	for _, v := range c.Journal.Values {
		if !v.Counts || v.Entry == nil || !c.Journal.IsFarShim(v) {
			continue
		}
		r := c.Journal.ShimRangeAt(v.Path)
		do, meant := farAdvice(r, v.Quantity, "look at it again")
		k := &cause{report: reportAbout(v, source.Warning, fmt.Sprintf("`%s` is %s, %s", v.Path, v.Quantity.Shown(), rangeWords(r, v.Quantity)), do)}
		if meant != "" && v.IsReading() {
			k.report.Fixes = writeInstead(v, meant)
		}
		if !v.Settled {
			k.against, k.weight = []*model.Value{v}, suspect
		}
		found = append(found, k)
	}
	return found
}

// farStock reports pieces of a drawer that can't be shims, and sizes that can't be those of this engine's.
func (c *Context) farStock() {
	told := map[source.Range]bool{} // one drawer may be for both sides
	for _, side := range parse.Sides {
		store, r := c.Journal.ShimStore(side), c.Journal.ShimRange(side)
		if r.Doubted != nil && !told[r.Doubted.At] {
			told[r.Doubted.At] = true
			c.report(source.Finding{Severity: source.Warning, At: r.Doubted.At, Subject: "engine.adjuster.sizes", Origin: string(model.FromSheet), Message: "most of the shims that were written are more than twice as thick as any of these sizes, or less than half as thick",
				Do: "look at the unit and the point of the sizes"}, -1)
		}
		if store.Stock == nil {
			continue
		}
		for i := range store.Stock.Figures {
			piece := &store.Stock.Figures[i]
			q, slip := piece.Resolve(store.Stock.Key.Want())
			if slip != nil || told[piece.At] || !r.IsFar(q.SI()) {
				continue
			}
			told[piece.At] = true
			do, _ := farAdvice(r, q, "take it out")
			c.report(source.Finding{Severity: source.Warning, At: piece.At, Subject: "engine.adjuster.stock", Origin: string(model.FromSheet), Message: fmt.Sprintf("a shim of %s in the stock, %s", q.Shown(), rangeWords(r, q)), Do: do}, -1)
		}
	}
}

// rangeWords says how thick shims are, in the unit of a figure.
func rangeWords(r model.ShimRange, q quantity.Quantity) string {
	if !r.Sold {
		return fmt.Sprintf("where the others are about %s", quantity.Show(r.Most, q.Unit, shimStep))
	}
	return fmt.Sprintf("where shims are sold from %s to %s", quantity.Show(r.Least, q.Unit, shimStep), quantity.Show(r.Most, q.Unit, shimStep))
}

// shimStep is how fine a shim is told, in m.
const shimStep = 1e-5

// aroundMiddle is how many times as thick as the middle of the others, or as thin, a shim is that was meant. Common practice, no source.
const aroundMiddle = 1.5

// farAdvice says what a thickness that is far off was probably meant to be, where that is plain, and in words that can stand in its place.
func farAdvice(r model.ShimRange, q quantity.Quantity, otherwise string) (do, meant string) {
	usual := quantity.Span{Low: r.Least, High: r.Most}
	if !r.Sold { // the others have one middle
		usual = quantity.Span{Low: r.Least / aroundMiddle, High: r.Most * aroundMiddle}
	}
	other, ok := quantity.TheOne(q.OtherReadings(slipOfPen), func(q quantity.Quantity) bool { return usual.Holds(q.SI()) })
	if !ok {
		return otherwise, ""
	}
	meant = other.Shown().String()
	return fmt.Sprintf("%s? if so write `%s`; if not, %s", other.Why, meant, otherwise), meant
}
