package chart

import (
	"cmp"
	"math"
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// block draws some of the columns: their squares from a place down, with the heads of the rows before them and their own below.
func (s *squares) block(from, to int, top float64) {
	s.label("c-unit", start, 0, top+12, "throttle")
	top += rowTall
	bottom := top + float64(len(s.Throttle))*s.tall
	s.grid(to-from, top, bottom)
	s.marks(from, to, top)
	var heads []word
	for row := range s.Throttle {
		heads = append(heads, word{s.left - 6, s.mean(s.y(row, top)), cut(s.Throttle[row], s.left-9)})
	}
	s.words("c-figure", end, heads)
	s.label("c-unit", end, s.left-6, bottom+17, cut(s.Unit, s.left-9))
	s.heads(from, to, bottom)
	for _, look := range s.looks() {
		var words []word
		for _, at := range s.all(look.is) {
			if at.column >= from && at.column < to {
				one, _ := s.at(at.row, at.column)
				words = s.says(words, one, s.x(at.column, from)+s.side/2, s.mean(s.y(at.row, top)))
			}
		}
		s.words(look.class, middle, words)
	}
	s.wanted(from, to, top)
	s.signs(from, to, top)
}

// mean is the base line of the means of a row that begins at a height.
func (s *squares) mean(y float64) float64 {
	switch {
	case s.isRoomy:
		return y + 33
	case s.isBare:
		return y + 16
	}
	return y + 30
}

// y is the top of a row in a block: full throttle stands on top.
func (s *squares) y(row int, top float64) float64 {
	return top + float64(len(s.Throttle)-1-row)*s.tall
}

// x is the left end of a column in a block that begins with another.
func (s *squares) x(column, from int) float64 { return s.left + float64(column-from)*s.side }

func (s *squares) grid(columns int, top, bottom float64) {
	right := s.left + float64(columns)*s.side
	s.begin("c-grid")
	for row := range len(s.Throttle) + 1 {
		s.step("M", s.left, top+float64(row)*s.tall)
		s.step("H", right)
	}
	for column := range columns + 1 {
		s.step("M", s.left+float64(column)*s.side, top)
		s.step("V", bottom)
	}
	s.end()
}

// marks draws what a square is, so that it is told without colour: lean under load a heavy edge, lean elsewhere a light one, rich a comb at its foot. All of a kind are one path.
// In a large map only the heavy edges are drawn, around neighbours together.
func (s *squares) marks(from, to int, top float64) {
	edge := func(side, tall float64) func(group) {
		return func(list group) {
			x, y := s.x(list.column, from), s.y(list.row, top)
			s.step("M", x+side, y+tall)
			s.step("H", x+float64(list.length)*s.side-side)
			s.step("V", y+s.tall-tall)
			s.step("H", x+side)
			s.put("Z")
		}
	}
	comb := func(list group) {
		x, y := s.x(list.column, from), s.y(list.row, top)
		s.step("M", x+3, y+s.tall-4)
		s.step("H", x+s.side-2)
	}
	if s.isBare {
		return
	}
	if s.isDense { // at its sides a square has no more room than its figure needs
		s.mark("c-lean-harm", s.neighbours(MixtureSquare.isHarmful, from, to), edge(1, 3))
		return
	}
	s.mark("c-lean-harm", s.neighbours(MixtureSquare.isHarmful, from, to), edge(2, 2))
	s.mark("c-lean", s.neighbours(MixtureSquare.isHarmless, from, to), edge(3, 3))
	s.mark("c-rich", s.neighbours(MixtureSquare.isRich, from, to), comb)
}

// group is some squares beside each other.
type group struct {
	place
	length int
}

// neighbours returns where squares of a kind are in a block: each for itself, in a large map with its neighbours.
func (s *squares) neighbours(is func(MixtureSquare) bool, from, to int) []group {
	var list []group
	for _, at := range s.all(is) {
		last := len(list) - 1
		switch {
		case at.column < from || at.column >= to:
		case s.isDense && last >= 0 && list[last].row == at.row && list[last].column+list[last].length == at.column:
			list[last].length++
		default:
			list = append(list, group{at, 1})
		}
	}
	return list
}

// mark draws groups of a kind.
func (s *squares) mark(class markup, list []group, draw func(group)) {
	if len(list) == 0 {
		return
	}
	s.begin(class)
	for _, one := range list {
		draw(one)
	}
	s.end()
}

// look is how the words of a kind of square are written.
type look struct {
	class markup
	is    func(MixtureSquare) bool
}

// looks are how the figure and the word of a square are written. The figures of a large map have one look: with one for each kind of square a row would be several elements.
func (s *squares) looks() []look {
	if s.isBare {
		return []look{{"c-name", MixtureSquare.isMissed}}
	}
	if s.isDense {
		return []look{{"c-figure", MixtureSquare.isSeen}, {"c-name", MixtureSquare.isMissed}}
	}
	return []look{{"c-figure", MixtureSquare.isOnTarget}, {"c-name", func(one MixtureSquare) bool { return !one.isJudged() }}, {"c-value c-say-worn", MixtureSquare.isWarned}, {"c-value c-say-out", MixtureSquare.isHarmful}}
}

// says adds what a square is, and its mean, about a place.
func (s *squares) says(words []word, one MixtureSquare, x, y float64) []word {
	if one.isMissed() {
		return append(words, word{x, y, "–"})
	}
	room := s.side - 4
	if !s.isDense {
		room /= 1.12
	}
	words = append(words, word{x, y, cut(quantity.Show(one.Mean, quantity.One(), s.finest).Number, room)})
	if text := s.state(one); text != "" && !s.isDense {
		words = append(words, word{x, y - 16, text})
	}
	return words
}

// wanted writes what was wanted of the squares that were seen, where there is room.
func (s *squares) wanted(from, to int, top float64) {
	if !s.isRoomy {
		return
	}
	var words []word
	for _, at := range s.all(MixtureSquare.isSeen) {
		if one, _ := s.at(at.row, at.column); at.column >= from && at.column < to && isDrawn(one.Target) {
			words = append(words, word{s.x(at.column, from) + s.side/2, s.mean(s.y(at.row, top)) + 17, cut(wantedText(one), s.side-8)})
		}
	}
	s.words("c-name", middle, words)
}

// state is what a square is, in a word; none of one that is on target.
func (s *squares) state(one MixtureSquare) string {
	switch one.State {
	case model.Lean, model.Rich:
		return one.State.String()
	case model.Glimpsed:
		if text := "short, " + one.Seen; s.isRoomy && one.Seen != "" && widthOf(text)+8 <= s.side {
			return text
		}
		return "short"
	}
	return ""
}

// word is a text at a place.
type word struct {
	x, y float64
	text string
}

// words writes texts of one look. They are a group that has the look, and those of one height are one element in it: hundreds of elements with a look of their own would make a
// large map twice as large.
func (s *squares) words(class markup, from anchor, list []word) {
	if len(list) == 0 {
		return
	}
	slices.SortStableFunc(list, func(a, b word) int { return cmp.Compare(a.y, b.y) })
	s.put(`<g class="`)
	s.put(class)
	s.put(`"`)
	s.put(anchors[from])
	s.put(`>`)
	for len(list) > 0 {
		n := 1
		for n < len(list) && list[n].y == list[0].y {
			n++
		}
		s.row(list[:n])
		list = list[n:]
	}
	s.ungroup()
}

// row writes texts of one height as one element. Where each is a single letter, a list of places does for all.
func (s *squares) row(list []word) {
	isParted := slices.ContainsFunc(list, func(one word) bool { return !one.isLetter() })
	s.put(`<text`)
	if len(list) == 1 || !isParted {
		s.put(` x="`)
		s.num(list[0].x)
		for _, one := range list[1:] {
			s.nums(one.x)
		}
		s.put(`"`)
		isParted = false
	}
	s.attr("y", list[0].y)
	s.put(`>`)
	for _, one := range list {
		if isParted {
			s.put(`<tspan`)
			s.attr("x", one.x)
			s.put(`>`)
		}
		s.text(one.text)
		if isParted {
			s.put(`</tspan>`)
		}
	}
	s.put(`</text>`)
}

// isLetter reports whether a word is a single letter or sign of those that no script joins to the next.
func (w word) isLetter() bool {
	return w.text == "–" || w.text == harmSign || len(w.text) == 1 && w.text > " "
}

// signs writes what stands for the words of a large map, above its figures or in their place.
func (s *squares) signs(from, to int, top float64) {
	if !s.isDense {
		return
	}
	above := 16.0
	if s.isBare {
		above = 0
	}
	looks := []look{{"c-value c-say-worn", MixtureSquare.isWarned}, {"c-name", MixtureSquare.isGlimpsed}}
	if s.isBare {
		looks = append(looks, look{"c-value c-say-out", MixtureSquare.isHarmful})
	}
	for _, look := range looks {
		var words []word
		for _, at := range s.all(look.is) {
			if at.column >= from && at.column < to {
				one, _ := s.at(at.row, at.column)
				words = append(words, word{s.x(at.column, from) + s.side/2, s.mean(s.y(at.row, top)) - above, s.signOf(one)})
			}
		}
		s.words(look.class, middle, words)
	}
}

func (s *squares) signOf(one MixtureSquare) string {
	for _, state := range states {
		if state.is(one) {
			return s.sign(state)
		}
	}
	return ""
}

// heads writes the engine speeds below their columns. Where they are wider than a square every other one stands a line lower.
func (s *squares) heads(from, to int, bottom float64) {
	var heads []word
	var leaders []float64
	for column := from; column < to; column++ {
		x, y, room := s.x(column, from)+s.side/2, bottom+17, s.side-4
		if s.isStaggered {
			room = 2*s.side - 6
		}
		text := cut(s.Speed[column], room)
		x = min(x, math.Floor(s.width-widthOf(text)/2))
		if s.isStaggered && (column-from)%2 == 1 {
			leaders = append(leaders, x)
			y += rowTall
		}
		heads = append(heads, word{x, y, text})
	}
	s.words("c-figure", middle, heads)
	if len(leaders) == 0 {
		return
	}
	s.begin("c-leader")
	for _, x := range leaders {
		s.step("M", x, bottom+2)
		s.step("V", bottom+17)
	}
	s.end()
}
