package report

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"

	"example.org/locknut/journal/quantity"
)

// Overview writes what can be asked for, for a terminal.
func (m Manual) Overview(w io.Writer, s Style) error {
	p := pager{style: s}
	p.line("`locknut explain NAME` says more about any of these. A word from one will do: `locknut explain lash`.")
	Manual{Rules: m.Rules, Numbers: m.Numbers}.list(&p)
	p.heading("and")
	p.rows([][2]string{
		{"paths", "the paths that mean something; or a path itself: lash.intake.left"},
		{"keys", "what can be written in the journal's files"},
		{strings.Join(files, ", "), "the keys of one kind of file; or a key itself: engine.bore"},
		{"units", "the units that figures may have; or a unit itself: lbf·ft"},
	})
	_, err := w.Write(p.out.Bytes())
	return err
}

// Text writes the manual, or the part of it, for a terminal.
func (m Manual) Text(w io.Writer, s Style) error {
	p := pager{style: s}
	if m.Whole {
		m.full(&p)
	} else {
		m.list(&p)
	}
	_, err := w.Write(bytes.TrimLeft(p.out.Bytes(), "\n"))
	return err
}

// list writes a line for each.
func (m Manual) list(p *pager) {
	pages := func(heading string, pages []Page) {
		var rows [][2]string
		for _, page := range pages {
			rows = append(rows, [2]string{page.Name, page.Clause})
		}
		p.section(heading, rows)
	}
	pages("what can be found", m.Rules)
	pages("what is worked out", m.Numbers)
	var rows [][2]string
	for _, path := range m.Paths {
		rows = append(rows, [2]string{path.Path, path.Doc})
	}
	p.section("paths", rows)
	for _, file := range files {
		rows = nil
		for _, k := range m.Keys {
			if k.File == file {
				rows = append(rows, [2]string{k.Name, k.Doc})
			}
		}
		p.section("keys of "+fileWords(file), rows)
	}
	for _, d := range quantity.Dimensions() {
		rows = nil
		for _, u := range m.Units {
			if u.Dimension == d {
				rows = append(rows, [2]string{u.Symbol, unitWords(u)})
			}
		}
		if d == quantity.Money && len(rows) > 0 && len(rows) < len(m.Units) {
			rows = [][2]string{{"GBP, EUR …", "sums of money by their ISO 4217 codes; `locknut explain money` lists them"}}
		}
		p.section("units of "+d.String(), rows)
	}
}

// full writes all that there is to say about each.
func (m Manual) full(p *pager) {
	for _, r := range m.Rules {
		p.page(r)
		if r.Firm {
			p.line("")
			p.wrapped("This finding can't be accepted: mend the text.", "", "")
		}
	}
	for _, n := range m.Numbers {
		p.page(n)
	}
	for _, path := range m.Paths {
		p.entry(path.Path, path.Doc)
		if path.Worked {
			p.fact("where", "worked out; never written in an entry")
		}
		p.fact("takes", path.takes())
		p.legend(path.Path)
		path.uses(p)
	}
	for _, k := range m.Keys {
		p.entry(k.Name, k.Doc)
		p.fact("file", fileWords(k.File))
		p.fact("takes", k.words())
	}
	for _, u := range m.Units {
		name := u.Symbol
		if name == "" {
			name = "(no unit)"
		}
		p.entry(name, unitWords(u))
		p.fact("measures", u.Dimension.String())
		p.fact("typed as", strings.Join(u.Spellings, ", "))
		if len(u.OnlyWhere) > 0 {
			p.fact("also", strings.Join(u.OnlyWhere, ", ")+": where "+u.Dimension.String()+" is asked for")
		}
		p.fact("source", u.Source)
	}
}

func fileWords(file string) string {
	switch file {
	case "entry":
		return "an entry's head"
	case "value":
		return "a value with details, `{ value = \"12 N·m\", with = \"click-wrench\" }`"
	}
	return file
}

// words says what a key takes.
func (k Key) words() string {
	text := k.Kind.String()
	switch {
	case len(k.Choices) > 0:
		text += ": " + strings.Join(k.Choices, ", ")
	case len(k.Dimensions) > 0 || k.Unit != "":
		text += ": " + figureWords(k.Dimensions, k.Unit)
	}
	if k.Needed {
		text += "; it can't be left out"
	}
	return text
}

// takes says what a path takes.
func (path Path) takes() string {
	if path.Pattern.Words {
		return "words"
	}
	return figureWords(path.Dimensions, path.Unit)
}

// figureWords says what a figure may be.
func figureWords(dimensions []quantity.Dimension, unit string) string {
	if len(dimensions) == 0 {
		return "a figure of any kind, or words"
	}
	var names []string
	for _, d := range dimensions {
		names = append(names, d.String())
	}
	text := strings.Join(names, " or ")
	switch unit {
	case "":
	case "meter":
		text += "; a bare number is in the unit of the machine's meter"
	case "money":
		text += "; a bare number is in the journal's own money"
	default:
		text += "; a bare number is in " + unit
	}
	return text
}

// unitWords says what a unit is, in SI.
func unitWords(u *quantity.Unit) string {
	si := siSymbol(u)
	switch {
	case u.Dimension == quantity.Money || si == u.Symbol || u.Dimension == quantity.Pure && u.Factor == 1:
		return u.Name
	case u.Dimension == quantity.Pure:
		return fmt.Sprintf("%s; 1 is %s", u.Name, sixFigures(u.Factor))
	case u.Reciprocal:
		return fmt.Sprintf("%s; distance by fuel: 1 is %s %s", u.Name, sixFigures(u.Factor), si)
	case u.Offset != 0:
		return fmt.Sprintf("%s; 0 is %s %s, and one more is %s %s", u.Name, sixFigures(u.SI(0)), si, sixFigures(u.Factor), si)
	}
	return fmt.Sprintf("%s; 1 is %s %s", u.Name, sixFigures(u.Factor), si)
}

// sixFigures shows a factor to six figures, or in full where that is shorter.
func sixFigures(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) }
