package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// shimUnwritten reports lashes that were set to another figure though no shim was written: those of an entry together, for they are one omission.
func shimUnwritten(c *Context) {
	if c.Journal.IsFitUnclear() {
		return
	}
	byEntry := map[*model.Entry][]*model.SetAnew{}
	for _, anew := range c.Journal.LashesSetAnew() {
		byEntry[anew.Lash.Entry] = append(byEntry[anew.Lash.Entry], anew)
	}
	if len(byEntry) == 0 {
		return
	}
	for _, e := range c.Journal.Entries {
		list := byEntry[e]
		var open []*model.SetAnew
		for _, anew := range list {
			if !c.Journal.Over(anew) {
				open = append(open, anew)
			}
		}
		switch {
		case len(list) == 0:
		case len(open) == 0:
			c.unwritten(list, source.Settled)
		default:
			c.unwritten(open, source.Open)
		}
	}
}

// unwritten reports the lashes of one entry.
func (c *Context) unwritten(list []*model.SetAnew, state source.State) {
	first := list[0]
	f := source.Finding{Severity: source.Warning, At: first.Lash.At(), Subject: first.Lash.Path, Origin: string(first.Lash.Origin), Entry: first.Lash.Entry.Path, State: state}
	was, is := first.Before.Quantity.Shown(), first.Lash.Quantity.Shown()
	f.Message = fmt.Sprintf("the lash at `%s` was set from %s to %s, and no shim was written: which one is in now isn't known", first.Lash.Path, was, is)
	shim := first.Shim.Quantity
	sum := quantity.Show(first.Shim.Estimate.Value+first.Before.Estimate.Value-first.Lash.Estimate.Value, shim.Unit, shim.StepSI())
	f.Do = fmt.Sprintf("write the shim that is in under `[set]` as `%s`: by what lash and shim were together it would be %s", first.Position, sum)
	if more := len(list) - 1; more > 0 {
		f.Message += fmt.Sprintf("; and so at %d more", more)
		f.Do += ", and so for the others"
	}
	for _, anew := range list {
		f.Notes = append(f.Notes, source.Remark{At: anew.Before.At(), Message: "the lash as it was"}, source.Remark{At: anew.Shim.At(), Message: "with this shim"})
	}
	c.report(f, first.Lash.Order)
}
