package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// limitsClash reports two parts that are in and both limit one path: the one fitted later wins.
func limitsClash(c *Context) {
	c.bringsClash()
	by := map[string]*model.Limit{}
	for _, part := range c.Journal.Fitted {
		for _, l := range part.Limits {
			if !l.IsFigures() && len(l.Expect) == 0 {
				continue
			}
			first := by[l.Path]
			by[l.Path] = l
			if first == nil || c.isNearSlot(first.Part.Slot, part.Slot) {
				continue
			}
			c.report(source.Finding{Severity: source.Warning, At: l.PathAt, Subject: l.Path, Origin: part.Name,
				Message: fmt.Sprintf("`%s` and `%s` are both in and both limit `%s`: that of `%s`, fitted later, holds", first.Part.Name, part.Name, l.Path, part.Name),
				Do:      "take the limit out of one of the two", Notes: []source.Remark{{At: first.PathAt, Message: "the other one"}}}, -1)
		}
	}
}

// bringsClash reports two parts that are in and bring figures at one path: most likely one took the other's place, and their slots don't say so.
func (c *Context) bringsClash() {
	type first struct {
		part *model.Part
		at   source.Range
	}
	by := map[string]first{}
	for _, part := range c.Journal.Fitted {
		told := map[*model.Part]bool{part: true}
		for _, r := range part.Brings {
			other, brought := by[r.Path]
			by[r.Path] = first{part, r.PathAt}
			if !brought || told[other.part] || part.Fields.IsBad("slot") || other.part.Fields.IsBad("slot") || c.isNearSlot(other.part.Slot, part.Slot) {
				continue
			}
			told[other.part] = true
			at, do := part.NameAt, "write the same `slot` at both, or list the one that came out under `removed`"
			if slot := part.Fields.Name("slot"); !slot.IsZero() {
				at = slot.At
			}
			c.report(source.Finding{Severity: source.Warning, At: at, Subject: part.Name, Origin: other.part.Name,
				Message: fmt.Sprintf("`%s` and `%s` are both in and both bring `%s`: %s", other.part.Name, part.Name, r.Path, slotWords(other.part, part)),
				Do:      do, Notes: []source.Remark{{At: other.at, Message: "the other one"}}}, -1)
		}
	}
}

// slotWords says which slots two parts take.
func slotWords(a, b *model.Part) string {
	word := func(part *model.Part) string {
		if slot := part.Fields.Name("slot"); !slot.IsZero() {
			return "the slot `" + slot.Name + "`"
		}
		return "no slot"
	}
	return fmt.Sprintf("one takes %s, the other %s", word(a), word(b))
}
