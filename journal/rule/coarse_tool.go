package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// coarseTool reports, once each, the tools that took what is current at a limit of two bounds and that are coarse for it.
func coarseTool(c *Context) {
	type use struct {
		tool  *model.Tool
		limit *model.Limit
	}
	done := map[use]bool{}
	for _, v := range c.Journal.Values {
		if !c.restsOnTool(v) || done[use{v.Tool, v.Limit}] {
			continue
		}
		done[use{v.Tool, v.Limit}] = true
		if ratio, ok := v.Tool.Ratio(v.Limit); ok && quantity.Compare(ratio, model.WantedRatio, 0) < 0 {
			c.coarse(v, ratio)
		}
	}
}

// restsOnTool reports whether a reading that is current was judged with what its tool is worth: not where it says its own uncertainty, lies beyond
// the tool's scale, or where it is not clear which tool took it.
func (c *Context) restsOnTool(v *model.Value) bool {
	return v.Current && !v.Settled && v.IsReading() && v.Verdict != model.NoLimit && v.Tool != nil && v.Tool.Holds(v.Quantity) && !v.Quantity.HasSpread &&
		(v.IsToolNamed() || !c.Journal.AreToolsUnclear(v.Entry))
}

// coarse reports the tool of a reading at the reading's limit.
func (c *Context) coarse(v *model.Value, ratio float64) {
	tool, limit := v.Tool, v.Limit
	estimate, _ := tool.EstimateIn(limit)
	_, u := quantity.ShowEstimate(estimate, limit.Unit)
	f := source.Finding{Severity: source.Note, At: tool.NameAt, Subject: limit.Path, Origin: tool.Name,
		Message: fmt.Sprintf("`%s` is coarse for `%s`: %s beside ± %s is %s, short of the 4:1 rule of thumb", tool.Name, limit.Path, limit.BoundsText(), u, model.ShowRatio(ratio)),
		Do:      "measure with a finer tool, or keep to the middle of the limit and accept this",
		Notes:   append(limitNote(limit), source.Remark{At: v.At(), Message: "read here"})}
	if quantity.Compare(ratio, model.LeastRatio, 0) < 0 {
		f.Severity = source.Warning
		f.Message = fmt.Sprintf("`%s` can't tell in from out at `%s`: %s beside ± %s is %s, where the rule of thumb is 4:1", tool.Name, limit.Path, limit.BoundsText(), u, model.ShowRatio(ratio))
		f.Do = "measure with a finer tool"
	}
	c.report(f, -1)
}
