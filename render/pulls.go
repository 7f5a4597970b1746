package render

import (
	"strconv"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
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

// air writes the gear, the correction and the air of a session, as its table has them.
func (p *page) air(session *model.Pulls) {
	table := tableOf(session)
	if _, ok := table.Whole("gear"); ok {
		p.term("Gear", func() { p.gear(table) })
	}
	p.textTerm("Corrected", table.Text("corrected").Text)
	p.textTerm("Note", table.Text("note").Text)
	if table.Table("air") != nil {
		p.term("Air", func() { p.airFigures(table) })
	}
}

// tableOf returns the table that a session was read from.
func tableOf(session *model.Pulls) *parse.Fields {
	tables := session.Entry.Fields.Tables("pulls")
	for i := range tables {
		if tables[i].At == session.At {
			return &tables[i]
		}
	}
	return nil
}

func (p *page) gear(table *parse.Fields) {
	if gear, ok := table.Whole("gear"); ok {
		p.text(strconv.Itoa(gear))
	}
}

func (p *page) airFigures(table *parse.Fields) {
	air := table.Table("air")
	if air == nil {
		return
	}
	first := true
	for _, f := range air.List {
		if len(f.Figures) == 0 || p.site.Hides("places") && (f.Key.Name == "altitude" || f.Key.Name == "sea-level") {
			continue
		}
		if !first {
			p.put(", ")
		}
		first = false
		p.text(strings.ReplaceAll(f.Key.Name, "-", " ") + " ")
		p.written(&f.Figures[0], f.Key.Want())
	}
}
