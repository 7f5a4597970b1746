package rule

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// worn reports values, and worked-out numbers, outside standard but inside service.
func worn(c *Context) {
	with := c.wornWith()
	for _, v := range c.Journal.Values {
		if v.Verdict != model.Worn {
			continue
		}
		c.value(v, source.Warning, fmt.Sprintf("`%s` is %s: %s", v.Path, shown(v), wornWords(v))+nearWords(v)+heldBy(v)+wornAlong(v, with[v]), wornAdvice, boundNote(v.Limit, passed(v))...)
	}
	c.judgedNumbers(source.Warning, "worn", wornAdvice, func(n *derive.Number) string {
		if c.wornBy(n) != nil {
			return ""
		}
		return wornNumberWords(n)
	})
	c.judgedAsFound(source.Warning, wornAdvice, wornNumberWords)
}

// wornNumberWords says how worn a number is; "" for one that isn't.
func wornNumberWords(n *derive.Number) string {
	if n.Verdict != model.Worn {
		return ""
	}
	return fmt.Sprintf("works out at %s: %s%s", n.Shown(), wornWords(n.Judged()), nearWords(n.Judged()))
}

// wornWith returns, by value, the numbers that are worn along with it and of which its finding tells.
func (c *Context) wornWith() map[*model.Value][]told {
	with := map[*model.Value][]told{}
	for _, n := range c.Numbers {
		if n.Verdict == model.Worn && !c.isHeldBack(n) {
			if v := c.wornBy(n); v != nil {
				with[v] = append(with[v], told{number: n})
			}
		}
	}
	return with
}

// wornBy returns the worn value that makes a clearance worn, and whose finding tells of both; nil for none, for a number that the builder accepts, which stands alone, and for other numbers: a bore that is
// wide says nothing of its taper.
func (c *Context) wornBy(n *derive.Number) *model.Value {
	if n.Family.Name != "clearance" {
		return nil
	}
	v := blamed(n, c.likelier)
	if v == nil || !c.isWornOpen(v) || c.accepts(n.Path) {
		return nil
	}
	return v
}

// wornAlong says which numbers are worn along with a value.
func wornAlong(v *model.Value, numbers []told) string {
	if len(numbers) > 2 {
		return fmt.Sprintf("; %d clearances that come from it are worn too", len(numbers))
	}
	return alsoWords(v, numbers, "worn")
}

// isWornOpen reports whether the running rule tells of a value that it is worn, and the builder doesn't accept that.
func (c *Context) isWornOpen(v *model.Value) bool {
	if v.Verdict != model.Worn || v.Settled {
		return false
	}
	f := reportAbout(v, source.Warning, "", "")
	f.Rule = c.rule.Name
	return !slices.ContainsFunc(c.Journal.Accepts, func(a *model.Accept) bool { return c.covers(a, &f) })
}

const wornAdvice = "it may run on; plan the part"

// wornWords says on which side of standard a worn value stands, and how far service goes there.
func wornWords(v *model.Value) string {
	service, beyond := v.Limit.Worn[1], "above"
	if v.Side < 0 {
		service, beyond = v.Limit.Worn[0], "below"
	}
	return fmt.Sprintf("%s standard (%s), inside service (%s)", beyond, v.Limit.Show(passed(v)), v.Limit.Show(service))
}
