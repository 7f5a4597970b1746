package chart

import (
	"math"
	"slices"
)

// row draws one row: words above and bars below them, or the other way about.
func (t *timing) row(r timingRow) {
	t.group(r.name)
	y := r.y
	if !r.isBelow {
		y = t.words(r, y) + 3
		t.bar("c-card", r.card, y, cardTall)
		if r.card.is() {
			y += cardTall
		}
		t.whiskers(r.now, y+whiskTall/2)
		t.bar("c-open", r.now, y+whiskTall, openTall)
		t.ungroup()
		return
	}
	if r.now.is() {
		t.bar("c-open", r.now, y, openTall)
		y += openTall + whiskTall
		t.whiskers(r.now, y-whiskTall/2)
	}
	if r.card.is() {
		t.bar("c-card", r.card, y, cardTall)
		y += cardTall
	}
	t.words(r, y+3)
	t.ungroup()
}

// words writes a row's name and its events, the name farthest from the bars, and returns where they end.
func (t *timing) words(r timingRow, y float64) float64 {
	if !r.isBelow {
		t.rowName(r, y+13)
		y += rowTall
	}
	if r.now.is() {
		t.eventRow("c-value c-say-now c-halo", "", t.x, y+13, t.width, r.now.bare())
		y += rowTall
	}
	if r.card.is() {
		t.eventRow("c-name c-halo", "", t.x, y+13, t.width, r.card.bare())
		y += rowTall
	}
	if r.isBelow {
		t.rowName(r, y+13)
		y += rowTall
	}
	return y
}

// bare is an opening without its lobe's centre, which stands with the name of its row.
func (s stretch) bare() stretch {
	s.centre = crankEvent{}
	return s
}

// rowName names a row over the middle of its bars, with as much of the rest as there is room for.
func (t *timing) rowName(r timingRow, y float64) {
	text := r.name
	for _, most := range []string{r.facts(", open for ", " (card "), r.facts(", open for ", ""), r.facts(" ", "")} {
		if text = r.name + most; widthOf(text) <= t.width {
			break
		}
	}
	places := append(r.now.figures(), r.card.figures()...)
	text = cut(text, t.width)
	mid, half := t.x.at(slices.Min(places)/2+slices.Max(places)/2), widthOf(text)/2
	t.label("c-figure c-halo", middle, max(half, min(mid, t.width-half)), y, text)
}

// facts says how long a row is open and where its lobe has its centre, and in brackets, after a word for it, what the card says of both. Of a row that was not measured
// it says what the card does.
func (r timingRow) facts(long, card string) string {
	text := ""
	for _, f := range []struct{ what, now, card string }{{long, r.now.duration, r.card.duration}, {", lobe centre ", r.now.centre.text, r.card.centre.text}} {
		if !r.now.is() {
			f.now, f.card = f.card, ""
		}
		if f.now == "" {
			continue
		}
		text += f.what + f.now
		if f.card != "" && card != "" {
			text += card + f.card + ")"
		}
	}
	return text
}

// bar draws an opening from end to end, with a notch where the lobe has its centre. Of one that has but one end it draws that, and dots what is not known.
func (t *timing) bar(class markup, s stretch, y, tall float64) {
	if !s.is() {
		return
	}
	if s.isWhole() {
		notch := math.NaN()
		if s.centre.is {
			notch = t.x.at(s.centre.at)
		}
		t.notched(class, t.x.at(s.opens.at), t.x.at(s.closes.at), notch, y, tall)
		return
	}
	for _, e := range []struct {
		crankEvent
		way float64
	}{{s.opens, 1}, {s.closes, -1}} {
		if e.is {
			x, far := t.x.at(e.at), t.x.at(e.at+unknownLong*e.way)
			t.box(class, min(x, x+2.5*e.way), y, max(x, x+2.5*e.way), y+tall)
			t.line("c-unknown", x+5*e.way, y+tall/2, far, y+tall/2)
		}
	}
	if s.centre.is {
		x := t.x.at(s.centre.at)
		t.line("c-nominal", x-tall*0.4, y, x, y+tall*0.6, x+tall*0.4, y)
	}
}

// notched draws a bar with a notch in it, none where that is not known.
func (t *timing) notched(class markup, left, right, notch, y, tall float64) {
	t.begin(class)
	t.step("M", left, y+tall)
	t.step("V", y)
	if wide := tall * 0.4; notch-wide > left && notch+wide < right {
		t.step("H", notch-wide)
		t.step("L", notch, y+tall*0.6, notch+wide, y)
	}
	t.step("H", right)
	t.step("V", y+tall)
	t.put("Z")
	t.end()
}

// whiskers draws what is not known of the ends of an opening, beside its bar.
func (t *timing) whiskers(s stretch, y float64) {
	for _, e := range []crankEvent{s.opens, s.closes} {
		if e.is && e.from < e.to {
			t.whisker(t.x.at(e.from), t.x.at(e.to), y)
		}
	}
}
