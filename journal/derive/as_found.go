package derive

import (
	"maps"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
)

// AsFound works out, as an entry found the engine, what rests on a figure that it found and then replaced: the elongation of the old chain, the deviation of a lash before it was set. Of the other numbers
// [Sums.ChangedBy] tells, since what went into them still stood when it left. No export holds them, which tells of numbers as they are now.
func (s *Sums) AsFound(e *model.Entry) []*Number {
	gone := s.Journal.Replaced(e)
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

// foundNumbers are those of the whole journal that are told elsewhere than on the pages of their entries. The others aren't kept.
type foundNumbers struct {
	last    []*Number // of each path the newest, in order of their paths
	outside []*Number // outside their limit or worn, in order of time
}

// LastFound returns, for each path, the newest number that [Sums.AsFound] tells, in order of their paths.
func (s *Sums) LastFound() []*Number { return s.found().last }

// FoundOutside returns those of the numbers that [Sums.AsFound] tells of all entries that were outside their limit or worn, in order of time.
func (s *Sums) FoundOutside() []*Number { return s.found().outside }

// findAll works out what every entry found and replaced.
func (s *Sums) findAll() foundNumbers {
	var found foundNumbers
	last := map[string]*Number{}
	for _, e := range s.Journal.Entries {
		for _, n := range s.AsFound(e) {
			last[n.Path] = n
			if n.Verdict >= model.Worn {
				found.outside = append(found.outside, n)
			}
		}
	}
	for _, path := range slices.Sorted(maps.Keys(last)) {
		found.last = append(found.last, last[path])
	}
	return found
}
