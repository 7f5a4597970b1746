package rule

import (
	"fmt"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// How much larger one bolt must be than another for one torque to be wrong for one of them: where both have a class, by the share of proof load that it makes; where
// neither has, by diameter. Torque goes by the third power of that. Common practice, no source.
const (
	otherShare    = 3
	otherDiameter = 1.9
)

// copiedTorque reports limits of one sheet with one torque for bolts of clearly different size: a row of a table that was copied down.
func copiedTorque(c *Context) { c.tellCauses() }

// copies finds them. Nothing says which of the two is wrong.
func (c *Context) copies() []*cause {
	var found []*cause
	var seen []*derive.Fastener
	for _, l := range c.Journal.Limits {
		f := c.Sums.Fastener(l)
		torque, ok := aimOf(l)
		if f == nil || !ok || f.Reason != "" || c.isLimitUnsure(l) {
			continue
		}
		if why, _ := implausible(f, torque); why != "" {
			continue // accepted
		}
		for _, first := range seen {
			if severity, is := copied(first, f); is {
				found = append(found, copiedCause(first.Limit, l, severity))
				break
			}
		}
		seen = append(seen, f)
	}
	return found
}

// copied reports whether one torque stands for two fasteners that can't both want it, in one sheet.
func copied(a, b *derive.Fastener) (source.Severity, bool) {
	torque, _ := aimOf(a.Limit)
	other, _ := aimOf(b.Limit)
	if a.Limit.File != b.Limit.File || a.Limit.Part != b.Limit.Part || quantity.Compare(torque, other, 0) != 0 {
		return 0, false
	}
	proofA, errA := a.ProofLoad()
	proofB, errB := b.ProofLoad()
	switch {
	case errA == nil && errB == nil:
		share := proofA * a.Thread.Diameter / (proofB * b.Thread.Diameter)
		return source.Warning, share >= otherShare || share <= 1.0/otherShare
	case errA != nil && errB != nil:
		size := a.Thread.Diameter / b.Thread.Diameter
		return source.Note, size >= otherDiameter || size <= 1/otherDiameter
	}
	return 0, false
}

// copiedCause is what is told of two limits, at the one that stands further down.
func copiedCause(first, second *model.Limit, severity source.Severity) *cause {
	if figureAt(first).Start > figureAt(second).Start {
		first, second = second, first
	}
	torque, _ := aimOf(second)
	return &cause{unsure: []*model.Limit{first, second}, report: report{source.Finding{Severity: severity, At: figureAt(second), Subject: second.Path,
		Message: fmt.Sprintf("%s stands for %s here and for %s at `%s`: bolts so different want different torques", showTorque(torque, second.Unit), second.Key("thread").Text, first.Key("thread").Text, first.Path),
		Do:      "look both up again: a row was copied down, or a thread is mistyped", Notes: []source.Remark{{At: figureAt(first), Message: "the same figure"}}}, -1}}
}
