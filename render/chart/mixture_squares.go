package chart

import (
	"math"
	"strconv"
	"strings"

	"example.org/locknut/journal/model"
)

// MixtureData is what a log found in the squares of its target.
type MixtureData struct {
	Throttle []string          // heads of the rows, from the least: "30%"
	Speed    []string          // heads of the columns, from the least: "4000"
	Unit     string            // of the columns: "rpm"
	Squares  [][]MixtureSquare // by row, then column; one without a head on both sides is left out
}

// MixtureSquare is what a log found in one square.
type MixtureSquare struct {
	Mean, Target float64 // lambda
	Tolerance    float64
	Seen         string // how long: "2.8 s", "12 rows"
	State        model.SquareState
	Load         bool // the engine works hard there: lean does harm
}

// squares are the squares while they are drawn.
type squares struct {
	pen
	MixtureData
	size        Size
	width       float64
	left        float64 // of the first column: the heads of the rows stand before it
	side, tall  float64 // of a square
	columns     int     // in a block
	isRoomy     bool    // a square says what was wanted of it, too
	isStaggered bool    // heads of columns stand on two lines by turns
	finest      float64 // digit of the means
}

const (
	widestSquare    = 120
	narrowestSquare = 36  // in which a mean of two decimals can be read
	tallSquare      = 62  // with three lines
	shallowSquare   = 40  // with two
	mostTold        = 100 // squares of which the description tells the figures, too
)

// MixtureSquares appends the squares of a target with the mean that a log found in each, full throttle on top. Where all columns have no room side by side they go on in further blocks.
// Where no square was seen there is nothing to draw.
func MixtureSquares(dst []byte, data MixtureData, size Size) []byte {
	s := squares{pen: pen{dst}, MixtureData: data, size: size, width: 640}
	if size != Wide {
		s.size, s.width = Narrow, 320
	}
	if s.count(MixtureSquare.isSeen) == 0 {
		return dst
	}
	s.measure()
	title := s.title()
	lines := wrap(title, s.width/1.12, 4)
	top := 8 + float64(len(lines))*rowTall
	blocks := (len(s.Speed) + s.columns - 1) / s.columns
	s.open("c-squares", s.size, s.width, top+float64(blocks)*s.blockTall(), title, s.describes())
	for i, line := range lines {
		s.label("c-title", start, 0, 13+float64(i)*rowTall, line)
	}
	for i := range blocks {
		from := i * s.columns
		s.block(from, min(from+s.columns, len(s.Speed)), top+float64(i)*s.blockTall())
	}
	s.shut()
	return s.out
}

// at returns a square, if there is one that can be told.
func (s *squares) at(row, column int) (MixtureSquare, bool) {
	if row >= len(s.Squares) || column >= len(s.Squares[row]) {
		return MixtureSquare{}, false
	}
	one := s.Squares[row][column]
	return one, one.State == model.Unvisited || one.State <= model.Rich && isDrawn(one.Mean)
}

// What squares are counted, drawn and told by.
func (m MixtureSquare) isMissed() bool   { return m.State == model.Unvisited }
func (m MixtureSquare) isSeen() bool     { return m.State != model.Unvisited }
func (m MixtureSquare) isGlimpsed() bool { return m.State == model.Glimpsed }
func (m MixtureSquare) isJudged() bool   { return m.State > model.Glimpsed }
func (m MixtureSquare) isOnTarget() bool { return m.State == model.OnTarget }
func (m MixtureSquare) isRich() bool     { return m.State == model.Rich }
func (m MixtureSquare) isLean() bool     { return m.State == model.Lean }
func (m MixtureSquare) isHarmful() bool  { return m.isLean() && m.Load }
func (m MixtureSquare) isHarmless() bool { return m.isLean() && !m.Load }

// place is where a square is.
type place struct{ row, column int }

// all returns where squares of a kind are, from full throttle down.
func (s *squares) all(is func(MixtureSquare) bool) []place {
	var list []place
	for row := len(s.Throttle) - 1; row >= 0; row-- {
		for column := range s.Speed {
			if one, ok := s.at(row, column); ok && is(one) {
				list = append(list, place{row, column})
			}
		}
	}
	return list
}

func (s *squares) count(is func(MixtureSquare) bool) int { return len(s.all(is)) }

// measure finds how much room a square has, and what it can say.
func (s *squares) measure() {
	widest := func(heads []string, most float64) (width float64) {
		for _, head := range heads {
			width = max(width, min(widthOf(head), most))
		}
		return width
	}
	s.left = math.Ceil(max(widest(s.Throttle, s.width/6), min(widthOf(s.Unit), s.width/6)) + 9)
	room := s.width - s.left - 1
	most := max(1, int(room/narrowestSquare))
	blocks := (len(s.Speed) + most - 1) / most
	s.columns = (len(s.Speed) + blocks - 1) / blocks
	s.side = min(2*math.Floor(room/2/float64(s.columns)), widestSquare) // even, so that its middle is a whole number: hundreds of them are written
	s.isStaggered = widest(s.Speed, s.width)+6 > s.side
	wanted := boldWidth("0.000")
	for _, at := range s.all(MixtureSquare.isSeen) {
		one, _ := s.at(at.row, at.column)
		wanted = max(wanted, min(widthOf(wantedText(one)), widestSquare/2))
	}
	s.isRoomy, s.tall, s.finest = wanted+8 <= s.side, shallowSquare, 0.001
	if s.isRoomy {
		s.tall = tallSquare
	} else if boldWidth("0.000")+4 > s.side {
		s.finest = 0.01
	}
}

func wantedText(one MixtureSquare) string {
	if !isDrawn(one.Target) {
		return ""
	}
	return "of " + model.ShowLambda(one.Target)
}

// blockTall is how tall a block is, with its heads and what parts it from the next.
func (s *squares) blockTall() float64 {
	tall := rowTall + float64(len(s.Throttle))*s.tall + 34
	if s.isStaggered {
		tall += rowTall
	}
	return tall
}

// where names a square: "100% and 8000 rpm".
func (s *squares) where(at place) string {
	return s.Throttle[at.row] + " and " + s.speed(at.column)
}

func (s *squares) speed(column int) string {
	return strings.TrimSpace(s.Speed[column] + " " + s.Unit)
}

// title says the worst first.
func (s *squares) title() string {
	for _, kind := range []struct {
		is   func(MixtureSquare) bool
		name string
	}{{MixtureSquare.isHarmful, "lean under load"}, {MixtureSquare.isHarmless, "lean"}, {MixtureSquare.isRich, "rich"}} {
		list := s.all(kind.is)
		if len(list) == 0 {
			continue
		}
		off := func(at place) float64 {
			one, _ := s.at(at.row, at.column)
			if off := math.Abs(one.Mean - one.Target); isDrawn(off) {
				return off
			}
			return 0
		}
		worst := list[0]
		for _, at := range list {
			if off(at) > off(worst) {
				worst = at
			}
		}
		one, _ := s.at(worst.row, worst.column)
		title := kind.name + " at " + s.where(worst) + ": " + model.ShowMean(one.Mean)
		if isDrawn(one.Target) {
			title += " where " + model.ShowLambda(one.Target) + " is wanted"
		}
		return title + s.others()
	}
	return s.well()
}

// others counts the squares that are lean and rich, if the worst is not the only one.
func (s *squares) others() string {
	leans, riches := s.count(MixtureSquare.isLean), s.count(MixtureSquare.isRich)
	switch {
	case leans+riches < 2:
		return ""
	case riches == 0:
		return "; lean in " + squaresText(leans)
	case leans == 0:
		return "; rich in " + squaresText(riches)
	}
	return "; lean in " + squaresText(leans) + ", rich in " + strconv.Itoa(riches)
}

func squaresText(n int) string {
	if n == 1 {
		return "1 square"
	}
	return strconv.Itoa(n) + " squares"
}

// well is the title where no square is off its target.
func (s *squares) well() string {
	good, short, not := s.count(MixtureSquare.isJudged), s.count(MixtureSquare.isGlimpsed), s.count(MixtureSquare.isMissed)
	var rest []string
	if short > 0 {
		rest = append(rest, strconv.Itoa(short)+" seen too shortly")
	}
	if not > 0 {
		rest = append(rest, strconv.Itoa(not)+" not visited")
	}
	title := "on target in all " + squaresText(good)
	switch {
	case good == 0:
		title = "no square seen for long enough"
	case good == 1 && len(rest) > 0:
		title = "on target in the 1 square that was seen"
	case good == 1:
		title = "on target in its 1 square"
	case len(rest) > 0:
		title += " that were seen"
	}
	if short > 0 && good > 0 {
		title += " for long enough"
	}
	if len(rest) > 0 {
		title += "; " + strings.Join(rest, ", ")
	}
	return title
}

// states are what is told of squares, the worst first.
var states = []struct {
	name string
	is   func(MixtureSquare) bool
}{{"lean under load", MixtureSquare.isHarmful}, {"lean", MixtureSquare.isHarmless}, {"rich", MixtureSquare.isRich}, {"on target", MixtureSquare.isOnTarget}, {"too short", MixtureSquare.isGlimpsed}, {"not visited", MixtureSquare.isMissed}}

// describes tells every square, row by row from full throttle down; of a large map without its figures, which nobody would listen to the end of.
func (s *squares) describes() string {
	var parts []string
	tolerance, isTold := math.NaN(), s.count(MixtureSquare.isSeen) <= mostTold
	if list := s.all(MixtureSquare.isJudged); len(list) > 0 {
		one, _ := s.at(list[0].row, list[0].column)
		if tolerance = one.Tolerance; isDrawn(tolerance) {
			parts = append(parts, "on target is within "+model.ShowLambda(tolerance)+" of what is wanted")
		}
	}
	for row := len(s.Throttle) - 1; row >= 0; row-- {
		var told []string
		for _, state := range states {
			if text := s.telling(row, state.is, tolerance, isTold); text != "" {
				told = append(told, state.name+" at "+text)
			}
		}
		if len(told) > 0 {
			parts = append(parts, s.Throttle[row]+": "+strings.Join(told, "; "))
		}
	}
	if !isTold {
		parts = append(parts, "The figures are in the table")
	}
	return strings.Join(parts, ". ")
}

// telling names the squares of a kind in a row, with or without what was found in each.
func (s *squares) telling(row int, is func(MixtureSquare) bool, tolerance float64, isTold bool) string {
	var list []string
	for column, head := range s.Speed {
		one, ok := s.at(row, column)
		switch {
		case !ok || !is(one):
		case isTold:
			list = append(list, s.speed(column)+tells(one, tolerance))
		default:
			list = append(list, head)
		}
	}
	text := strings.Join(list, ", ")
	if text != "" && !isTold && s.Unit != "" {
		text += " " + s.Unit
	}
	return text
}

// tells is what was found in a square, with its tolerance if that is not the one that was told of all.
func tells(one MixtureSquare, tolerance float64) string {
	if one.isMissed() {
		return ""
	}
	text := " (" + model.ShowMean(one.Mean)
	if isDrawn(one.Target) {
		text += " " + wantedText(one)
	}
	if one.isJudged() && one.Tolerance != tolerance && isDrawn(one.Tolerance) {
		text += " ± " + model.ShowLambda(one.Tolerance)
	}
	if one.Seen != "" {
		text += ", " + one.Seen
	}
	return text + ")"
}
