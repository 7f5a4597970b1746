package rule

import (
	"example.org/locknut/journal/model"
)

// suspects are the figures that can't be as they are written and that have a finding which says so: nothing is told of what is worked out from them. They are found out once for all rules.
type suspects struct {
	crowds  map[*model.Value]*crowd // of the sizes of parts that are made alike
	unlike  []*model.Value          // sizes that are far from their fellows
	springs []misfit
	gearing *misgeared // nil for none
	all     map[*model.Value]bool
}

func (c *Context) findSuspects() *suspects {
	s := &suspects{crowds: map[*model.Value]*crowd{}, all: map[*model.Value]bool{}}
	s.crowds, s.unlike = c.crowds()
	s.springs = c.misfits()
	s.gearing = c.misgeared()
	for _, v := range s.unlike {
		s.all[v] = true
	}
	for _, m := range s.springs {
		s.all[m.value] = true
	}
	if s.gearing != nil {
		s.all[s.gearing.value] = true
	}
	return s
}

// isSuspect reports whether a finding says that a figure can't be as it is written: by itself, by the engine that it makes, or by what contradicts it.
func (c *Context) isSuspect(v *model.Value) bool {
	return v != nil && (!v.Settled && (c.slipOf(v) != nil || c.suspects().all[v]) || c.isOdd(v) || c.doubts().about[v])
}
