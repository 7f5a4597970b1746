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

// leastCrowd is how many sizes it takes to tell which of them is the odd one. Common practice, no source.
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

// crowds are all of them.
type crowds struct {
	list []*crowd
	of   map[*model.Value]*crowd // by member
}

// findCrowds parts the sizes that are current into those of parts that are made alike.
func (c *Context) findCrowds() crowds {
	all := crowds{of: map[*model.Value]*crowd{}}
	byKind := map[string]*crowd{}
	for _, v := range c.Journal.Values {
		kind := c.kindOf(v)
		if kind == "" {
			continue
		}
		k := byKind[kind]
		if k == nil {
			k = &crowd{}
			byKind[kind], all.list = k, append(all.list, k)
		}
		k.members, all.of[v] = append(k.members, v), k
	}
	for _, k := range all.list {
		sizes := make([]float64, len(k.members))
		for i, v := range k.members {
			sizes[i] = v.Estimate.Value
		}
		slices.Sort(sizes)
		k.middle = (sizes[len(sizes)/2] + sizes[(len(sizes)-1)/2]) / 2
	}
	return all
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
func unlikeFellows(c *Context) { c.tellCauses() }

// unlikes finds them, but for those that are out, which have a finding of their own.
func (c *Context) unlikes() []*cause {
	var found []*cause
	for _, k := range c.causes().crowds.list {
		odd := slices.DeleteFunc(slices.Clone(k.members), func(v *model.Value) bool { return !k.isUnlike(v) })
		if 2*len(odd) >= len(k.members) {
			continue // they aren't made alike after all
		}
		for _, v := range odd {
			if v.Verdict == model.Out || !v.IsReading() { // the sheet's is told by sheet-disagrees
				continue
			}
			told := &cause{report: k.unlikeReport(v)}
			if !v.Settled {
				told.against, told.weight = []*model.Value{v}, suspect
			}
			found = append(found, told)
		}
	}
	return found
}

// unlikeReport is what is told of a member that is unlike the others.
func (k *crowd) unlikeReport(v *model.Value) report {
	other := k.members[slices.IndexFunc(k.members, func(w *model.Value) bool { return w != v && !k.isUnlike(w) })]
	middle := quantity.Show(k.middle, v.Quantity.Unit, v.Quantity.StepSI())
	r := reportAbout(v, source.Error, fmt.Sprintf("`%s` is %s, and the middle of the %d that are made like it is %s: no two of them differ by more than %.0f %%", v.Path, v.Quantity.Shown(), len(k.members), middle, 100*mostUnlike),
		"look whether a digit or the unit is mistyped; if not, measure again", source.Remark{At: other.At(), Message: "like the others"})
	isLike := func(q quantity.Quantity) bool { return math.Abs(q.SI()-k.middle) <= mostUnlike*k.middle }
	if meant, ok := quantity.TheOne(v.Quantity.OtherReadings(slipOfPen), isLike); ok {
		text := meant.Shown().String()
		r.Do = fmt.Sprintf("%s? if so write `%s`; if not, measure again", meant.Why, text)
		r.Fixes = writeInstead(v, text)
	}
	return r
}
