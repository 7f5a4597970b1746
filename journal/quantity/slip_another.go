package quantity

import (
	"slices"
	"strings"
)

// lead are the words that may stand between a comma and a further figure that is meant to count.
var lead = []string{"then", "and", "or", "to", "finally", "and then"}

// Another is about a second figure behind a limit's own, which would be words that hold nothing to anything: `20 N·m, 47 N·m`. Of torques it finds one
// anywhere in the words, for those are steps; of other figures one right behind the comma, for a remark may name a leaf. The same figure in another unit
// is let pass. It returns nil for what is no such text, and for one that [Parse] finds a slip in.
func Another(text string) *Slip {
	w, slip := Parse(text)
	if slip != nil || w.Words == "" || w.Kind == Words || w.Kind == Blank || w.isBounded() {
		return nil
	}
	s := scan{text, mendings}
	b := len(trimEnd(text))
	comma := strings.IndexByte(text, ',')
	isTorque := w.measures(Torque)
	for i := comma + 1; i < b; i++ {
		if before := text[i-1]; text[i] == ' ' || before != ' ' && !strings.ContainsRune(partsWords, rune(before)) {
			continue
		}
		begins := s.leads(comma+1, i)
		stop := s.figureFrom(i, b, w, false)
		if stop == i && begins && isTorque {
			stop = s.turnFrom(i, b)
		}
		if stop == i || !begins && !isTorque || w.agrees(text[i:stop]) {
			continue
		}
		do := "write both ends as an interval, or the remark in `note`"
		var offers []string
		if isTorque {
			do = "write steps with `then`, as in `20 N·m then 47 N·m`; a remark goes into `note`"
			if stop == b && begins && (w.Kind == Figure || w.Kind == Steps) {
				offers = []string{trimEnd(text[:comma]) + " then " + text[i:]}
			}
		}
		return s.slip("bad-quantity", i, stop, s.quote(i, stop)+" stands behind a comma, where it is only words", do, offers...)
	}
	return nil
}

// leads reports whether nothing stands in text[a:b] but a word that leads to a figure.
func (s scan) leads(a, b int) bool {
	word := strings.ToLower(strings.TrimSpace(s.text[a:b]))
	return word == "" || slices.Contains(lead, word)
}

// turnFrom returns the end of the text if an angle, the step after a torque, fills text[a:b]; a if it does not.
func (s scan) turnFrom(a, b int) int {
	if w, slip := parse(s.text[a:b], 0); slip == nil && (w.Kind == Figure || w.Kind == Steps) && w.measures(Angle) {
		return b
	}
	return a
}

// measures reports whether the unit of what was written, or of its last step, may be one of a dimension.
func (w Written) measures(d Dimension) bool {
	if n := len(w.Steps); n > 0 {
		w = w.Steps[n-1]
	}
	return slices.ContainsFunc(w.Units, func(u *Unit) bool { return u.Dimension == d })
}

// agrees reports whether a text is the same figure, perhaps in another unit: half of the last digits either way, they overlap.
func (w Written) agrees(text string) bool {
	other, slip := parse(text, 0)
	if slip != nil || w.Kind != Figure || other.Kind != Figure {
		return false
	}
	for _, u := range w.Units {
		want := Want{Dimensions: []Dimension{u.Dimension}}
		a, slip := w.Resolve(want)
		b, again := other.Resolve(want)
		if slip == nil && again == nil && a.Agrees(b) {
			return true
		}
	}
	return false
}
