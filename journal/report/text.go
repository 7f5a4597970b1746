package report

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"

	"example.org/locknut/journal"
	"example.org/locknut/journal/source"
)

// TextOptions say how findings are put into words.
type TextOptions struct {
	Style  Style
	All    bool   // settled and accepted findings too
	Folder string // what leads from where the reader stands to the journal, as in `../curlew/`: it is put before the name of each file
}

// Text writes the findings of a journal for a terminal: each with its place, the line that it is about with the whole place underlined, the
// limit that it was judged by, other places that took part, and what to do. A summary comes last.
func Text(w io.Writer, result *journal.Result, opts TextOptions) error {
	p := printer{opts: opts}
	shown := 0
	for _, f := range result.Findings {
		if f.State == source.Open || opts.All {
			p.finding(f)
			shown++
		}
	}
	if kinds := result.Journal.Withheld; len(kinds) > 0 {
		p.line(withheldWords(kinds))
	}
	p.line(Summary(journal.Count(result.Findings)))
	if shown > 0 {
		p.line(p.opts.Style.paint(p.opts.Style.Faint, "`locknut explain NAME` says more, by the name that stands after error, warning or note"))
	}
	_, err := w.Write(p.out.Bytes())
	return err
}

// withheldWords says which findings there would be, were the files whole.
func withheldWords(kinds []string) string {
	files := kinds[0]
	if n := len(kinds); n > 1 {
		files = strings.Join(kinds[:n-1], ", ") + " and " + kinds[n-1]
	}
	return "not all " + files + " can be read, so nothing is concluded from what they lack"
}

// Summary counts findings in words: "1 error, 2 warnings open; 6 settled, 1 accepted".
func Summary(c journal.Counts) string {
	open := join(count(c.Error, "error", "errors"), count(c.Warning, "warning", "warnings"), count(c.Note, "note", "notes"))
	rest := join(count(c.Settled, "settled", "settled"), count(c.Accepted, "accepted", "accepted"))
	switch {
	case open == "" && rest == "":
		return "no findings"
	case open == "":
		return "nothing open; " + rest
	case rest == "":
		return open + " open"
	}
	return open + " open; " + rest
}

func count(n int, one, more string) string {
	switch n {
	case 0:
		return ""
	case 1:
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + more
}

// join puts commas between the texts that are there.
func join(texts ...string) string {
	var there []string
	for _, t := range texts {
		if t != "" {
			there = append(there, t)
		}
	}
	return strings.Join(there, ", ")
}

// printer writes findings one after the other.
type printer struct {
	opts TextOptions
	out  bytes.Buffer
}

func (p *printer) line(text string) {
	p.out.WriteString(text)
	p.out.WriteByte('\n')
}

// finding writes one finding in the GNU form, with what belongs to it below, and a blank line.
func (p *printer) finding(f source.Finding) {
	s, colour := p.opts.Style, p.colour(f.Severity)
	if place := p.place(f.At); place != "" {
		p.out.WriteString(s.paint(s.Place, place+":") + " ")
	}
	kind := f.Severity.String()
	if f.State != source.Open {
		kind += ", " + f.State.String()
	}
	p.line(s.paint(colour, kind+":") + " " + s.paint(s.Strong, f.Rule) + ": " + OneLine(f.Message))
	p.excerpt(f.At, colour)
	for _, note := range f.Notes {
		p.remark(note)
	}
	if f.Do != "" {
		p.line("  " + s.paint(s.Strong, "do:") + " " + OneLine(f.Do))
	}
	if orders := mends(f); len(orders) > 0 {
		p.line("  " + s.paint(s.Strong, "mend:") + " " + OneLine(strings.Join(orders, " or ")))
	}
	p.line("")
}

// mends returns what the fixes of a finding do, as orders, less those that the advice gives already: "write `a`", "`b`".
func mends(f source.Finding) []string {
	var orders []string
	for _, fix := range f.Fixes {
		order, text := fix.Title, putIn(fix)
		if text != "" && !strings.Contains(order, strings.Trim(text, quotes)) && !strings.ContainsAny(order+text, "`\n") {
			order += ": `" + text + "`"
		}
		if strings.Contains(f.Do, order) || text != "" && offers(f.Do, text) {
			continue
		}
		if len(orders) > 0 && strings.HasPrefix(orders[0], "write ") {
			order = strings.TrimPrefix(order, "write ")
		}
		orders = append(orders, order)
	}
	return orders
}

const quotes = `"'`

// putIn returns the text that a fix of one edit puts in; "" for one that takes out or moves.
func putIn(fix source.Fix) string {
	if len(fix.Edits) != 1 {
		return ""
	}
	return strings.TrimSpace(fix.Edits[0].Text)
}

// offers reports whether one of the texts in back-quotes in an advice is a text, or is a path that ends in it.
func offers(advice, text string) bool {
	bare := strings.Trim(text, quotes)
	for i, piece := range strings.Split(advice, "`") {
		if i%2 == 1 && (piece == text || piece == bare || strings.HasSuffix(piece, "."+bare)) {
			return true
		}
	}
	return false
}

func (p *printer) colour(severity source.Severity) string {
	switch severity {
	case source.Error:
		return p.opts.Style.Error
	case source.Warning:
		return p.opts.Style.Warning
	}
	return p.opts.Style.Note
}

// place returns a place as editors read it: `file:line:column`; the file alone where it is about the whole of it.
func (p *printer) place(at source.Range) string {
	if at.IsZero() {
		return ""
	}
	name := OneLine(p.opts.Folder + at.File.Name)
	if at.IsWhole() {
		return name
	}
	line, column, _, _ := at.Position()
	return fmt.Sprintf("%s:%d:%d", name, line, column)
}

// limitName is what a remark that shows the limit's own line is called.
const limitName = "limit"

// remark writes another place that took part. The limit's comes with the text of its line.
func (p *printer) remark(r source.Remark) {
	s, name, place := p.opts.Style, "note", p.place(r.At)
	message := OneLine(r.Message)
	if r.Message == limitName || r.Message == "" {
		message = ""
		if r.Message == limitName {
			name = limitName
		}
		if text := lineOf(r.At); text != "" {
			message = "`" + OneLine(text) + "`"
		}
	}
	p.out.WriteString("  " + s.paint(s.Strong, name+":"))
	for _, part := range []string{place, message} {
		if part != "" {
			p.out.WriteString(" " + part)
			if part == place && message != "" {
				p.out.WriteString(":")
			}
		}
	}
	p.line("")
}

// lineOf returns the first line of a place, without blanks round it and without its comment.
func lineOf(at source.Range) string {
	if at.IsZero() || at.IsWhole() {
		return ""
	}
	n, _ := at.File.Position(at.Start)
	text, start := at.File.Line(n)
	return strings.TrimSpace(withoutComment(text, min(at.End-start, len(text))))
}

// withoutComment cuts the TOML comment off a line. Nothing before the offset `from` is a comment.
func withoutComment(line string, from int) string {
	var quote byte
	for i := 0; i < len(line); i++ {
		switch c := line[i]; {
		case quote == '"' && c == '\\':
			i++
		case quote != 0 && c == quote:
			quote = 0
		case quote == 0 && (c == '"' || c == '\''):
			quote = c
		case quote == 0 && c == '#' && i >= from:
			return line[:i]
		}
	}
	return line
}
