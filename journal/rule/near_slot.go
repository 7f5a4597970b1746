package rule

import (
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// tellingSlot is how many letters a slot must have to be held to the words that are known, where no other part stands in the one that it nearly is: common practice, no source.
const tellingSlot = 6

// mostLonger is by how many letters and hyphens a slot may be longer than one that it nearly is.
const mostLonger = 3

// nearSlot reports parts whose slot is nearly that of another part, or nearly a word that is known: two slots hold two parts, of which the second was to take the place of the first.
func nearSlot(c *Context) {
	parts, kinds := map[string]int{}, map[string][]*model.Part{} // by the digits of their slots: of those that have others none is nearly another
	for _, p := range c.Journal.Parts {
		if parts[p.Slot]++; p.Slot != "" && parts[p.Slot] == 1 {
			kinds[digitsOf(p.Slot)] = append(kinds[digitsOf(p.Slot)], p)
		}
	}
	right := map[string]string{}
	for _, p := range c.Journal.Parts {
		if p.Slot == "" || slices.Contains(breathing, p.Slot) {
			continue
		}
		is, known := right[p.Slot]
		if !known {
			is = c.rightSlot(p, kinds[digitsOf(p.Slot)], parts)
			right[p.Slot] = is
		}
		if is == "" {
			continue
		}
		at := p.Fields.Name("slot").At
		c.report(source.Finding{Severity: source.Warning, At: at, Subject: p.Name, Message: fmt.Sprintf("the slot of `%s` is `%s`, and another is called `%s`: one doesn't take the other's place", p.Name, p.Slot, is),
			Do: fmt.Sprintf("write `%s`, or accept it if this is another place", is), Fixes: []source.Fix{source.Replace(fmt.Sprintf("write `%s`", is), at, `"`+is+`"`)}}, 0)
	}
}

// rightSlot returns the slot that a part's nearly is, of the first part in each of those like it; "" for none. Of two that nobody knows the one that fewer parts stand in is mistyped; of those alike the later.
func (c *Context) rightSlot(p *model.Part, others []*model.Part, parts map[string]int) string {
	for _, other := range others {
		isBefore := other.Fields.Name("slot").At.Start < p.Fields.Name("slot").At.Start
		switch {
		case other.Slot == p.Slot || !c.isNearSlot(p.Slot, other.Slot):
		case slices.Contains(breathing, other.Slot), parts[other.Slot] > parts[p.Slot], parts[other.Slot] == parts[p.Slot] && isBefore:
			return other.Slot
		}
	}
	if len(p.Slot) < tellingSlot || parts[p.Slot] > 1 {
		return ""
	}
	for _, word := range breathing {
		if c.isNearSlot(p.Slot, word) && strings.TrimSuffix(p.Slot, "s") != strings.TrimSuffix(word, "s") {
			return word
		}
	}
	return ""
}

// isNearSlot reports whether two slots differ by their hyphens, or by a letter of one word.
func (c *Context) isNearSlot(a, b string) bool {
	if a == b || a == "" || b == "" || max(len(a)-len(b), len(b)-len(a)) > mostLonger {
		return false
	}
	if strings.ReplaceAll(a, "-", "") == strings.ReplaceAll(b, "-", "") {
		return true
	}
	x, y := strings.Split(a, "-"), strings.Split(b, "-")
	if len(x) != len(y) {
		return false
	}
	odd := -1
	for i := range x {
		if x[i] == y[i] {
			continue
		}
		if odd >= 0 {
			return false
		}
		odd = i
	}
	return c.isNearWord(x[odd], y[odd])
}
