package report

import (
	"bytes"
	"regexp"
	"strings"
)

// How wide text is set, and the widest first column of a list.
const (
	measure     = 88
	firstColumn = 34
)

// pager sets pages for a terminal.
type pager struct {
	style Style
	out   bytes.Buffer
}

func (p *pager) line(text string) {
	p.out.WriteString(strings.TrimRight(text, " "))
	p.out.WriteByte('\n')
}

func (p *pager) heading(text string) {
	p.line("")
	p.line(p.style.paint(p.style.Strong, text))
}

// section writes a list of two columns below its heading, and nothing where there are no rows.
func (p *pager) section(heading string, rows [][2]string) {
	if len(rows) > 0 {
		p.heading(heading)
		p.rows(rows)
	}
}

func (p *pager) rows(rows [][2]string) {
	column := 0
	for _, row := range rows {
		if n := cells(row[0]); n <= firstColumn {
			column = max(column, n)
		}
	}
	for _, row := range rows {
		left := "  " + row[0] + strings.Repeat(" ", max(column-cells(row[0]), 0)+2)
		if cells(row[0]) > column {
			p.line("  " + row[0])
			left = strings.Repeat(" ", column+4)
		}
		p.wrapped(row[1], left, strings.Repeat(" ", column+4))
	}
}

// entry begins what there is to say about one thing.
func (p *pager) entry(name, clause string) {
	p.line("")
	p.wrapped(strings.TrimSuffix(p.style.paint(p.style.Strong, name)+": "+clause, ": "), "", "  ")
}

func (p *pager) fact(name, text string) {
	if text != "" {
		p.wrapped(text, "  "+name+strings.Repeat(" ", max(10-len(name), 1)), strings.Repeat(" ", 12))
	}
}

// legend says what the capitals in a path stand for.
func (p *pager) legend(path string) {
	for _, word := range [][2]string{{"CYL", "a cylinder's name; left out where there is but one"}, {"NAME", "any one name"}, {"…", "any further names, or none"}, {"(", "one of the words in brackets"}} {
		if strings.Contains(path, word[0]) {
			p.fact(strings.Replace(word[0], "(", "( )", 1), word[1])
		}
	}
}

// wrapped writes a text in lines of the measure. The first begins with first, the others with rest. Words between back-quotes stay
// together.
func (p *pager) wrapped(text, first, rest string) {
	line, used, empty := first, cells(first), true
	for _, word := range unbroken(text) {
		n := cells(plain(word))
		if !empty && used+1+n > measure {
			p.line(line)
			line, used, empty = rest, cells(rest), true
		}
		if !empty {
			line, used = line+" ", used+1
		}
		line, used, empty = line+word, used+n, false
	}
	p.line(line)
}

// unbroken cuts a text at its blanks, but for those between back-quotes.
func unbroken(text string) []string {
	var all []string
	for _, word := range strings.Fields(text) {
		if n := len(all); n > 0 && strings.Count(all[n-1], "`")%2 == 1 && len(all[n-1]) < measure/2 {
			all[n-1] += " " + word
			continue
		}
		all = append(all, word)
	}
	return all
}

var escapes = regexp.MustCompile("\x1b\\[[0-9;]*m")

// plain returns a text without what sets it apart.
func plain(text string) string {
	if !strings.Contains(text, "\x1b") {
		return text
	}
	return escapes.ReplaceAllString(text, "")
}

var (
	fence    = regexp.MustCompile("^ {0,3}(`{3,}|~{3,})\\s*([^`]*)$")
	listItem = regexp.MustCompile(`^(\s*)([-*]|\d+\.) +(.*)$`)
	link     = regexp.MustCompile(`!?\[([^\]]*)\]\(([^)\s]*)[^)]*\)`)
)

// page sets a page written in Markdown: headings without their marks, paragraphs to the measure, code moved in, tables as they are.
func (p *pager) page(page Page) {
	p.line("")
	text := page.Text()
	if text == "" {
		p.wrapped(p.style.paint(p.style.Strong, page.Name), "", "")
		return
	}
	set := pageSetter{pager: p}
	for _, text := range strings.Split(strings.TrimSpace(strings.ReplaceAll(text, "\r\n", "\n")), "\n") {
		if set.code(text) {
			continue
		}
		set.text(text)
	}
	set.flush()
}

// pageSetter sets a page line by line.
type pageSetter struct {
	*pager
	paragraph   []string // gathered lines
	first, rest string   // what its lines begin with
	fence       string   // of the block of code that is open
	empty       bool     // nothing stood in it yet
}

// flush sets the paragraph that was gathered.
func (s *pageSetter) flush() {
	if len(s.paragraph) > 0 {
		s.wrapped(strings.Join(s.paragraph, " "), s.first, s.rest)
		s.paragraph = nil
	}
}

// code sets a line that opens, closes or stands in a block of code, and reports whether it is one.
func (s *pageSetter) code(text string) bool {
	mark := fence.FindStringSubmatch(text)
	switch {
	case s.fence != "" && mark != nil && mark[2] == "" && strings.HasPrefix(mark[1], s.fence):
		if s.empty {
			s.line("    nothing")
		}
		s.fence = ""
	case s.fence != "":
		s.line("    " + text)
		s.empty = false
	case mark != nil:
		s.flush()
		s.fence, s.empty = mark[1], true
		if label := blockName(strings.TrimSpace(mark[2])); label != "" {
			s.line("  " + s.style.paint(s.style.Faint, label))
		}
	default:
		return false
	}
	return true
}

// blockName says what a block of code holds, by what stands behind its fence.
func blockName(info string) string {
	switch info {
	case "journal":
		return "with the files"
	case "findings":
		return "there is found"
	case "numbers":
		return "there is worked out"
	}
	return info
}

// text sets a line that is not code.
func (s *pageSetter) text(text string) {
	item := listItem.FindStringSubmatch(text)
	switch {
	case strings.HasPrefix(text, "#"):
		s.flush()
		s.line(s.style.paint(s.style.Strong, strings.ReplaceAll(strings.TrimSpace(strings.TrimLeft(text, "#")), "`", "")))
	case strings.TrimSpace(text) == "":
		s.flush()
		s.line("")
	case strings.HasPrefix(text, "|"):
		s.flush()
		s.line("  " + text)
	case item != nil:
		s.flush()
		bullet := "- "
		if item[2] != "-" && item[2] != "*" {
			bullet = item[2] + " "
		}
		s.first, s.rest = item[1]+bullet, item[1]+strings.Repeat(" ", len(bullet))
		s.paragraph = []string{inline(item[3])}
	default:
		if len(s.paragraph) == 0 {
			s.first, s.rest = "", ""
		}
		s.paragraph = append(s.paragraph, inline(strings.TrimSpace(text)))
	}
}

// inline takes the marks of strong text and of links off a line; an address that leads to the web stays.
func inline(text string) string {
	text = link.ReplaceAllStringFunc(text, func(whole string) string {
		parts := link.FindStringSubmatch(whole)
		if strings.HasPrefix(parts[2], "http") {
			return parts[1] + " <" + parts[2] + ">"
		}
		return parts[1]
	})
	return strings.ReplaceAll(text, "**", "")
}
