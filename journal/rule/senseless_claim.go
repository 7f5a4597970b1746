package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// senselessClaim reports claims whose engine speeds make no range, or lie where nobody pulled: nothing can ever be told of them.
func senselessClaim(c *Context) {
	for _, part := range c.Journal.Parts {
		table := part.Fields.Table("claim")
		if table == nil || table.IsBad("from", "to") {
			continue
		}
		from, to := table.Value("from"), table.Value("to")
		if from == nil && to == nil {
			continue
		}
		report := func(at source.Range, message, do string) {
			c.report(source.Finding{Severity: source.Warning, At: at, Subject: part.Name, Message: message, Do: do}, 0)
		}
		if from == nil || to == nil {
			one, key, other := from, "from", "to"
			if from == nil {
				one, key, other = to, "to", "from"
			}
			report(one.At, fmt.Sprintf("the claim for `%s` has `%s` and no `%s`: over which engine speeds it holds can't be told", part.Name, key, other), fmt.Sprintf("add `%s`, or take `%s` out where the peak is meant", other, key))
			continue
		}
		low, slip := from.Resolve(table.Get("from").Key.Want())
		high, bad := to.Resolve(table.Get("to").Key.Want())
		if slip != nil || bad != nil {
			continue // that has a finding
		}
		if !(high.SI() > low.SI()) {
			report(from.At, fmt.Sprintf("the claim for `%s` is from %s to %s, which is no range", part.Name, low.Shown(), high.Shown()), "write the lower engine speed at `from`")
			continue
		}
		if least, most, ok := c.pulledFor(part); ok && (quantity.Compare(low.SI(), least, 0) < 0 || quantity.Compare(high.SI(), most, 0) > 0) {
			rpm := parse.UnitSpelled("rpm")
			report(from.At, fmt.Sprintf("`%s` is claimed to gain from %s to %s, and all pulls before it and after go from %s to %s", part.Name, low.Shown(), high.Shown(), quantity.Show(least, rpm, rpm.Factor), quantity.Show(most, rpm, rpm.Factor)),
				"pull over all of it; until then nobody can tell")
		}
	}
}

// pulledFor returns the engine speeds that all pulls beside the fitting of a part cover; false where there are no curves.
func (c *Context) pulledFor(part *model.Part) (least, most float64, ok bool) {
	stage := c.Sums.StageOf(part)
	if stage == nil {
		return 0, 0, false
	}
	return coveredBy(stage.From, stage.To)
}
