package derive

import (
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// CurvePoint is a figure at an engine speed, all in SI: rad/s, and W or N·m. Expanded is half of its interval of 95 %; 0 where nothing tells how far off it may be.
type CurvePoint struct{ Speed, Value, Expanded float64 }

// mostCurvePoints is how many points of a curve are handed out: more can't be told apart in a drawing.
const mostCurvePoints = 240

// curveTold is a curve, or the reason why there is none.
type curveTold struct {
	points []CurvePoint
	reason string
}

// Curve returns the mean of the session's pulls over the engine speeds that all of them cover, in power or in torque, as it is compared. It has at most 240 points, the peak among them. What
// may be off is the scatter alone, in the mean: what the dyno gets wrong each time moves all curves together. There is a reason where there is no curve.
func (s *Session) Curve(d quantity.Dimension) (points []CurvePoint, reason string) {
	told := s.powerTold
	if d == quantity.Torque {
		told = s.torqueTold
	}
	one := told()
	return one.points, one.reason
}

// CurveAsRead is Curve with the figures as the dyno's files have them.
func (s *Session) CurveAsRead(d quantity.Dimension) (points []CurvePoint, reason string) {
	return s.meanCurve(d, 1)
}

// Lambda returns the mean lambda of those of the session's pulls that hold it, over the engine speeds that all of these cover: at most 240 points, none where there is no such curve. No
// correction touches it.
func (s *Session) Lambda() []CurvePoint { return s.lambdaTold() }

// tellLambda works Lambda out.
func (s *Session) tellLambda() (points []CurvePoint) {
	runs := slices.DeleteFunc(curves(s.Pulls.Runs, quantity.Lambda), func(c *calc.SpeedCurve) bool { return c == nil })
	weights := make([]float64, len(runs))
	for i := range runs {
		weights[i] = 1 / float64(len(runs))
	}
	mean, err := calc.WeightedSum(runs, weights)
	if err != nil {
		return nil
	}
	for _, p := range mean.Thinned(mostCurvePoints) {
		points = append(points, CurvePoint{Speed: p.Speed, Value: p.Value})
	}
	return points
}

// tellCurve works Curve out.
func (s *Session) tellCurve(d quantity.Dimension) curveTold {
	factor, ok := s.Factor()
	switch {
	case !ok && s.unknown != "":
		return curveTold{reason: s.unknown}
	case !ok:
		return curveTold{reason: s.air.without(s.Carried, s.To)}
	}
	points, reason := s.meanCurve(d, factor)
	return curveTold{points, reason}
}

// meanCurve returns the mean curve of the pulls, so many times as large.
func (s *Session) meanCurve(d quantity.Dimension, factor float64) (points []CurvePoint, reason string) {
	runs, reason := s.curvesOf(d)
	if reason != "" {
		return nil, reason
	}
	weights := make([]float64, len(runs))
	for i := range runs {
		weights[i] = factor / float64(len(runs))
	}
	mean, err := calc.WeightedSum(runs, weights)
	if err != nil {
		return nil, err.Error()
	}
	for _, p := range mean.Thinned(mostCurvePoints) {
		point := CurvePoint{Speed: p.Speed, Value: p.Value}
		if s.Pulls.IsScatterKnown(d) {
			point.Expanded = factor * s.Pulls.Scatter(figuresAt(runs, p.Speed, d)).Expanded()
		}
		points = append(points, point)
	}
	return points, ""
}

// curvePath names a figure at an engine speed among the figures of its session.
const curvePath = "power.curve"

// curvesOf returns the curve of each run, or the reason why there is none of one.
func (s *Session) curvesOf(d quantity.Dimension) (runs []*calc.SpeedCurve, reason string) {
	runs = s.power()
	if d == quantity.Torque {
		runs = s.torque()
	}
	for i, c := range runs {
		if c == nil {
			return nil, "the rows make no curve: " + s.Pulls.Runs[i].File.Name
		}
	}
	if len(runs) == 0 {
		return nil, "the pulls have no curves"
	}
	return runs, ""
}

// figuresAt returns what each run has at an engine speed that all of them cover.
func figuresAt(runs []*calc.SpeedCurve, speed float64, d quantity.Dimension) model.Figures {
	at := model.Figures{What: curvePath, Dimension: d, Speed: speed, Of: make([]float64, len(runs))}
	for i, c := range runs {
		at.Of[i], _ = c.At(speed)
	}
	return at
}

// GainCurve is what stages gave together in power, at each engine speed that all of the pulls between which they lie cover.
type GainCurve struct {
	Reason string // why it can't be told

	ends  []stageEnd
	plain *calc.SpeedCurve // without what may be off
}

// stageEnd is a session that counts: with +1 after a stage, with −1 before one.
type stageEnd struct {
	of   *Session
	sign float64
}

// GainOver returns the gain of stages over the engine speed: of one, or of several one after the other. A session that ends one stage and begins the next cancels out, and so does its scatter.
func GainOver(stages []*Stage) *GainCurve {
	g := &GainCurve{}
	for _, s := range stages {
		if s.Reason != "" {
			g.Reason = s.Reason
			return g
		}
		if n := len(g.ends); n > 0 && g.ends[n-1].of == s.from {
			g.ends[n-1].of = s.to
			continue
		}
		g.ends = append(g.ends, stageEnd{s.from, -1}, stageEnd{s.to, 1})
	}
	var all []*calc.SpeedCurve
	var weights []float64
	for _, end := range g.ends {
		runs, reason := end.of.curvesOf(quantity.Power)
		factor, ok := end.of.Factor()
		if reason == "" && !ok {
			reason = "its air can't be told"
		}
		if reason != "" {
			g.Reason = map[float64]string{1: "after: ", -1: "before: "}[end.sign] + reason
			return g
		}
		for _, c := range runs {
			all, weights = append(all, c), append(weights, end.sign*factor/float64(len(runs)))
		}
	}
	plain, err := calc.WeightedSum(all, weights)
	if err != nil {
		g.Reason = err.Error()
		return g
	}
	g.plain = plain
	return g
}

// Span returns the first and the last engine speed, in rad/s, of a curve without a reason.
func (g *GainCurve) Span() (from, to float64) { return g.plain.Span() }

// At returns the gain at an engine speed (rad/s), with the interval that the pulls leave it, as a gain over a band has it; false beyond the ends of what all pulls cover.
func (g *GainCurve) At(speed float64) (quantity.Estimate, bool) {
	value, ok := g.plain.At(speed)
	if !ok {
		return quantity.Estimate{Dimension: quantity.Power}, false
	}
	known := true
	terms := make([]quantity.Term, len(g.ends))
	for i, end := range g.ends {
		mean, _ := end.of.reckon(end.of.Pulls.Estimate(figuresAt(end.of.power(), speed, quantity.Power)))
		terms[i] = quantity.Term{Partial: end.sign, Of: mean}
		known = known && end.of.Pulls.IsScatterKnown(quantity.Power)
	}
	gain := calc.Covered(quantity.Combine(value, quantity.Power, terms...))
	if !known {
		gain.Shares = nil // what is known of the rest says nothing of how far off it may be
	}
	return gain, true
}

// Extremes returns where a curve without a reason has its least gain, and its greatest, in rad/s.
func (g *GainCurve) Extremes() (least, most float64) {
	points := g.plain.Thinned(60) // the two among them
	low, high := points[0], points[0]
	for _, p := range points {
		if p.Value < low.Value {
			low = p
		}
		if p.Value > high.Value {
			high = p
		}
	}
	return low.Speed, high.Speed
}

// Points returns at most 240 points of the curve, of very many stages fewer, its greatest gain and its greatest loss among them; none of one that can't be told.
func (g *GainCurve) Points() []CurvePoint {
	if g.Reason != "" {
		return nil
	}
	var points []CurvePoint
	for _, p := range g.plain.Thinned(min(mostCurvePoints, max(60, 12000/len(g.ends)))) {
		gain, _ := g.At(p.Speed)
		points = append(points, CurvePoint{Speed: p.Speed, Value: p.Value, Expanded: gain.Expanded()})
	}
	return points
}

// GainsOver returns the stages whose gain over the engine speed is told of an entry: those that its own pulls end; where there is none, and of no entry, all stages up to then, to be told together.
func (s *Sums) GainsOver(e *model.Entry) (stages []*Stage, together bool) {
	if e == nil {
		return s.Stages, true
	}
	upTo := s.until(e)
	for _, stage := range upTo {
		if stage.To.Entry == e {
			stages = append(stages, stage)
		}
	}
	if len(stages) > 0 {
		return stages, false
	}
	return upTo, true
}
