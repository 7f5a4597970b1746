package rule

import (
	"example.org/locknut/journal/model"
)

// doubts are the slips that several rules would tell of, each in its own way. Of one slip there is one finding, where it is: the others keep silent, or their findings are settled by that one.
type doubts struct {
	limits map[*model.Limit]*limitSlip // that are wrong, by the looks of the readings under them
	cams   []*camSlip                  // figures of a cam that contradict each other, or what was measured
	teeth  []*toothSlip                // lobes that stand a tooth or so out
	values map[*model.Value]bool       // of which those of the cams and the teeth are told
	about  map[*model.Value]bool       // all that contradict each other: nothing is concluded from what is worked out from them
}

func (c *Context) findDoubts() *doubts {
	d := &doubts{limits: c.limitSlips(), cams: c.camSlips(), values: map[*model.Value]bool{}, about: map[*model.Value]bool{}}
	for _, s := range d.cams {
		d.values[s.at] = true
		for _, v := range s.about {
			d.about[v] = true
			d.values[v] = d.values[v] || s.all
		}
	}
	d.teeth = c.toothSlips(d)
	for _, s := range d.teeth {
		for _, l := range s.lobes {
			d.values[l.value] = true
		}
	}
	return d
}

// isToldOf reports whether a rule for what contradicts tells of a value.
func (c *Context) isToldOf(v *model.Value) bool { return c.doubts().values[v] }
