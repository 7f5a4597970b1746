package rule

import (
	"slices"

	"example.org/locknut/journal/model"
)

// cause is one thing that is wrong with figures, or with a limit, and that several rules would come upon, each in its own way. One of them tells of it, where it is; the others ask for it, and keep silent.
type cause struct {
	report  report         // what the one that tells of it says
	instead []*model.Value // whose being out that explains: nothing is told of their limits besides
	against []*model.Value // that can't be as they are written, or not all of them
	weight  weight         // of that
	tool    *model.Tool    // whose figure can't be: nothing is told of what it is worth
	limits  []*model.Limit // that are wrong, so that being out of them says nothing
	unsure  []*model.Limit // that may be wrong: a reading is held to them, and no figure of theirs offered in its place
}

// weight is how far a cause goes against the figures that it is of.
type weight uint8

const (
	// doubted figures can't all be right, and most of them may be: of what is worked out from them no verdict is told, and nothing that would follow from it; what must not wait is told.
	doubted weight = iota + 1
	// suspect figures can't be as they are written, or contradict the one or two beside them: nothing is told of what is worked out from them.
	suspect
)

// causes is the table of all that rules have to know of each other's findings. It is made once, when the first of them asks.
type causes struct {
	all     []*cause // in the order in which they were found
	instead map[*model.Value]*cause
	against map[*model.Value]weight // the most of any cause
	limits  map[*model.Limit]*cause
	unsure  map[*model.Limit]*cause
	tools   map[*model.Tool]*cause
	crowds  crowds
}

// finder finds the causes of which one rule tells.
type finder struct {
	rule string
	find func(*Context) []*cause
}

// finders find all causes, in this order: each may ask for what those before it have found. They live with the rules.
var finders = []finder{
	{"implausible-torque", (*Context).impossibleTorques},
	{"implausible-torque", (*Context).runningShares},
	{"copied-torque", (*Context).copies},
	{"second-figure", (*Context).disagreeing},
	{"suspected-limit", (*Context).limitSlips},
	{"suspected-limit", (*Context).oddLimits}, // of those that are right by the readings
	{"suspected-limit", (*Context).loggedLimits},
	{"lifts-mixed", (*Context).cardLifts},
	{"centre-disagrees", (*Context).camSlips},
	{"lobes-shifted", (*Context).shiftedLobes},
	{"teeth-out", (*Context).teethSlips}, // not by a lobe that is mistyped, nor by a stop
	{slipRule, (*Context).slips},         // not of what has one of the above
	{"unlike-fellows", (*Context).unlikes},
	{"sheet-disagrees", (*Context).boreApart}, // not from bores that are unlike their fellows
	{"sea-level-pressure", (*Context).offPressures},
	{"state-unsaid", (*Context).unsaidStates},
	{"unlike-fellows", (*Context).unlikePulls},
	{"power-torque-disagree", (*Context).screensApart},
	{"unlike-session", (*Context).unlikeSessions}, // of pulls that are alike
	{"sheet-disagrees", (*Context).redlinesPassed},
	{"impossible-spring", (*Context).misfits},
	{"implausible-gearing", (*Context).misgearing},
	{"implausible-number", (*Context).oddities},
	{"implausible-number", (*Context).oddFigures},
	{"absurd-piston-speed", (*Context).racing},
	{"sheet-disagrees", (*Context).figuresApart}, // not from figures that make no engine
	{"shim-far-off", (*Context).farShims},
	{"lift-disagrees", (*Context).liftsApart},
	{"shim-disagrees", (*Context).shimsApart},
	{"port-disagrees", (*Context).portsApart},
	{"injector-too-small", (*Context).impossibleInjectors},
	{"senseless-figures", (*Context).faults}, // of what nothing else explains
}

// findCauses makes the table.
func (c *Context) findCauses() *causes {
	k := &causes{crowds: c.findCrowds(), instead: map[*model.Value]*cause{}, against: map[*model.Value]weight{}, limits: map[*model.Limit]*cause{}, unsure: map[*model.Limit]*cause{}, tools: map[*model.Tool]*cause{}}
	finding := *c
	finding.causes = func() *causes { return k } // as far as it has come
	for _, f := range finders {
		for _, found := range f.find(&finding) {
			found.report.Rule = f.rule
			k.all = append(k.all, found)
			for _, v := range found.instead {
				k.instead[v] = found
			}
			if !slices.ContainsFunc(c.Journal.Accepts, func(a *model.Accept) bool { return c.covers(a, &found.report) }) {
				k.hold(found) // what the builder accepts is as he wrote it
			}
		}
	}
	return k
}

// hold holds a cause against the figures and the limits that it is of.
func (k *causes) hold(found *cause) {
	for _, v := range found.against {
		k.against[v] = max(k.against[v], found.weight)
	}
	for _, l := range found.limits {
		k.limits[l] = found
	}
	if found.tool != nil {
		k.tools[found.tool] = found
	}
	for _, l := range found.unsure {
		k.unsure[l] = found
	}
}

// tellCauses reports those of the running rule.
func (c *Context) tellCauses() {
	for _, k := range c.causes().all {
		if k.report.Rule == c.rule.Name && k.report.Message != "" { // what was told where the text is read has none
			c.report(k.report.Finding, k.report.order)
		}
	}
}

// toldBy returns the name of the rule that says why a figure is out, in place of those that would hold it to its limit; "" for none.
func (c *Context) toldBy(v *model.Value) string {
	if k := c.causes().instead[v]; k != nil {
		return k.report.Rule
	}
	return ""
}

// isSuspect reports whether a finding says that a figure can't be as it is written, or contradicts the one or two beside it: nothing is told of what is worked out from it.
func (c *Context) isSuspect(v *model.Value) bool { return c.causes().against[v] == suspect }

// isDoubted reports whether a finding says that a figure is suspect, or one of several that can't all be right: no verdict is told of what is worked out from it.
func (c *Context) isDoubted(v *model.Value) bool { return c.causes().against[v] != 0 }

// isLimitSuspect reports whether a finding says that a limit is wrong, and not the readings under it.
func (c *Context) isLimitSuspect(l *model.Limit) bool { return l != nil && c.causes().limits[l] != nil }

// isLimitUnsure reports whether a finding says that a limit is wrong, or that it may be.
func (c *Context) isLimitUnsure(l *model.Limit) bool {
	return l != nil && (c.causes().limits[l] != nil || c.causes().unsure[l] != nil)
}

// isToolSuspect reports whether a finding says that what a tool is worth can't be as it is written.
func (c *Context) isToolSuspect(t *model.Tool) bool { return t != nil && c.causes().tools[t] != nil }

// isUnsound reports whether a figure has an open finding of its own, which says that it is out or that it is doubted: what comes from it waits for that to be mended.
func (c *Context) isUnsound(v *model.Value) bool {
	return v.Verdict == model.Out && !v.Settled && !c.isOutAccepted(v) || c.isDoubted(v)
}

func (c *Context) isOutAccepted(v *model.Value) bool {
	return slices.ContainsFunc(c.Journal.Accepts, func(a *model.Accept) bool {
		return (a.Finding.Name == "out-of-limits" || a.Finding.Name == slipRule) && v.Order <= c.Journal.EndOf(a.Entry) && (a.Path == v.Path || a.Path == "" && a.Entry == v.Entry)
	})
}
