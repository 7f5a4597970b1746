package model

import (
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// StepFault is what is wrong with the steps of a value beside those of its limit. Its zero value is nothing.
type StepFault uint8

// The faults.
const (
	StepsRight  StepFault = iota
	StepMissing           // it ends before the limit does: the step, and those after it, are missing
	StepDiffers           // the step is another one
	StepCount             // it has more steps than the limit, or fewer that aren't its first ones
)

// StepFault returns what is wrong with the steps of a value, and at which step of the limit, from 0. The last step, which has a tolerance, is left to the
// bounds. A figure like the last step, or of a limit of one figure, stands for the last step alone.
func (l *Limit) StepFault(v *Value) (fault StepFault, at int) {
	n, earlier := len(l.Steps), v.Steps()
	if n == 0 || v.Quantity.Unit == nil || v.Words != "" {
		return StepsRight, 0
	}
	isLast := v.Quantity.Unit.Dimension == l.Dimension
	switch {
	case len(earlier) == 0 && isLast:
		return StepsRight, 0
	case len(earlier) == 0 && slices.ContainsFunc(l.Steps, func(step quantity.Quantity) bool { return v.isStep(v.Quantity, step) }):
		return StepMissing, n
	case len(earlier) == 0 || len(earlier) > n:
		return StepCount, 0
	}
	for i, step := range earlier {
		if !v.isStep(step, l.Steps[i]) {
			if len(earlier) < n {
				return StepCount, 0
			}
			return StepDiffers, i
		}
	}
	switch {
	case len(earlier) < n && v.isStep(v.Quantity, l.Steps[len(earlier)]):
		return StepMissing, len(earlier) + 1
	case len(earlier) < n:
		return StepCount, 0
	case !isLast:
		return StepDiffers, n
	}
	return StepsRight, 0
}

// isStep reports whether a step of the value is one of its limit: there is no tolerance on it but its last digit where it was worked out, from another unit
// or from what the wrench was set to.
func (v *Value) isStep(step, of quantity.Quantity) bool {
	switch {
	case step.Unit == nil || step.Unit.Dimension != of.Unit.Dimension:
		return false
	case step.Unit != of.Unit || v.Setting() != nil:
		return step.Agrees(of)
	}
	return quantity.Compare(step.SI(), of.SI(), 0) == 0
}

// AllSteps returns the steps of a limit of several, the last one as far as it is one figure; nil for a limit of one.
func (l *Limit) AllSteps() []quantity.Quantity {
	if len(l.Steps) == 0 || l.Nominal == nil {
		return l.Steps
	}
	return append(slices.Clone(l.Steps), *l.Nominal)
}

// steps takes a nominal written step by step: the last is the nominal, the others are held to as they stand.
func (l *linker) steps(limit *Limit, v *parse.Value) {
	written := v.Written()
	for i, step := range written.Steps {
		q, slip := step.Resolve(l.journal.wantHeld(limit.Path, step.Units))
		if slip != nil {
			l.slip(v, slip, limit.Path)
			return
		}
		if i < len(written.Steps)-1 {
			limit.Steps = append(limit.Steps, q)
			continue
		}
		limit.Dimension, limit.Unit = q.Unit.Dimension, q.Unit
		l.nominal(limit, q, v.At)
		l.fallingSteps(limit, v, q, written.Words)
	}
}

// slackening are the words that say that a fastener is slackened between two steps.
var slackening = []string{"slack", "loosen", "back off", "backed off", "undo", "undone", "release"}

// fallingSteps reports a torque that is less than the one before it where nobody says that the fastener is slackened between: steps typed in the wrong
// order, whose last one would judge what was tightened in the right one.
func (l *linker) fallingSteps(limit *Limit, v *parse.Value, last quantity.Quantity, words string) {
	steps := append(slices.Clone(limit.Steps), last)
	if slices.ContainsFunc(steps, func(q quantity.Quantity) bool { return q.Unit.Dimension != quantity.Torque || q.SI() == 0 }) {
		return
	}
	said := strings.ToLower(words + " " + limit.Fields.Text("note").Text)
	if slices.ContainsFunc(slackening, func(word string) bool { return strings.Contains(said, word) }) {
		return
	}
	for i, step := range steps[1:] {
		if before := steps[i]; quantity.Compare(step.HighSI(), before.LowSI(), 0) < 0 {
			l.report("falling-steps", source.Warning, v.At, limit.Path, fmt.Sprintf("the steps of `%s` fall from %s to %s", limit.Path, before.Shown(), step.Shown()),
				"write the steps in the order in which they are done; if the fastener is slackened between, say so after a comma: `40 N·m then 20 N·m, slackened between`")
			limit.Unread = true
			return
		}
	}
}
