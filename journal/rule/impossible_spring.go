package rule

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// misfit is a figure of a spring that can't be what it is called.
type misfit struct {
	value, other *model.Value // the one that is blamed, and one that it doesn't go with; nil for none
	message, do  string
}

// impossibleSpring reports figures of springs that no spring has: one that is longer installed than free, or solid before it is installed; a load that is no force.
func impossibleSpring(c *Context) { c.tellCauses() }

// cause is what is told of it.
func (m misfit) cause() *cause {
	var notes []source.Remark
	if m.other != nil {
		notes = []source.Remark{{At: m.other.At(), Message: fmt.Sprintf("`%s`", m.other.Path)}}
	}
	return &cause{report: reportAbout(m.value, source.Error, m.message, m.do, notes...), against: []*model.Value{m.value}, weight: suspect}
}

// spring is what is known of one spring now: lengths by what they are called, and those that loads were read at.
type spring struct {
	lengths map[string]*model.Value // free, installed, solid
	loaded  []*model.Value
}

// misfits finds the figures of springs that can't be: those of a wrong kind, and of each spring the one that goes least with the others. What is out of its own limit has its finding.
func (c *Context) misfits() []*cause {
	var found []*cause
	springs := map[string]*spring{}
	var names []string
	of := func(path string) *spring {
		if springs[path] == nil {
			springs[path] = &spring{lengths: map[string]*model.Value{}}
			names = append(names, path)
		}
		return springs[path]
	}
	for _, v := range c.Journal.Values {
		if !v.Current || v.Settled || v.Verdict == model.Out || v.Quantity.Unit == nil || !strings.HasPrefix(v.Path, "spring.") {
			continue
		}
		word, isLength := parse.LastSegment(v.Path), v.Quantity.Unit.Dimension == quantity.Length
		switch {
		case word == "load" && v.Quantity.Unit.Dimension != quantity.Force:
			found = append(found, misfit{value: v, message: fmt.Sprintf("`%s` is %s, a figure of %s: a load is a force", v.Path, v.Quantity.Shown(), v.Quantity.Unit.Dimension), do: "write it in N, lbf or kgf"}.cause())
		case slices.Contains(springLengths, word) && !isLength:
			found = append(found, misfit{value: v, message: fmt.Sprintf("`%s` is %s, a figure of %s: it is a length", v.Path, v.Quantity.Shown(), v.Quantity.Unit.Dimension), do: "mend its unit, or its name"}.cause())
		case word == "length":
			of(parse.Above(parse.Above(v.Path))).loaded = append(of(parse.Above(parse.Above(v.Path))).loaded, v)
		case slices.Contains(springLengths, word):
			of(parse.Above(v.Path)).lengths[word] = v
		}
	}
	for _, name := range names {
		if springs[parse.Above(name)] != nil {
			continue // with those of its side, whose lengths stand above it
		}
		side := springs[name]
		var all []ill
		for _, below := range names {
			if parse.Above(below) == name {
				side.loaded = append(side.loaded, springs[below].loaded...)
				all = append(all, springs[below].ills()...)
			}
		}
		if m, ok := worst(append(all, side.ills()...)); ok {
			found = append(found, m.cause())
		}
	}
	return append(found, c.misloads(found)...)
}

// leastSolid is the share of its length to which no valve spring goes together, be it until its wire touches: common practice, no source.
const leastSolid = 0.25

var springLengths = []string{"free", "installed", "solid", "length"}

// ill are two lengths of a spring that don't go together.
type ill struct {
	short, long *model.Value
	why         string
}

// compareLengths compares two lengths, each of which may be off: more than nought where the first is longer for certain, nought where it is as long.
func compareLengths(a, b *model.Value) int {
	off := math.Hypot(a.Estimate.Expanded(), b.Estimate.Expanded())
	return quantity.Compare(a.Estimate.Value-b.Estimate.Value, off, b.Estimate.Value)
}

// ills returns the pairs of lengths that no spring has.
func (s *spring) ills() []ill {
	var found []ill
	shorter := func(short, long *model.Value, why string) {
		if short != nil && long != nil && compareLengths(short, long) >= 0 {
			found = append(found, ill{short, long, why})
		}
	}
	thin := func(short, long *model.Value, why string) {
		if short != nil && long != nil && quantity.Compare(short.Estimate.Value, leastSolid*long.Estimate.Value, long.Estimate.Value) < 0 {
			found = append(found, ill{short, long, why})
		}
	}
	free, installed, solid := s.lengths["free"], s.lengths["installed"], s.lengths["solid"]
	shorter(installed, free, "a spring is longer free than installed")
	shorter(solid, installed, "a spring that is solid as it is installed opens no valve")
	shorter(solid, free, "a spring is longer free than solid")
	thin(installed, free, "no spring goes together so far")
	thin(solid, installed, "no spring goes together so far")
	thin(solid, free, "no spring goes together so far")
	for _, v := range s.loaded {
		thin(solid, v, "no spring goes together so far")
		shorter(v, free, "a spring is longer free than loaded")
		if solid != nil && compareLengths(solid, v) > 0 {
			found = append(found, ill{solid, v, "no load makes a spring shorter than it is solid"})
		}
		if base, isSeat := strings.CutSuffix(v.Path, ".seat.length"); isSeat {
			for _, open := range s.loaded {
				if open.Path == base+".open.length" {
					shorter(open, v, "a spring is shorter open than at the seat")
				}
			}
		}
	}
	return found
}

// worst returns the length of springs that goes least with the others.
func worst(ills []ill) (misfit, bool) {
	if len(ills) == 0 {
		return misfit{}, false
	}
	counts := map[*model.Value]int{}
	for i, k := range ills {
		if slices.Contains(ills[:i], k) {
			continue
		}
		counts[k.short]++
		counts[k.long]++
	}
	m, why := misfit{}, ""
	for _, k := range ills {
		for _, pair := range [][2]*model.Value{{k.short, k.long}, {k.long, k.short}} {
			v := pair[0]
			if m.value == nil || counts[v] > counts[m.value] || counts[v] == counts[m.value] && later(v, m.value) {
				m.value, m.other, why = v, pair[1], k.why
			}
		}
	}
	m.message = fmt.Sprintf("`%s` is %s and `%s` %s: %s", m.value.Path, m.value.Quantity.Shown(), m.other.Path, m.other.Quantity.Shown(), why)
	m.do = "look at both figures and their units again"
	return m, true
}

// later reports whether a value is newer than another, or stands after it.
func later(a, b *model.Value) bool {
	return cmp.Or(cmp.Compare(a.Order, b.Order), cmp.Compare(a.At().Start, b.At().Start)) > 0
}
