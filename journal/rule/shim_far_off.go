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
	if !c.Journal.AreShimsKnown() {
		return
	}
	for _, v := range c.Journal.Values {
		if !v.Counts || v.Entry == nil || !c.Journal.IsFarShim(v) {
			continue
		}
		r := c.Journal.ShimRangeAt(v.Path)
		do, meant := farAdvice(r, v.Quantity, "look at it again")
		c.value(v, source.Warning, fmt.Sprintf("`%s` is %s, %s", v.Path, v.Quantity.Shown(), rangeWords(r, v.Quantity)), do)
		if f := &c.findings[len(c.findings)-1]; meant != "" && v.IsReading() && len(v.Written.Repeats) == 0 {
			f.Fixes = []source.Fix{source.Replace("write `"+meant+"`", v.Written.Span(0, len(v.Written.Text)), meant)}
		}
	}
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

// farAdvice says what a thickness that is far off was probably meant to be, where that is plain, and in words that can stand in its place.
func farAdvice(r model.ShimRange, q quantity.Quantity, otherwise string) (do, meant string) {
	least, most := r.Least, r.Most
	if !r.Sold { // the others have one middle: as far as half again
		least, most = least/1.5, most*1.5
	}
	var inside []slip
	for _, s := range otherReadings(q) {
		if quantity.Compare(s.meant.SI(), least, 0) >= 0 && quantity.Compare(s.meant.SI(), most, 0) <= 0 {
			inside = append(inside, s)
		}
	}
	if len(inside) != 1 {
		return otherwise, ""
	}
	meant = inside[0].meant.Shown().String()
	return fmt.Sprintf("%s? if so write `%s`; if not, %s", inside[0].why, meant, otherwise), meant
}
