package derive

import (
	"slices"
	"strings"

	"example.org/locknut/journal/model"
)

// AsFound works out, as an entry found the engine, what rests on a figure that it found and then replaced: the elongation of the old chain, the deviation of a lash before it was set. Of the other numbers
// [Sums.ChangedBy] tells, since what went into them still stood when it left.
func (s *Sums) AsFound(e *model.Entry) []*Number { return s.foundOf(e, s.Journal.Replaced(e)) }

func (s *Sums) foundOf(e *model.Entry, gone []*model.Value) []*Number {
	var set familySet
	for i := range All {
		if f := &All[i]; f.AsFound && slices.ContainsFunc(gone, f.isFedBy) {
			set |= 1 << i
		}
	}
	if set == 0 {
		return nil
	}
	var numbers []*Number
	for _, n := range s.work(s.Journal.AsFound(e), nil, set) {
		if n.Reason != "" || !slices.ContainsFunc(n.Inputs, func(in Input) bool { return slices.Contains(gone, in.Value) }) {
			continue
		}
		n.Entry, n.Found = e, true
		numbers = append(numbers, n)
	}
	return numbers
}

// isFedBy reports whether a value may go into a number of the family.
func (f *Family) isFedBy(v *model.Value) bool {
	word, _, _ := strings.Cut(v.Path, ".")
	return slices.ContainsFunc(f.Of, func(path string) bool {
		top, _, _ := strings.Cut(path, ".")
		return top == word
	})
}

// LastFound returns, for each path, the newest number that [Sums.AsFound] tells, in order of their paths. It is worked out once.
func (s *Sums) LastFound() []*Number { return s.lastFound() }

// findLast goes back through the entries, and works out only what nothing newer was found of.
func (s *Sums) findLast() []*Number {
	var last []*Number
	seen, told := map[string]bool{}, map[string]bool{}
	for _, e := range slices.Backward(s.Journal.Entries) {
		gone := slices.DeleteFunc(s.Journal.Replaced(e), func(v *model.Value) bool { return seen[v.Path] })
		for _, n := range s.foundOf(e, gone) {
			if !told[n.Path] {
				told[n.Path] = true
				last = append(last, n)
			}
		}
		for _, v := range gone {
			seen[v.Path] = true
		}
	}
	slices.SortStableFunc(last, func(a, b *Number) int { return strings.Compare(a.Path, b.Path) })
	return last
}
