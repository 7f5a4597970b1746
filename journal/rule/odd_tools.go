package rule

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// oddRanges finds ranges of tools that hold nothing of what the tool read, and all of it with the point elsewhere or in another unit.
func (c *Context) oddRanges() []*cause {
	read := map[*model.Tool][]*model.Value{}
	inside := map[*model.Tool]bool{}
	for _, v := range c.Journal.Values {
		t := v.Tool
		if t == nil || t.Range == nil || inside[t] || !v.IsReading() || v.Words != "" || v.Setting() != nil || v.Quantity.Unit == nil || v.Quantity.Unit.Dimension != t.Range.Unit.Dimension {
			continue
		}
		read[t] = append(read[t], v)
		inside[t] = t.Holds(v.Quantity)
	}
	var found []*cause
	for _, t := range c.Journal.Tools {
		if inside[t] || len(read[t]) < fewReadings {
			continue
		}
		meant, ok := quantity.TheOne(t.Range.OtherReadings(slipOfPen|quantity.ThreePlaces), func(q quantity.Quantity) bool {
			other := *t
			other.Range = &q
			return !slices.ContainsFunc(read[t], func(v *model.Value) bool { return !other.Holds(v.Quantity) })
		})
		if !ok {
			continue
		}
		first := read[t][0]
		found = append(found, &cause{tool: t, report: report{source.Finding{Severity: source.Warning, At: t.Fields.Value("range").At, Subject: t.Name,
			Message: fmt.Sprintf("all %d readings of `%s` are outside its range of %s, as `%s` with %s; all would be inside %s", len(read[t]), t.Name, t.Range.Shown(), first.Path, first.Quantity.Shown(), meant.ShownIn(first.Quantity.Unit)),
			Do:      "look at its point and its unit again; if it is right, they were read with another tool", Notes: []source.Remark{{At: first.At(), Message: "read here"}}}, -1}})
	}
	return found
}

// isRangeSuspect reports whether a finding says that the range of a tool can't be as it is written.
func (c *Context) isRangeSuspect(t *model.Tool) bool {
	if !c.isToolSuspect(t) {
		return false
	}
	v := t.Fields.Value("range")
	return v != nil && c.causes().tools[t].report.At == v.At
}

// oddWrenches finds lengths of wrenches that none has. What was put on through an adapter with one, and is out, is told with it.
func (c *Context) oddWrenches() []*cause {
	var found []*cause
	for _, t := range c.Journal.Tools {
		if t.Length == nil || wrenches.Holds(t.Length.SI()) {
			continue
		}
		u := quantity.UnitShown("mm")
		k := &cause{report: report{source.Finding{Severity: source.Warning, At: t.Fields.Value("length").At, Subject: t.Name,
			Message: fmt.Sprintf("`%s` is %s long: from the middle of their drive to the middle of their grip wrenches are %s", t.Name, t.Length.Shown(), quantity.Between(quantity.Show(wrenches.Low, u, 0), quantity.Show(wrenches.High, u, 0))),
			Do:      "look at its point and its unit again: what is put on through an adapter is reckoned with it"}, -1}}
		if meant, ok := quantity.TheOne(t.Length.OtherReadings(quantity.OnePlace|quantity.AnotherUnit), func(q quantity.Quantity) bool { return wrenches.Holds(q.SI()) }); ok {
			k.report.Do = fmt.Sprintf("%s? %s", quantity.Show(meant.SI(), meant.Unit, 0), k.report.Do)
		}
		for _, v := range c.Journal.Values {
			if v.Tool == t && v.Verdict == model.Out && v.IsReading() && v.Written.Details != nil && v.Written.Details.Adapter != nil {
				k.instead = append(k.instead, v)
				if !v.Settled { // it stands for that finding
					k.report.Severity = source.Error
				}
			}
		}
		found = append(found, k)
	}
	return found
}
