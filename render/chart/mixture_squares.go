package chart

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
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
	Mean, Target float64 // lambda; a target of NaN wants nothing: such a square is empty
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
	isDense     bool    // more than have room for a word each
	isBare      bool    // more than have room for a figure each
	isRoomy     bool    // a square says what was wanted of it, too
	isStaggered bool    // heads of columns stand on two lines by turns
	finest      float64 // digit of the means
}

const (
	widestSquare    = 120
	narrowestSquare = 36  // in which a mean of two decimals can be read, bold as well
	narrowestDense  = 34  // in which one that is not bold can
	tallSquare      = 62  // with three lines
	shallowSquare   = 40  // with two
	narrowestBare   = 26  // over two of which a head can be read
	bareSquare      = 22  // tall, with a sign
	mostWorded      = 100 // squares that have a word each; a page holds both sizes, and they shall stay below 30 kB together
	mostFigured     = 256 // squares that have a figure each
	mostDrawn       = 576 // and of more the table tells
	mostTold        = 50  // squares that the description tells one by one
	worstTold       = 5   // of more squares
)

// MixtureSquares appends the squares of a target with the mean that a log found in each, full throttle on top. Where all columns have no room side by side they go on in further blocks.
// A map of more than a hundred squares has signs in the place of words, with a key to them, and one of more than 256 has the signs alone. Where no square was seen there is nothing to draw,
// nor of more than 576.
func MixtureSquares(dst []byte, data MixtureData, size Size) []byte {
	s := squares{pen: pen{dst}, MixtureData: data, size: size, width: 640}
	if size != Wide {
		s.size, s.width = Narrow, 320
	}
	if s.count(MixtureSquare.isSeen) == 0 || s.count(MixtureSquare.isAny) > mostDrawn {
		return dst
	}
	s.measure()
	title := s.title()
	lines, key := wrap(title, s.width/1.12, 4), s.key()
	top := 8 + float64(len(lines)+len(key))*rowTall
	blocks := (len(s.Speed) + s.columns - 1) / s.columns
	s.open("c-squares", s.size, s.width, top+float64(blocks)*s.blockTall(), title, s.describes())
	for i, line := range lines {
		s.label("c-title", start, 0, 13+float64(i)*rowTall, line)
	}
	for i, line := range key {
		s.label("c-name", start, 0, 13+float64(len(lines)+i)*rowTall, line)
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
func (m MixtureSquare) isAny() bool      { return true }
func (m MixtureSquare) isMissed() bool   { return m.State == model.Unvisited && isDrawn(m.Target) }
func (m MixtureSquare) isSeen() bool     { return m.State != model.Unvisited }
func (m MixtureSquare) isGlimpsed() bool { return m.State == model.Glimpsed }
func (m MixtureSquare) isJudged() bool   { return m.State > model.Glimpsed }
func (m MixtureSquare) isOnTarget() bool { return m.State == model.OnTarget }
func (m MixtureSquare) isRich() bool     { return m.State == model.Rich }
func (m MixtureSquare) isLean() bool     { return m.State == model.Lean }
func (m MixtureSquare) isHarmful() bool  { return m.isLean() && m.Load }
func (m MixtureSquare) isHarmless() bool { return m.isLean() && !m.Load }
func (m MixtureSquare) isWarned() bool   { return m.isHarmless() || m.isRich() }

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
	narrowest := float64(narrowestSquare)
	if s.isDense = s.count(MixtureSquare.isAny) > mostWorded; s.isDense {
		narrowest = narrowestDense
	}
	if s.isBare = s.count(MixtureSquare.isAny) > mostFigured; s.isBare {
		narrowest = narrowestBare
	}
	most := max(1, int(room/narrowest))
	blocks := (len(s.Speed) + most - 1) / most
	s.columns = (len(s.Speed) + blocks - 1) / blocks
	s.side = min(2*math.Floor(room/2/float64(s.columns)), widestSquare) // even, so that its middle is a whole number: hundreds of them are written
	s.isStaggered = widest(s.Speed, s.width)+6 > s.side
	wanted := boldWidth("0.000")
	for _, at := range s.all(MixtureSquare.isSeen) {
		one, _ := s.at(at.row, at.column)
		wanted = max(wanted, min(widthOf(wantedText(one)), widestSquare/2))
	}
	s.isRoomy, s.tall, s.finest = wanted+8 <= s.side && !s.isDense, shallowSquare, 0.001
	if s.isRoomy {
		s.tall = tallSquare
	} else if s.isBare {
		s.tall = bareSquare
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

// off is how far the mean of a square is off its target; 0 if nobody can tell.
func (s *squares) off(at place) float64 {
	one, _ := s.at(at.row, at.column)
	if off := math.Abs(one.Mean - one.Target); isDrawn(off) {
		return off
	}
	return 0
}

// worst returns where squares of a kind are, the one that is furthest off first.
func (s *squares) worst(is func(MixtureSquare) bool) []place {
	list := s.all(is)
	slices.SortStableFunc(list, func(a, b place) int { return cmp.Compare(s.off(b), s.off(a)) })
	return list
}

// title says the worst first.
func (s *squares) title() string {
	for _, state := range states[:offStates] {
		list := s.worst(state.is)
		if len(list) == 0 {
			continue
		}
		one, _ := s.at(list[0].row, list[0].column)
		title := state.name + " at " + s.where(list[0]) + ": " + model.ShowMean(one.Mean)
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
		return "; lean in " + quantity.Counted(leans, "square")
	case leans == 0:
		return "; rich in " + quantity.Counted(riches, "square")
	}
	return "; lean in " + quantity.Counted(leans, "square") + ", rich in " + strconv.Itoa(riches)
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
	title := "on target in all " + quantity.Counted(good, "square")
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

// state is what is told of squares, and what shows it in a large map.
type state struct {
	name string
	is   func(MixtureSquare) bool
	sign string
}

// harmSign shows lean under load where squares are too many for an edge each: the mark of what is out.
const harmSign = "✕"

// sign is what shows a state in this map.
func (s *squares) sign(of state) string {
	if s.isBare && of.sign == states[0].sign {
		return harmSign
	}
	return of.sign
}

// states are those that there are, the worst first.
var states = []state{
	{"lean under load", MixtureSquare.isHarmful, "heavy edge"},
	{"lean", MixtureSquare.isHarmless, "L"},
	{"rich", MixtureSquare.isRich, "R"},
	{"on target", MixtureSquare.isOnTarget, ""},
	{"too short", MixtureSquare.isGlimpsed, "S"},
	{"not visited", MixtureSquare.isMissed, "–"},
}

// offStates is how many of them are off target.
const offStates = 3

// key says what the signs of a large map mean, in lines; only of those that are in it.
func (s *squares) key() []string {
	if !s.isDense {
		return nil
	}
	var parts []string
	for _, state := range states {
		if sign := s.sign(state); sign != "" && s.count(state.is) > 0 {
			parts = append(parts, strings.ReplaceAll(sign+": "+state.name, " ", "\u00a0")) // no line ends within
		}
	}
	if s.isBare {
		parts = append(parts, "the figures are in the table")
	}
	if len(parts) == 0 {
		return nil
	}
	return wrap(strings.Join(parts, ", "), s.width, 3)
}

// describes tells every square, row by row from full throttle down. Of a large map, which nobody would listen to the end of, it counts them and tells the worst.
func (s *squares) describes() string {
	var parts []string
	tolerance := math.NaN()
	if list := s.all(MixtureSquare.isJudged); len(list) > 0 {
		one, _ := s.at(list[0].row, list[0].column)
		if tolerance = one.Tolerance; isDrawn(tolerance) {
			parts = append(parts, "on target is within "+model.ShowLambda(tolerance)+" of what is wanted")
		}
	}
	if s.count(MixtureSquare.isAny) > mostTold {
		parts = append(parts, s.counts())
		if worst := s.tellsWorst(tolerance); worst != "" {
			parts = append(parts, "The worst: "+worst)
		}
		return strings.Join(append(parts, "The rest is in the table"), ". ")
	}
	for row := len(s.Throttle) - 1; row >= 0; row-- {
		var told []string
		for _, state := range states {
			if text := s.telling(row, state.is, tolerance); text != "" {
				told = append(told, state.name+" at "+text)
			}
		}
		if len(told) > 0 {
			parts = append(parts, s.Throttle[row]+": "+strings.Join(told, "; "))
		}
	}
	return strings.Join(parts, ". ")
}

// telling names the squares of a kind in a row, with what was found in each.
func (s *squares) telling(row int, is func(MixtureSquare) bool, tolerance float64) string {
	var list []string
	for column := range s.Speed {
		if one, ok := s.at(row, column); ok && is(one) {
			list = append(list, s.speed(column)+tells(one, tolerance))
		}
	}
	return strings.Join(list, ", ")
}

// counts says how many squares are of each state.
func (s *squares) counts() string {
	var list []string
	for _, state := range states {
		if n := s.count(state.is); n > 0 {
			list = append(list, strconv.Itoa(n)+" "+state.name)
		}
	}
	return strings.Join(list, ", ")
}

// tellsWorst tells the squares that are furthest off, lean under load first.
func (s *squares) tellsWorst(tolerance float64) string {
	var told []string
	left := worstTold
	for _, state := range states[:offStates] {
		var list []string
		for _, at := range s.worst(state.is) {
			if left == 0 {
				break
			}
			one, _ := s.at(at.row, at.column)
			list = append(list, s.where(at)+tells(one, tolerance))
			left--
		}
		if len(list) > 0 {
			told = append(told, state.name+" at "+strings.Join(list, ", "))
		}
	}
	return strings.Join(told, "; ")
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
