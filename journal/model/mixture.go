package model

import (
	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// Mixture is what a log saw of the mixture. Times are s, or rows where the log holds no time.
type Mixture struct {
	All     calc.Steady // of lambda, wherever it burnt
	Squares [][]Square  // as those of the target; nil where there is none
	Outside float64     // how long it ran beyond the outermost squares
	Unburnt float64     // how long lambda showed a mixture that can't burn: the throttle shut, the fuel cut, a misfire, or a meter at the end of its scale
	Ratio   float64     // that stood for lambda 1, of a log in air-fuel ratios; else 0
	Guessed bool        // it is that of the fuel: nobody said what the meter counts by

	target *Target
}

// Square is one square of the target as a log saw it.
type Square struct {
	Target  float64
	Seen    calc.Steady // of lambda
	Leanest Peak        // of a single row
	Richest Peak
	State   SquareState
}

// Off returns how far the square's mean stands above its target.
func (s *Square) Off() float64 { return s.Seen.Mean() - s.Target }

// IsLoad reports whether the engine works hard there: the builder wants it richer than burns all. There a lean mixture does harm.
func (s *Square) IsLoad() bool { return quantity.Compare(s.Target, 1, lambdaSize) < 0 }

// SquareState says what a log found in a square.
type SquareState uint8

// The states of a square.
const (
	Unvisited SquareState = iota // never there
	Glimpsed                     // not for long enough to be judged
	OnTarget                     // its mean is within the tolerance
	Lean
	Rich
)

// String returns the word that is shown.
func (s SquareState) String() string {
	return [...]string{"not visited", "too short", "on target", "lean", "rich"}[s]
}

// Mixtures that burn: outside them lambda tells of no combustion. From memory.
var burning = quantity.Span{Low: 0.5, High: 1.6}

// leastRows is how many rows a square must be seen for where a log holds no time: common practice, no source.
const leastRows = 5

func newMixture(t *Target) *Mixture {
	m := &Mixture{target: t}
	if t == nil {
		return m
	}
	for _, lambdas := range t.Lambda {
		var squares []Square
		for _, lambda := range lambdas {
			squares = append(squares, Square{Target: lambda})
		}
		m.Squares = append(m.Squares, squares)
	}
	return m
}

// sample is one row of a log.
type sample struct {
	speed, throttle, lambda float64 // rad/s, share, 1
	weight                  float64
	cell                    source.Range
}

// add takes in a row. While the engine stands still it tells nothing.
func (m *Mixture) add(s sample) {
	if !(s.speed > 0) || !(s.weight > 0) {
		return
	}
	if !burning.Holds(s.lambda) {
		m.Unburnt += s.weight
		return
	}
	m.All.Add(s.lambda, s.weight)
	if m.target == nil {
		return
	}
	row, high := calc.Square(m.target.Throttle, s.throttle)
	column, wide := calc.Square(m.target.Speed, s.speed)
	if !high || !wide {
		m.Outside += s.weight
		return
	}
	square := &m.Squares[row][column]
	first := square.Seen.Seen == 0
	square.Seen.Add(s.lambda, s.weight)
	if first || s.lambda > square.Leanest.SI {
		square.Leanest = Peak{SI: s.lambda, Cell: s.cell}
	}
	if first || s.lambda < square.Richest.SI {
		square.Richest = Peak{SI: s.lambda, Cell: s.cell}
	}
}

// judge says of each square what the log found in it.
func (m *Mixture) judge(timed bool) {
	least := float64(leastRows)
	if timed {
		least = m.target.SeenFor
	}
	m.Each(func(_, _ int, s *Square) {
		switch {
		case s.Seen.Seen == 0:
			s.State = Unvisited
		case quantity.Compare(s.Seen.Seen, least, 0) < 0:
			s.State = Glimpsed
		case quantity.Compare(s.Off(), m.target.Tolerance, lambdaSize) > 0:
			s.State = Lean
		case quantity.Compare(s.Off(), -m.target.Tolerance, lambdaSize) < 0:
			s.State = Rich
		default:
			s.State = OnTarget
		}
	})
}

// lambdaSize is the scale on which lambdas are compared.
const lambdaSize = 1

// IsJudged reports whether a log was in a square for long enough to tell.
func (s *Square) IsJudged() bool { return s.State > Glimpsed }

// mixtureValues makes the values of what a log says of the mixture: of those that it can't tell none.
func (r *logReader) mixtureValues(m *Mixture) {
	if m.All.Seen == 0 {
		return
	}
	file := r.log.Files[0].Whole()
	value := func(path string, si float64, unit string, step float64, at source.Range) {
		q := quantity.Quantity{Kind: quantity.Figure, Unit: parse.UnitSpelled(unit), Step: step}
		q.Value = q.Unit.FromSI(si)
		v := r.logged(path, q, at)
		v.judgeIn(r.governing(path))
		r.happens(v)
	}
	value("fuelling.lambda", m.All.Mean(), "λ", 0.001, file)
	if m.target == nil {
		return
	}
	m.judge(r.log.Timed)
	var leanest, richest *Square
	judged, all := 0, 0
	m.Each(func(_, _ int, s *Square) {
		if all++; !s.IsJudged() {
			return
		}
		judged++
		if leanest == nil || s.Off() > leanest.Off() {
			leanest = s
		}
		if richest == nil || s.Off() < richest.Off() {
			richest = s
		}
	})
	if judged == 0 {
		return
	}
	value("fuelling.leanest", leanest.Off(), "λ", 0.001, leanest.Leanest.Cell)
	value("fuelling.richest", richest.Off(), "λ", 0.001, richest.Richest.Cell)
	value("fuelling.seen", float64(judged)/float64(all), "%", 1, file)
}

// Each calls for each square, by throttle and then by engine speed.
func (m *Mixture) Each(call func(row, column int, s *Square)) {
	for i := range m.Squares {
		for j := range m.Squares[i] {
			call(i, j, &m.Squares[i][j])
		}
	}
}
