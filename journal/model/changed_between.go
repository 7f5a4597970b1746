package model

import (
	"slices"
	"sort"
	"strings"
)

// ChangedBetween returns the parts that went in, and those that came out, after one moment and before another, each by name. A part that did
// both is in neither, nor is one that stands in the list by mistake, since it was in already.
func (j *Journal) ChangedBetween(from, to int) (in, out []*Part) {
	first := sort.Search(len(j.Changes), func(i int) bool { return j.OrderOf(j.Changes[i]) > from })
	for _, c := range j.Changes[first:] {
		if j.OrderOf(c) >= to {
			break
		}
		if c.Kind == RemovesAbsent || c.IsAgain() {
			continue
		}
		if c.Kind == Fits || c.Kind == Renews {
			in = append(in, c.Ref.Part)
		} else {
			out = append(out, c.Ref.Part)
		}
		if c.Displaced != nil {
			out = append(out, c.Displaced)
		}
	}
	return without(in, out), without(out, in)
}

// without returns the parts of a list that are not in another, each once, by name.
func without(parts, others []*Part) []*Part {
	kept := slices.DeleteFunc(slices.Clone(parts), func(p *Part) bool { return slices.Contains(others, p) })
	slices.SortFunc(kept, func(a, b *Part) int { return strings.Compare(a.Name, b.Name) })
	return slices.Compact(kept)
}
