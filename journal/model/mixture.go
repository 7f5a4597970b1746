package model

import (
	"math"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// Mixture is what a log saw of the mixture. Times are s, or rows where the log holds no time or is one of pulls.
type Mixture struct {
	All     calc.Steady // of lambda, wherever it burnt
	Ran     float64     // how long the engine turned
	Outside float64     // how long it ran beyond the outermost squares, or where nothing is wanted
	Unburnt float64     // how long lambda showed a mixture that can't burn: the throttle shut, the fuel cut, a misfire, or a meter at the end of its scale
	Ratio   float64     // that stood for lambda 1, of a log in air-fuel ratios; else 0
	Guessed bool        // it is that of the fuel: nobody said what the meter counts by
	Leanest Extreme     // of the rows that burnt
	Richest Extreme
	Mean    *Value // of All; nil where nothing burnt

	TellsNothing bool // and a finding says why

	target  *Target     // nil where there is none
	squares [][]*Square // as those of the target; nil for one that it was never in, as most are
}

// Square is one square of the target as a log saw it.
type Square struct {
	Target  float64
	Seen    calc.Steady // of lambda
	Leanest Extreme     // of a single row
	Richest Extreme
	State   SquareState
}

// Extreme is the lambda of a single row, and the cell that holds it.
type Extreme struct {
	Lambda float64
	Cell   source.Range
}

func (e Extreme) leaner(s sample) Extreme {
	if s.lambda > e.Lambda {
		return Extreme{s.lambda, s.cell}
	}
	return e
}

func (e Extreme) richer(s sample) Extreme {
	if s.lambda < e.Lambda {
		return Extreme{s.lambda, s.cell}
	}
	return e
}

// Off returns how far the square's mean stands above its target.
func (s Square) Off() float64 { return s.Seen.Mean() - s.Target }

// IsLoad reports whether the engine works hard there: the builder wants it richer than burns all. There a lean mixture does harm.
func (s Square) IsLoad() bool { return quantity.Compare(s.Target, 1, lambdaSize) < 0 }

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

// LeastRows is how many rows a square must be seen for where a log holds no time, and in pulls: common practice, no source.
const LeastRows = 5

func newMixture(t *Target) *Mixture {
	m := &Mixture{target: t}
	if t != nil {
		m.squares = make([][]*Square, len(t.Throttle))
		for row := range m.squares {
			m.squares[row] = make([]*Square, len(t.Speed))
		}
	}
	return m
}

// At returns what the log found in a square of the target.
func (m *Mixture) At(row, column int) Square {
	if s := m.squares[row][column]; s != nil {
		return *s
	}
	return Square{Target: m.target.Lambda[row][column]}
}

// sample is one row of a log.
type sample struct {
	speed, throttle, lambda float64 // rad/s, share, 1
	cell                    source.Range
}

// add takes in a row that counts for so long. While the engine stands still it tells nothing.
func (m *Mixture) add(s sample, counts float64) {
	if !(s.speed > 0) || !(counts > 0) {
		return
	}
	m.Ran += counts
	if !burning.Holds(s.lambda) {
		m.Unburnt += counts
		return
	}
	if m.All.Seen == 0 {
		m.Leanest, m.Richest = Extreme{s.lambda, s.cell}, Extreme{s.lambda, s.cell}
	}
	m.Leanest, m.Richest = m.Leanest.leaner(s), m.Richest.richer(s)
	m.All.Add(s.lambda, counts)
	if m.target == nil {
		return
	}
	row, high := calc.NearestBreakpoint(m.target.Throttle, s.throttle)
	column, wide := calc.NearestBreakpoint(m.target.Speed, s.speed)
	if !high || !wide || math.IsNaN(m.target.Lambda[row][column]) {
		m.Outside += counts
		return
	}
	square := m.squares[row][column]
	if square == nil {
		square = &Square{Target: m.target.Lambda[row][column], Leanest: Extreme{s.lambda, s.cell}, Richest: Extreme{s.lambda, s.cell}}
		m.squares[row][column] = square
	}
	square.Seen.Add(s.lambda, counts)
	square.Leanest, square.Richest = square.Leanest.leaner(s), square.Richest.richer(s)
}

// judge says of each square that was seen for at least so long what the log found in it.
func (m *Mixture) judge(least float64) {
	for _, row := range m.squares {
		for _, s := range row {
			switch {
			case s == nil:
			case quantity.Compare(s.Seen.Seen, least, 0) < 0:
				s.State = Glimpsed
			case quantity.Compare(s.Off(), m.target.Tolerance, lambdaSize) > 0:
				s.State = Lean
			case quantity.Compare(s.Off(), -m.target.Tolerance, lambdaSize) < 0:
				s.State = Rich
			default:
				s.State = OnTarget
			}
		}
	}
}

// lambdaSize is the scale on which lambdas are compared.
const lambdaSize = 1

// IsJudged reports whether a log was in a square for long enough to tell.
func (s Square) IsJudged() bool { return s.State > Glimpsed }

// mixtureValues makes the values of what a log says of the mixture: of those that it can't tell none.
func (r *logReader) mixtureValues(m *Mixture) {
	if m.All.Seen == 0 {
		return
	}
	file := r.log.Files[0].Whole()
	value := func(path string, si, read float64, unit string, step float64, at source.Range) *Value {
		q := quantity.Quantity{Kind: quantity.Figure, Unit: parse.UnitSpelled(unit), Step: step}
		q.Value = q.Unit.FromSI(si)
		v := r.logged(path, q, at, read)
		v.judgeIn(r.governing(path))
		r.beside(v)
		r.happens(v)
		return v
	}
	m.Mean = value(r.log.MixturePaths()[0], m.All.Mean(), m.All.Mean(), "λ", 0.001, file)
	if m.target == nil {
		return
	}
	least := m.target.SeenFor
	if !r.log.Timed || r.log.Pulls != nil {
		least = LeastRows
	}
	m.judge(least)
	if r.log.Pulls != nil {
		return // full throttle is not the whole target: what a ride found there stands
	}
	var leanest, richest Square
	judged, all := 0, 0
	m.Each(func(_, _ int, s Square) {
		if !math.IsNaN(s.Target) {
			all++
		}
		if !s.IsJudged() {
			return
		}
		if judged++; judged == 1 {
			leanest, richest = s, s
		}
		if s.Off() > leanest.Off() {
			leanest = s
		}
		if s.Off() < richest.Off() {
			richest = s
		}
	})
	if judged == 0 {
		return
	}
	value("fuelling.leanest", leanest.Off(), leanest.Seen.Mean(), "λ", 0.001, leanest.Leanest.Cell)
	value("fuelling.richest", richest.Off(), richest.Seen.Mean(), "λ", 0.001, richest.Richest.Cell)
	value("fuelling.seen", float64(judged)/float64(all), 0, "%", 1, file)
}

// Each calls for each square of the target, by throttle and then by engine speed; for none where there is no target.
func (m *Mixture) Each(call func(row, column int, s Square)) {
	for row := range m.squares {
		for column := range m.squares[row] {
			call(row, column, m.At(row, column))
		}
	}
}
