package rule_test

import (
	"fmt"
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"
	"unicode/utf8"

	"example.org/locknut/journal"
	"example.org/locknut/journal/rule"
	"example.org/locknut/journal/source"
)

// The pages of the rules are their tests. A page holds journals, fenced with four back-quotes as `journal`, each followed by the
// findings that it must give, fenced as `findings`: all of them, of whatever rule, so that nothing unlisted passes. They are written
// by hand.
//
// A journal is its files, each below a line `-- NAME --`; one without a build.toml gets an empty one. `-- NAME -> TARGET --` is a
// symbolic link. Where the fence says `journal bytes`, `\xE9` stands for that byte and `\x61{9000}` for so many of it.
//
// A finding is `FILE:LINE: SEVERITY: RULE: ` and the underlined text in back-quotes; `FILE: SEVERITY: RULE` if it is about the whole
// file. Where the text stands more than once on its line, its column follows the line's number. One that isn't open says so:
// `error, settled`. A line end in the text is printed as `⏎`.

func TestEveryRuleHasItsPage(t *testing.T) {
	for _, r := range rule.All {
		t.Run(r.Name, func(t *testing.T) {
			t.Parallel()
			p, err := readPage(rule.Page(r.Name))
			if err != nil {
				t.Fatalf("page of `%s`: %v", r.Name, err)
			}
			if p.name != r.Name {
				t.Errorf("the title names `%s`, want `%s`", p.name, r.Name)
			}
			for _, c := range p.caught {
				if !slices.ContainsFunc(c.findings, func(line string) bool { return isOpen(line, r.Name) }) {
					t.Errorf("line %d: a case under `## Caught` lists no open finding of `%s`", c.line, r.Name)
				}
				c.check(t)
			}
			for _, c := range p.let {
				if slices.ContainsFunc(c.findings, func(line string) bool { return isOpen(line, r.Name) }) {
					t.Errorf("line %d: a case under `## Let through` lists an open finding of `%s`", c.line, r.Name)
				}
				c.check(t)
			}
		})
	}
}

func TestEveryPageHasItsRule(t *testing.T) {
	files, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		name, isPage := strings.CutSuffix(f.Name(), ".md")
		if isPage && rule.Find(strings.ReplaceAll(name, "_", "-")) == nil {
			t.Errorf("%s is the page of no rule", f.Name())
		}
	}
}

func TestRulesAreSortedByName(t *testing.T) {
	if !slices.IsSortedFunc(rule.All, func(a, b rule.Rule) int { return strings.Compare(a.Name, b.Name) }) {
		t.Error("rule.All is not sorted by name")
	}
}

// A page that lacks a part must not pass for one that has nothing to say.
func TestPagesThatLackSomethingAreRefused(t *testing.T) {
	const whole = "# `worn`: a clause\n\nWhy it matters.\n\n## Caught\n\n````journal\n-- a.md --\nx\n````\n\n```findings\na.md: note: worn\n```\n\n## Let through\n\n````journal\n-- a.md --\nx\n````\n\n```findings\n```\n"
	if _, err := readPage(whole); err != nil {
		t.Fatalf("the whole page is refused: %v", err)
	}
	for _, lack := range []struct{ what, old, new string }{
		{"the title", "# `worn`: a clause", "# worn"},
		{"the reason", "Why it matters.", ""},
		{"cases that are caught", "## Caught", "## Flagged"},
		{"cases that are let through", "## Let through", "## Known gaps"},
		{"findings after a journal", "```findings\n```", ""},
		{"a journal", "````journal\n-- a.md --\nx\n````\n\n```findings\na.md: note: worn\n```", ""},
		{"files in the journal", "-- a.md --\nx", "x"},
		{"the end of a fence", "```findings\n```\n", "```findings\n"},
		{"a form for its findings", "a.md: note: worn", "worn"},
		{"an order", "## Let through", "## Caught"},
	} {
		if _, err := readPage(strings.Replace(whole, lack.old, lack.new, 1)); err == nil {
			t.Errorf("a page without %s is taken", lack.what)
		}
	}
}

// page is the page of a rule, taken apart.
type page struct {
	name        string
	caught, let []pageCase
}

// pageCase is a journal and the findings that it must give.
type pageCase struct {
	line     int // of the page, at which the journal begins
	files    fstest.MapFS
	findings []string
}

var (
	titleLine   = regexp.MustCompile("^# `([a-z0-9-]+)`: \\S.*[^.]$")
	findingLine = regexp.MustCompile("^[^:]+(:\\d+(:\\d+)?: (error|warning|note)(, settled|, accepted)?: [a-z0-9-]+: `.*`|: (error|warning|note)(, settled|, accepted)?: [a-z0-9-]+)$")
	fileLine    = regexp.MustCompile(`^-- (\S.*) --$`)
	escape      = regexp.MustCompile(`\\x([0-9A-F]{2})(?:\{(\d+)\})?`)
)

// readPage takes a page apart. It refuses one that lacks a part, or has another than a rule's page has.
func readPage(text string) (*page, error) {
	lines := strings.Split(text, "\n")
	m := titleLine.FindStringSubmatch(lines[0])
	if m == nil {
		return nil, fmt.Errorf("the first line is %q, want \"# `name`: one clause\" without a full stop", lines[0])
	}
	p := &page{name: m[1]}
	sections := []string{}
	why := false
	for i := 1; i < len(lines); i++ {
		line := lines[i]
		section, isSection := strings.CutPrefix(line, "## ")
		switch {
		case isSection:
			sections = append(sections, section)
		case strings.HasPrefix(line, "```"):
			if len(sections) == 0 || sections[len(sections)-1] == "Known gaps" || !strings.HasPrefix(line, "````journal") {
				return nil, fmt.Errorf("line %d: the fence %q is out of place", i+1, line)
			}
			c, last, err := readCase(lines, i)
			if err != nil {
				return nil, err
			}
			i = last
			if sections[len(sections)-1] == "Caught" {
				p.caught = append(p.caught, c)
			} else {
				p.let = append(p.let, c)
			}
		case line != "" && len(sections) == 0:
			why = true
		}
	}
	parts := strings.Join(sections, ", ")
	if parts != "Caught, Let through" && parts != "Caught, Let through, Known gaps" {
		return nil, fmt.Errorf("the parts are: %s; want: Caught, Let through, and Known gaps where there are any", parts)
	}
	if !why || len(p.caught) == 0 || len(p.let) == 0 {
		return nil, fmt.Errorf("it has a reason: %v, %d cases that are caught, %d that are let through; want some of each", why, len(p.caught), len(p.let))
	}
	return p, nil
}

// readCase reads the journal whose fence opens at a line, and the findings after it. It returns the line that closes them.
func readCase(lines []string, open int) (c pageCase, last int, err error) {
	c = pageCase{line: open + 1, files: fstest.MapFS{}}
	journalText, end, err := fenced(lines, open, "````")
	if err != nil {
		return c, 0, err
	}
	name := ""
	for _, line := range journalText {
		if m := fileLine.FindStringSubmatch(line); m != nil {
			link, target, isLink := strings.Cut(m[1], " -> ")
			name = link
			c.files[name] = &fstest.MapFile{}
			if isLink {
				c.files[name] = &fstest.MapFile{Data: []byte(target), Mode: fs.ModeSymlink | 0o777}
			}
			continue
		}
		if name == "" {
			return c, 0, fmt.Errorf("line %d: the journal doesn't begin with `-- NAME --`", open+1)
		}
		if lines[open] == "````journal bytes" {
			line = escape.ReplaceAllStringFunc(line, unescape)
		}
		c.files[name].Data = append(append(c.files[name].Data, line...), '\n')
	}
	if name == "" {
		return c, 0, fmt.Errorf("line %d: the journal has no file", open+1)
	}
	if c.files["build.toml"] == nil {
		c.files["build.toml"] = &fstest.MapFile{}
	}
	for end++; end < len(lines) && lines[end] == ""; end++ {
	}
	if end == len(lines) || lines[end] != "```findings" {
		return c, 0, fmt.Errorf("line %d: no findings follow the journal", open+1)
	}
	c.findings, last, err = fenced(lines, end, "```")
	for _, line := range c.findings {
		if !findingLine.MatchString(line) {
			return c, 0, fmt.Errorf("%q is not a finding as pages write it", line)
		}
	}
	return c, last, err
}

// fenced returns the lines of a fenced block and the line that closes it.
func fenced(lines []string, open int, fence string) (inside []string, end int, err error) {
	for i := open + 1; i < len(lines); i++ {
		if lines[i] == fence {
			return lines[open+1 : i], i, nil
		}
	}
	return nil, 0, fmt.Errorf("line %d: the fence is never closed", open+1)
}

// unescape turns `\xE9{3}` into three such bytes.
func unescape(text string) string {
	m := escape.FindStringSubmatch(text)
	b, _ := strconv.ParseUint(m[1], 16, 8) // the expression lets only two hexadecimal digits through
	count := 1
	if m[2] != "" {
		count, _ = strconv.Atoi(m[2])
	}
	return strings.Repeat(string([]byte{byte(b)}), count)
}

// isOpen reports whether a line lists an open finding of a rule.
func isOpen(line, name string) bool {
	for _, severity := range []string{"error", "warning", "note"} {
		if strings.Contains(line+": ", ": "+severity+": "+name+": ") {
			return true
		}
	}
	return false
}

// check compiles the journal and compares what is found with what is listed.
func (c pageCase) check(t *testing.T) {
	t.Helper()
	result, err := journal.Compile(c.files, journal.Options{SkipHTML: true, Themes: []string{"plain", "workshop"}})
	if err != nil {
		t.Errorf("line %d: compile: %v", c.line, err)
		return
	}
	var got []string
	for _, f := range result.Findings {
		got = append(got, listed(f))
	}
	want := slices.Clone(c.findings)
	slices.Sort(got)
	slices.Sort(want)
	if slices.Equal(got, want) {
		return
	}
	var input strings.Builder
	for name, file := range c.files {
		if len(file.Data) < 2000 {
			fmt.Fprintf(&input, "-- %s --\n%s", name, file.Data)
		}
	}
	t.Errorf("line %d: found %s\nin\n%s", c.line, difference(got, want), input.String())
}

// listed prints a finding as pages list it.
func listed(f source.Finding) string {
	severity := f.Severity.String()
	if f.State != source.Open {
		severity += ", " + f.State.String()
	}
	if f.At.IsWhole() {
		return fmt.Sprintf("%s: %s: %s", f.At.File.Name, severity, f.Rule)
	}
	line, column, _, _ := f.At.Position()
	place := strconv.Itoa(line)
	if text, _ := f.At.File.Line(line); strings.Count(text, f.At.Text()) > 1 {
		place += ":" + strconv.Itoa(column)
	}
	return fmt.Sprintf("%s:%s: %s: %s: %s", f.At.File.Name, place, severity, f.Rule, quoted(f.At.Text()))
}

// quoted puts a text in back-quotes as Markdown does: in two, with blanks, where it holds some itself.
func quoted(text string) string {
	if strings.Contains(text, "`") {
		return "`` " + printable(text) + " ``"
	}
	return "`" + printable(text) + "`"
}

// printable writes line ends and bytes that are no text so that they can be listed.
func printable(text string) string {
	var b strings.Builder
	for i, r := range text {
		switch {
		case r == '\n':
			b.WriteString("⏎")
		case r == utf8.RuneError && !strings.HasPrefix(text[i:], string(utf8.RuneError)):
			fmt.Fprintf(&b, `\x%02X`, text[i])
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// difference lists what is in one sorted list and not in the other: `+` was found and is not listed, `-` is listed and was not found.
func difference(got, want []string) string {
	var b strings.Builder
	for _, line := range got {
		if !slices.Contains(want, line) {
			b.WriteString("\n+ " + line)
		}
	}
	for _, line := range want {
		if !slices.Contains(got, line) {
			b.WriteString("\n- " + line)
		}
	}
	if b.Len() == 0 {
		return fmt.Sprintf("%d findings, want %d of them: one stands twice", len(got), len(want))
	}
	return b.String()
}
