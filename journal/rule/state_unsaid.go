package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// stateUnsaid reports two sessions of pulls in an entry that fits something, of which nothing says which was before.
func stateUnsaid(c *Context) { c.tellCauses() }

// unsaidStates finds them. What rests on either waits, since a step of the build takes the second for the one after the work, whichever it is.
func (c *Context) unsaidStates() []*cause {
	var found []*cause
	for _, e := range c.Journal.Entries {
		if len(e.Pulls) < 2 || len(e.Fitted)+len(e.Removed) == 0 || e.Plan {
			continue
		}
		if first, second := unsaid(e); second != nil {
			found = append(found, &cause{weight: suspect, against: append(peaksOf(first), peaksOf(second)...), report: report{source.Finding{
				Severity: source.Warning, At: second.At, Subject: "pulls", Entry: e.Path,
				Message: fmt.Sprintf("two sessions of pulls, and both count as after the work of this entry, which changes %s", countParts(len(e.Fitted)+len(e.Removed))),
				Do:      "write `state = \"before\"` into the one that was before it; where both were after it, write `state = \"after\"` into both",
				Notes:   []source.Remark{{At: first.At, Message: "the other session"}},
			}, second.Order}})
		}
	}
	return found
}

func countParts(n int) string {
	if n == 1 {
		return "a part"
	}
	return fmt.Sprintf("%d parts", n)
}

// unsaid returns the first two sessions of an entry that measured alike and in one state, of which one doesn't say so; nil where one was before, or a note tells them apart.
func unsaid(e *model.Entry) (first, second *model.Pulls) {
	for _, p := range e.Pulls {
		switch {
		case p.State == "before":
			return nil, nil
		case p.Peak == nil:
		case first == nil:
			first = p
		case second == nil:
			second = p
		}
	}
	if second == nil || isElsewhere(first, second) || first.Gear != second.Gear || first.Note != second.Note || saysState(first) && saysState(second) {
		return nil, nil
	}
	return first, second
}

// saysState reports whether a session says whether it was before or after the work.
func saysState(p *model.Pulls) bool {
	table := pullsTable(p)
	return table != nil && table.Get("state") != nil
}
