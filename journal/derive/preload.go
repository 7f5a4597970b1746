package derive

import (
	"math"
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// preload works out the pull that each torque has put into its fastener.
func preload(m *Moment) {
	for _, b := range m.bolts() {
		if b.value == nil || !b.threaded {
			continue
		}
		n := &Number{Path: "preload." + b.below, Title: "preload, " + strings.ReplaceAll(b.below, ".", " "), Inputs: []Input{{Symbol: "T", Value: b.value}}, Unit: m.forceUnit(),
			Formula: "F = T / (K · d); K = d2/(2 · d) · (tan ψ + μ/cos 30°) / (1 − μ · tan ψ/cos 30°) + 0.625 · μ; tan ψ = P/(π · d2)"}
		n.Estimate.Dimension = quantity.Force
		if n.Reason = b.noPreload(); n.Reason == "" {
			b.work(n)
		}
		b.preload = m.add(n)
	}
}

// noPreload says why no preload can be worked out from the torque that is in force.
func (b *bolt) noPreload() string {
	q := b.value.Quantity
	switch {
	case b.Reason != "":
		return b.Reason
	case b.value.Origin != model.Set:
		return "the torque was found, not set: what turns a tight fastener tells little of its pull"
	case q.Unit.Dimension == quantity.Torque && len(b.Limit.Steps) > 0 && b.Limit.Dimension == quantity.Angle:
		return "the last step of its limit is an angle: the pull is not in the torque before it"
	case q.Unit.Dimension == quantity.Angle:
		return "its last step is an angle: the pull is not in the torque"
	case q.Unit.Dimension != quantity.Torque:
		return "its figure is no torque"
	case q.IsOpenEnded():
		return "the torque has no other end"
	}
	return ""
}

// work works the preload out in the middle of the range of friction, which is rectangular: what lies between its ends is equally likely.
func (b *bolt) work(n *Number) {
	low, high := b.Friction[0], b.Friction[1]
	friction := quantity.Estimate{Value: (low + high) / 2, Dimension: quantity.Pure}
	if high > low {
		friction.Shares = []quantity.Share{{Cause: "friction/" + b.Limit.Path, Std: (high - low) / 2 / math.Sqrt(3)}}
	}
	pull := func(x []float64) (float64, error) { return b.Fastener.preload(x[0], x[1]) }
	estimate, err := carriedAt(pull, quantity.Force, []quantity.Estimate{b.value.Estimate, friction})
	if err != nil {
		n.Reason = err.Error()
		return
	}
	n.Estimate = estimate
	if b.isTold {
		n.Words = b.preloadWords(n.Unit)
	}
}

// preloadWords says what friction was reckoned with and who says so, what its ends make of the torque, and what the short form does.
func (b *bolt) preloadWords(unit *quantity.Unit) string {
	torque := b.value.Estimate.Value
	words := "friction " + quantity.Show(b.Friction[0], quantity.One(), 0).Number
	if b.Friction[1] > b.Friction[0] {
		words += " to " + quantity.Show(b.Friction[1], quantity.One(), 0).Number
	}
	words += " (" + b.FrictionBy + ")"
	if least, most, err := b.Preloads(torque); err == nil && most > least {
		words += ": " + spanned(least, most, unit)
	}
	if b.short.factor > 0 {
		if pull, err := calc.Preload(torque, b.short.factor, b.Thread.Diameter); err == nil {
			words += "; by the short form, K " + quantity.Show(b.short.factor, quantity.One(), 0.01).Number + " (" + b.short.source + "), " + threeFigures(pull, unit)
		}
	}
	return words + b.wrenchWords()
}

// wrenchWords says that the wrench's error is left out, where nothing is known of it.
func (b *bolt) wrenchWords() string {
	tool := b.value.Tool
	if len(b.value.Estimate.Shares) > 0 {
		return ""
	}
	words := "; the wrench’s error isn’t known, and is left out"
	if tool == nil || tool.Range == nil || !tool.Range.HasHigh || tool.Range.Unit.Dimension != quantity.Torque {
		return words
	}
	permitted, err := calc.PermittedError(tool.Range.HighSI())
	if err != nil {
		return words
	}
	return words + ": ISO 6789 permits " + quantity.Show(permitted, quantity.UnitShown("%"), 0.01).String() + " at its size"
}
