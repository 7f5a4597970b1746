package chart

import (
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
	for _, look := range looks {
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
}

// mean is the base line of the means of a row that begins at a height.
func (s *squares) mean(y float64) float64 {
	if s.isRoomy {
		return y + 33
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
func (s *squares) marks(from, to int, top float64) {
	edge := func(inset float64) func(x, y float64) {
		return func(x, y float64) {
			s.step("M", x+inset, y+inset)
			s.step("H", x+s.side-inset)
			s.step("V", y+s.tall-inset)
			s.step("H", x+inset)
			s.put("Z")
		}
	}
	comb := func(x, y float64) {
		s.step("M", x+3, y+s.tall-4)
		s.step("H", x+s.side-2)
	}
	for _, mark := range []struct {
		class markup
		is    func(MixtureSquare) bool
		draw  func(x, y float64)
	}{{"c-lean-harm", MixtureSquare.isHarmful, edge(2)}, {"c-lean", MixtureSquare.isHarmless, edge(3)}, {"c-rich", MixtureSquare.isRich, comb}} {
		isOpen := false
		for _, at := range s.all(mark.is) {
			if at.column < from || at.column >= to {
				continue
			}
			if !isOpen {
				s.begin(mark.class)
				isOpen = true
			}
			mark.draw(s.x(at.column, from), s.y(at.row, top))
		}
		if isOpen {
			s.end()
		}
	}
}

// looks are how the figure and the word of a square are written.
var looks = []struct {
	class markup
	is    func(MixtureSquare) bool
}{{"c-figure", MixtureSquare.isOnTarget}, {"c-name", func(one MixtureSquare) bool { return !one.isJudged() }}, {"c-value c-say-worn", func(one MixtureSquare) bool { return one.isHarmless() || one.isRich() }}, {"c-value c-say-out", MixtureSquare.isHarmful}}

// says adds what a square is, and its mean, about a place.
func (s *squares) says(words []word, one MixtureSquare, x, y float64) []word {
	if one.isMissed() {
		return append(words, word{x, y, "–"})
	}
	words = append(words, word{x, y, cut(quantity.Show(one.Mean, quantity.One(), s.finest).Number, (s.side-4)/1.12)})
	if text := s.state(one); text != "" {
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

// words writes texts of one look. They are a group that has the look: hundreds of elements with a look of their own would make a large map twice as large.
func (s *squares) words(class markup, from anchor, list []word) {
	if len(list) == 0 {
		return
	}
	s.put(`<g class="`)
	s.put(class)
	s.put(`"`)
	s.put(anchors[from])
	s.put(`>`)
	for _, one := range list {
		s.put(`<text`)
		s.attr("x", one.x)
		s.attr("y", one.y)
		s.put(`>`)
		s.text(one.text)
		s.put(`</text>`)
	}
	s.ungroup()
}

// heads writes the engine speeds below their columns. Where they are wider than a square every other one stands a line lower.
func (s *squares) heads(from, to int, bottom float64) {
	var heads []word
	for column := from; column < to; column++ {
		x, y, room := s.x(column, from)+s.side/2, bottom+17, s.side-4
		if s.isStaggered {
			room = 2*s.side - 6
		}
		text := cut(s.Speed[column], room)
		x = min(x, s.width-widthOf(text)/2)
		if s.isStaggered && (column-from)%2 == 1 {
			s.line("c-leader", x, bottom+2, x, y)
			y += rowTall
		}
		heads = append(heads, word{x, y, text})
	}
	s.words("c-figure", middle, heads)
}
