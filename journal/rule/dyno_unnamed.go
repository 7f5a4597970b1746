package rule

import (
	"fmt"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// dynoUnnamed notes the one session that names no dyno where all others do: what theirs is off by cancels in a gain between two sessions on it, and not in one with this.
func dynoUnnamed(c *Context) {
	if c.Journal.IsWithheld("tools") {
		return
	}
	var unnamed, named *model.Pulls
	for _, e := range c.Journal.Entries {
		for _, p := range e.Pulls {
			switch {
			case p.Dyno != nil:
				named = p
			case unnamed != nil || c.isDynoUnread(p):
				return
			default:
				unnamed = p
			}
		}
	}
	if unnamed == nil || named == nil {
		return
	}
	var worst *derive.Number
	for _, n := range c.Numbers {
		if s := n.Stage; s != nil && n.Reason == "" && (s.From == unnamed || s.To == unnamed) && (worst == nil || n.Estimate.Expanded() > worst.Estimate.Expanded()) {
			worst = n
		}
	}
	if worst == nil || worst.Estimate.Expanded() <= 0 {
		return
	}
	other := worst.Stage.From
	if other == unnamed {
		other = worst.Stage.To
	}
	if other.Dyno == nil || !isOffAlike(other.Dyno) {
		return
	}
	gain, off := quantity.ShowEstimate(worst.Estimate, worst.Unit)
	c.report(source.Finding{
		Severity: source.Note, At: unnamed.At, Subject: unnamed.Peak.Path, Entry: unnamed.Entry.Path,
		Message: fmt.Sprintf("this session names no dyno, as all others do: what `%s` is off by each time doesn't cancel between the two, and the gain of %s is known to ± %s", other.Dyno.Name, gain, off),
		Do:      "name its `dyno`", Notes: []source.Remark{{At: other.At, Message: "the pulls beside it"}},
	}, unnamed.Order)
}

// isDynoUnread reports whether the table of a session names a dyno that can't be told.
func (c *Context) isDynoUnread(p *model.Pulls) bool {
	table := pullsTable(p)
	return table == nil || table.IsBad("dyno") || !table.Name("dyno").IsZero()
}

// isOffAlike reports whether it is told of a dyno by what it may be off alike each time.
func isOffAlike(t *model.Tool) bool { return t.Error != nil || t.Uncertainty != nil }
