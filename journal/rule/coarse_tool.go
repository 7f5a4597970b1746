package rule

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// coarseTool reports the tools that took what is current at limits of two bounds and that are coarse for some: each once, as a note for those that it is
// coarse for, and as a warning for those where it can't tell in from out. A limit at which the builder accepts it stands for itself.
func coarseTool(c *Context) {
	type use struct {
		tool  *model.Tool
		limit *model.Limit
	}
	done := map[use]bool{}
	var uses []coarse
	for _, v := range c.Journal.Values {
		if !c.restsOnTool(v) || done[use{v.Tool, v.Limit}] || c.isLimitSuspect(v.Limit) || c.isToolSuspect(v.Tool) {
			continue
		}
		done[use{v.Tool, v.Limit}] = true
		if ratio, ok := v.Tool.Ratio(v.Limit); ok && quantity.Compare(ratio, model.WantedRatio, 0) < 0 {
			uses = append(uses, coarse{v, ratio, c.isCoarseAccepted(v.Limit)})
		}
	}
	for len(uses) > 0 {
		var alike []coarse
		first := uses[0]
		uses = slices.DeleteFunc(uses, func(u coarse) bool {
			isAlike := u == first || u.value.Tool == first.value.Tool && u.isHopeless() == first.isHopeless() && !u.isAccepted && !first.isAccepted
			if isAlike {
				alike = append(alike, u)
			}
			return isAlike
		})
		c.coarse(alike)
	}
}

// coarse is a reading whose tool is coarse for its limit.
type coarse struct {
	value      *model.Value
	ratio      float64
	isAccepted bool // at its limit
}

// isHopeless reports whether the tool can't tell in from out.
func (u coarse) isHopeless() bool { return quantity.Compare(u.ratio, model.LeastRatio, 0) < 0 }

// isCoarseAccepted reports whether the builder accepts a coarse tool at a limit.
func (c *Context) isCoarseAccepted(l *model.Limit) bool {
	return slices.ContainsFunc(c.Journal.Accepts, func(a *model.Accept) bool { return a.Finding.Name == c.rule.Name && a.Path == l.Path })
}

// restsOnTool reports whether a reading that is current was judged with what its tool is worth: not where it says its own uncertainty, lies beyond
// the tool's scale, or where it is not clear which tool took it.
func (c *Context) restsOnTool(v *model.Value) bool {
	return v.Current && !v.Settled && v.IsReading() && v.Verdict != model.NoLimit && v.Tool != nil && v.Tool.Holds(v.Quantity) && !v.Quantity.HasSpread &&
		(v.IsToolNamed() || !c.Journal.AreToolsUnclear(v.Entry))
}

// coarse reports the tool of readings at the limit for which it is the coarsest, and how many more there are.
func (c *Context) coarse(uses []coarse) {
	worst := uses[0]
	for _, u := range uses[1:] {
		if quantity.Compare(u.ratio, worst.ratio, 0) < 0 {
			worst = u
		}
	}
	v, tool, limit := worst.value, worst.value.Tool, worst.value.Limit
	estimate, _ := tool.EstimateIn(limit)
	_, u := quantity.ShowEstimate(estimate, limit.Unit)
	f := source.Finding{Severity: source.Note, At: tool.NameAt, Subject: tool.Name,
		Message: fmt.Sprintf("`%s` is coarse for `%s`: %s beside ± %s is %s, short of the 4:1 rule of thumb", tool.Name, limit.Path, limit.BoundsText(), u, model.ShowRatio(worst.ratio)),
		Do:      "measure with a finer tool, or keep to the middle of the limit and accept this",
		Notes:   append(limitNote(limit), source.Remark{At: v.At(), Message: "read here"})}
	if worst.isHopeless() {
		f.Severity = source.Warning
		f.Message = fmt.Sprintf("`%s` can't tell in from out at `%s`: %s beside ± %s is %s, where the rule of thumb is 4:1", tool.Name, limit.Path, limit.BoundsText(), u, model.ShowRatio(worst.ratio))
		f.Do = "measure with a finer tool"
	}
	if worst.isAccepted {
		f.Subject, f.Origin = limit.Path, tool.Name
	}
	for _, u := range uses {
		if u != worst {
			f.Notes = append(f.Notes, source.Remark{At: u.value.At(), Message: fmt.Sprintf("at `%s` it is %s", u.value.Limit.Path, model.ShowRatio(u.ratio))})
		}
	}
	switch more := len(uses) - 1; more {
	case 0:
	case 1:
		f.Message += "; and for one limit more"
	default:
		f.Message += fmt.Sprintf("; and for %d limits more", more)
	}
	c.report(f, -1)
}
