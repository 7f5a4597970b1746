package rule

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// alike are the first words of the paths of parts that are made alike, so that their sizes hardly differ.
var alike = []string{"bore", "piston", "journal", "bearing", "pin"}

// mostUnlike is the share by which sizes of parts that are made alike can differ, oversizes and wear counted in: common practice, no source.
const mostUnlike = 0.05

// leastCrowd is how many sizes it takes to tell which of them is the odd one.
const leastCrowd = 3

// crowd are sizes of parts that are made alike.
type crowd struct {
	members []*model.Value
	middle  float64 // their median, in SI
}

// off returns by how much a member is off the middle, in SI.
func (k *crowd) off(v *model.Value) float64 { return math.Abs(v.Estimate.Value - k.middle) }

// isUnlike reports whether a member can't be one of parts that are made alike.
func (k *crowd) isUnlike(v *model.Value) bool {
	return len(k.members) >= leastCrowd && quantity.Compare(k.off(v), mostUnlike*k.middle, k.middle) > 0
}

// crowds parts the sizes that are current into those of parts that are made alike, and returns of those that are no such size which have no finding of their own.
func (c *Context) crowds() (of map[*model.Value]*crowd, unlike []*model.Value) {
	of = map[*model.Value]*crowd{}
	byKind := map[string]*crowd{}
	var kinds []*crowd
	for _, v := range c.Journal.Values {
		kind := c.kindOf(v)
		if kind == "" {
			continue
		}
		if byKind[kind] == nil {
			byKind[kind] = &crowd{}
			kinds = append(kinds, byKind[kind])
		}
		k := byKind[kind]
		k.members, of[v] = append(k.members, v), k
	}
	for _, k := range kinds {
		sizes := make([]float64, len(k.members))
		for i, v := range k.members {
			sizes[i] = v.Estimate.Value
		}
		slices.Sort(sizes)
		k.middle = (sizes[len(sizes)/2] + sizes[(len(sizes)-1)/2]) / 2
		odd := slices.DeleteFunc(slices.Clone(k.members), func(v *model.Value) bool { return !k.isUnlike(v) })
		if 2*len(odd) >= len(k.members) {
			continue // they aren't made alike after all
		}
		unlike = append(unlike, slices.DeleteFunc(odd, func(v *model.Value) bool { return v.Verdict == model.Out })...)
	}
	return of, unlike
}

// kindOf names what a size that is current is one of, by its path without cylinders and numbers; "" for what is none. A bore is one wherever it was read by depth and direction, and the engine's
// is one of them.
func (c *Context) kindOf(v *model.Value) string {
	if !v.Current || v.Quantity.Unit == nil || v.Quantity.Unit.Dimension != quantity.Length || v.Quantity.IsOpenEnded() {
		return ""
	}
	if v.Path == "engine.bore" {
		return "bore"
	}
	first, _, _ := strings.Cut(v.Path, ".")
	if !v.IsReading() || !slices.Contains(alike, first) {
		return ""
	}
	words := slices.DeleteFunc(strings.Split(v.Path, "."), func(word string) bool {
		_, err := strconv.Atoi(word)
		return err == nil || slices.Contains(c.Journal.Cylinders, word)
	})
	if first == "bore" && len(words) == 3 {
		return first
	}
	return strings.Join(words, ".")
}

// unlikeFellows reports sizes that are far from those of the parts that are made like theirs.
func unlikeFellows(c *Context) {
	s := c.suspects()
	for _, v := range s.unlike {
		k := s.crowds[v]
		other := k.members[slices.IndexFunc(k.members, func(w *model.Value) bool { return w != v && !k.isUnlike(w) })]
		middle := quantity.Show(k.middle, v.Quantity.Unit, v.Quantity.StepSI())
		do := "look whether a digit or the unit is mistyped; if not, measure again"
		var fixes []source.Fix
		if meant := k.meant(v); meant != nil {
			do = fmt.Sprintf("%s? if so write `%s`; if not, measure again", meant.why, meant.meant.Shown())
			if len(v.Written.Repeats) == 0 {
				fixes = []source.Fix{source.Replace(fmt.Sprintf("write `%s`", meant.meant.Shown()), v.Written.Span(0, len(v.Written.Text)), meant.meant.Shown().String())}
			}
		}
		c.value(v, source.Error, fmt.Sprintf("`%s` is %s, and the middle of the %d that are made like it is %s: no two of them differ by more than %.0f %%", v.Path, v.Quantity.Shown(), len(k.members), middle, 100*mostUnlike),
			do, source.Remark{At: other.At(), Message: "like the others"})
		c.findings[len(c.findings)-1].Fixes = fixes
	}
}

// meant returns the one other way to read a figure by which it is like the others; nil where there is none, or are several.
func (k *crowd) meant(v *model.Value) *slip {
	var all []slip
	for _, s := range otherReadings(v.Quantity) {
		if math.Abs(s.meant.SI()-k.middle) <= mostUnlike*k.middle {
			all = append(all, s)
		}
	}
	if len(all) != 1 {
		return nil
	}
	return &all[0]
}
