package quantity

import (
	"strings"
	"unicode/utf8"
)

// leadingDot is about `.08`.
func (s scan) leadingDot(a, b int) *Slip {
	end := digits(s.text, a+1, b)
	return s.slip("leading-dot", a, end, s.quote(a, end)+" begins with its decimal point", "write a nought before the point", s.with(a, a, "0"))
}

// trailingDot is about `5.`, whose dot stands at i.
func (s scan) trailingDot(a, i, b int) *Slip {
	return s.slip("number-dot", a, i+1, s.quote(a, i+1)+" ends with a dot", "leave the dot out, or write the digits after it", s.with(i, i+1, ""))
}

// manyDots is about `1.234.567`.
func (s scan) manyDots(a, b int) *Slip {
	end := a
	for end < b && (isDigit(s.text[end]) || s.text[end] == '.' && end+1 < b && isDigit(s.text[end+1])) {
		end++
	}
	run := s.text[a:end]
	for i, group := range strings.Split(run, ".") {
		if i > 0 && len(group) != 3 || i == 0 && (len(group) > 3 || group[0] == '0') {
			return s.slip("number-dot", a, end, quoted(run)+" has several dots", "write one decimal point")
		}
	}
	return s.slip("thousands", a, end, quoted(run)+" parts its thousands with dots", "part thousands with a space or not at all",
		s.with(a, end, strings.ReplaceAll(run, ".", "")))
}

// underscores is about `18_240`, which only a bare number may hold.
func (s scan) underscores(a, b int) *Slip {
	end := a
	for end < b && (isDigit(s.text[end]) || s.text[end] == '_' || s.text[end] == '.' && end+1 < b && isDigit(s.text[end+1])) {
		end++
	}
	return s.slip("thousands", a, end, s.quote(a, end)+" parts its digits with `_`", "part thousands with a space or not at all",
		s.with(a, end, strings.ReplaceAll(s.text[a:end], "_", "")))
}

// rangeDash returns a slip if an interval's second number follows text[start:end] after a dash or a word in place of `..`.
func (s scan) rangeDash(start, end, b int) *Slip {
	i, j, after := s.dash(end, b)
	if after == 0 {
		return nil
	}
	return s.slip("range-dash", i, j, s.quote(start, b)+" reads as an interval without `..`",
		"write `..` between the two ends", s.text[:end]+".."+s.text[after:])
}

// dash finds a dash, `to` or an ellipsis at a that a number follows: its place, its end, and where the number
// begins; 0 if there is none.
func (s scan) dash(a, b int) (at, end, after int) {
	at = s.skip(a, b)
	r, width := utf8.DecodeRuneInString(s.text[at:b])
	switch r {
	case '-', '–', '—', '−', '‐', '‑', '…':
	default:
		width = 0
		for _, word := range [...]string{"to", "until", "till", "through"} {
			if len(word) < b-at && strings.EqualFold(s.text[at:at+len(word)], word) {
				width = len(word)
			}
		}
	}
	if width == 0 {
		return 0, 0, 0
	}
	after = s.skip(at+width, b)
	if after >= b || !isDigit(s.text[after]) && !(s.text[after] == '.' && after+1 < b && isDigit(s.text[after+1])) {
		return 0, 0, 0
	}
	return at, at + width, after
}

// intervalDots is about `0.10...0.13`, whose dots begin at a.
func (s scan) intervalDots(a, b int) *Slip {
	end := a
	for end < b {
		if s.text[end] == '.' {
			end++
		} else if strings.HasPrefix(s.text[end:b], "…") {
			end += len("…")
		} else {
			break
		}
	}
	return s.slip("interval-dots", a, end, s.quote(a, end)+" is more than the two dots of an interval",
		"write `..` between the two ends", s.with(a, end, ".."))
}

// reversed returns a slip if the low end is above the high end. Where one event stands for both ends either order says the same.
func (s scan) reversed(w *Written) *Slip {
	low, _ := w.first.share()
	high, _ := w.last.share()
	if w.first.event == w.last.event && w.first.event != NoEvent {
		return nil
	}
	if Compare(w.first.event.signed(low), w.last.event.signed(high), 0) <= 0 {
		return nil
	}
	return s.swapped(w)
}

// swapped offers an interval the other way round.
func (s scan) swapped(w *Written) *Slip {
	low, high := w.first, w.last
	le, he := low.end, high.end
	if !low.unit.absent() || low.event != high.event {
		le, he = low.stop, high.stop
	}
	offer := s.text[:low.start] + s.text[high.start:he] + s.text[le:high.start] + s.text[low.start:le] + s.text[he:]
	return s.slip("reversed", low.start, high.stop, s.quote(low.start, high.stop)+" has its low end above its high end",
		"write the low end first", offer)
}

// unitPlace is about `0.10 mm..0.13`: a unit or an event that stands at the low end only.
func (s scan) unitPlace(w *Written) *Slip {
	low, high := w.first, w.last
	offer := s.text[:low.end] + ".." + s.text[high.start:high.stop] + s.text[low.end:low.stop] + s.text[high.stop:]
	return s.slip("unit-place", low.end, low.stop, s.quote(low.end, low.stop)+" stands at the low end only", "write it once, after the high end", offer)
}

// spreadUnit is about `20 N·m ± 5`, which may mean newton metres or per cent.
func (s scan) spreadUnit(w *Written) *Slip {
	first, spread := w.first, w.spread
	once := s.text[:first.end] + " ± " + s.text[spread.start:spread.end] + s.text[first.end:first.stop] + s.text[spread.end:]
	return s.slip("spread-unit", spread.start, spread.end, s.quote(spread.start, spread.end)+" has no unit, though the figure before it has one",
		"write the unit once at the end, or `%` after the spread", once, s.with(spread.end, spread.end, " %"))
}
