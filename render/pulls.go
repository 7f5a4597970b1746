package render

import (
	"strconv"
	"strings"

	"example.org/locknut/journal/model"
)

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
	e := session.Entry
	switch {
	case session.State == "before":
		p.put("<h3>Before this entry’s work</h3>\n")
	case len(e.Pulls) > 1 || len(e.Fitted)+len(e.Removed) > 0:
		p.put("<h3>After this entry’s work</h3>\n")
	}
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
		p.textTerm("From", counted(n, "pull"))
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
