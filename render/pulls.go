package render

import (
	"slices"
	"strconv"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// sideOfWork says on which side of an entry's work pulls or logs of a state stand, `before` or `after`; "" where there is no work to stand beside: nothing was fitted or removed, and nothing else of
// the entry is said to be from before.
func sideOfWork(e *model.Entry, state string) string {
	isBefore := slices.ContainsFunc(e.Pulls, func(s *model.Pulls) bool { return s.State == "before" }) || slices.ContainsFunc(e.Logs, func(l *model.Log) bool { return l.State == "before" })
	if isBefore || len(e.Fitted)+len(e.Removed) > 0 {
		return state
	}
	return ""
}

// besideWork says the side in words, where an entry is named; "" for none.
func besideWork(e *model.Entry, state string) string {
	if side := sideOfWork(e, state); side != "" {
		return side + " its work"
	}
	return ""
}

// headOfSide writes the head of what stands on one side of an entry's work.
func (p *page) headOfSide(e *model.Entry, state string) {
	switch sideOfWork(e, state) {
	case "before":
		p.put("<h3>Before this entry’s work</h3>\n")
	case "after":
		p.put("<h3>After this entry’s work</h3>\n")
	}
}

// pulls writes the sessions on a dyno.
func (p *page) pulls(e *model.Entry) {
	for i, session := range e.Pulls {
		if i == 0 {
			p.section("pulls", "Pulls")
		}
		p.session(session, i)
	}
	if len(e.Pulls) > 0 {
		p.endSection()
	}
}

func (p *page) session(session *model.Pulls, i int) {
	p.headOfSide(session.Entry, session.State)
	p.put("<dl class=\"facts\">\n")
	for _, peak := range []struct {
		label string
		v     *model.Value
	}{{"Peak power", session.Peak}, {"Peak torque", session.Torque}} {
		if peak.v == nil {
			continue
		}
		p.put("<div")
		p.id(anchor(peak.v.ID()))
		p.put(">")
		p.element("dt", peak.label)
		p.put("<dd>")
		p.value(peak.v)
		if peak.v.Limit != nil {
			p.put(" ")
			p.judged(peak.v)
		}
		if words := workedOutWords(session, peak.v.Quantity.Unit.Dimension); words != "" {
			p.text(", " + words)
		}
		p.put("</dd></div>\n")
	}
	if n := len(session.Runs); n > 0 {
		p.textTerm("From", quantity.Counted(n, "pull"))
	}
	if session.Dyno != nil && !p.site.Hides("tools") {
		p.term("On", func() { p.to(p.site.toolPlace(session.Dyno), session.Dyno.Title) })
	}
	p.air(session)
	p.put("</dl>\n")
}

// air writes the gear, the correction and the air of a session.
func (p *page) air(session *model.Pulls) {
	if session.Gear != 0 {
		p.term("Gear", func() { p.gear(session) })
	}
	p.textTerm("At", session.Where)
	p.textTerm("Corrected", session.Corrected)
	p.textTerm("Note", session.Note)
	if session.Air != nil {
		p.term("Air", func() { p.airFigures(session) })
	}
}

func (p *page) gear(session *model.Pulls) {
	if session.Gear != 0 {
		p.text(strconv.Itoa(session.Gear))
	}
}

// airFigures writes what is said of the air of a session, each figure with its anchor.
func (p *page) airFigures(session *model.Pulls) {
	first := true
	for _, v := range session.Air.Values() {
		if !p.site.ShowsValue(v) {
			continue
		}
		if !first {
			p.put(", ")
		}
		first = false
		p.put("<span")
		p.id(anchor(v.ID()))
		p.put(">")
		p.text(strings.ReplaceAll(strings.TrimPrefix(v.Path, "air."), "-", " ") + " ")
		p.figure(v.Quantity.Shown())
		p.put("</span>")
	}
}
