// Package draft writes the texts that a builder begins with: a journal that teaches by its comments, and an entry with blanks for what is asked for.
//
// A compiled journal goes in, a text comes out; nothing here touches a disk. The one invariant: what it writes compiles, and the blanks in it claim
// nothing.
package draft

import (
	"embed"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"example.org/locknut/journal"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/upkeep"
)

//go:embed begin
var begin embed.FS

// File is a file to be written, by its name below the journal's folder.
type File struct{ Name, Text string }

// Journal returns the files of a journal that has yet to begin, with an entry of that day.
func Journal(day parse.Date) []File {
	var files []File
	for _, name := range []string{"build.toml", "limits.toml", "parts.toml", "tools.toml", "entry.md"} {
		text, err := begin.ReadFile("begin/" + name)
		if err != nil {
			panic(err) // it is part of the program
		}
		if name == "entry.md" {
			name = "entries/" + day.String() + "-first-look.md"
		}
		files = append(files, File{name, string(text)})
	}
	return files
}

// Entry returns the file of a new entry: its head has the last meter, blanks for what fitted parts ask for and what is due or soon will be, each with
// its limit, for readings that stand out of theirs, and as comments what else is due and what plans will ask. The name is the day with the title folded to letters, digits and dashes.
func Entry(result *journal.Result, title string, day parse.Date) File {
	d := &draft{Result: result, asked: map[string]bool{}}
	d.line("```toml")
	d.meter()
	d.tools()
	asked := d.apart(d.requests) // first, so that nothing is asked for twice
	d.due()
	d.text.WriteString(asked)
	if d.log != "" {
		d.line("")
		d.line("# The mixture is to be logged: %s.", d.log)
		d.line("# [[fuelling]]")
		d.line("# data = \"data/ride.csv\"  # time [s],rpm,throttle [%],lambda")
	}
	d.plans()
	d.line("```")
	d.line("")
	d.line("# " + heading(title))
	d.line("")
	return File{"entries/" + day.String() + "-" + slug(title) + ".md", d.text.String()}
}

// heading writes a title so that Markdown prints it as it was given: on one line, without control characters and what
// else no page may hold, what has a meaning there escaped.
func heading(title string) string {
	title = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && !unicode.IsSpace(r) || unicode.Is(unicode.Noncharacter_Code_Point, r) {
			return -1
		}
		return r
	}, strings.ToValidUTF8(title, " "))
	title = strings.Join(strings.Fields(title), " ")
	var b strings.Builder
	for i, r := range title {
		address := r == ':' && strings.HasPrefix(title[i:], "://") || r == '.' && i >= 3 && strings.EqualFold(title[i-3:i], "www")
		if address || strings.ContainsRune("\\`*_[]<>&~#@", r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}

// mostSlug is how long, in bytes, a title may be in a file's name: a name may have 255 on most disks.
const mostSlug = 120

// slug folds a title to what stands well in a file's name: the words that there is room for, or the beginning of the first.
func slug(title string) string {
	words := strings.FieldsFunc(strings.ToLower(strings.ToValidUTF8(title, " ")), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	if len(words) == 0 {
		return "entry"
	}
	text := strings.ToValidUTF8(words[0][:min(len(words[0]), mostSlug)], "")
	for _, word := range words[1:] {
		if len(text)+1+len(word) > mostSlug {
			break
		}
		text += "-" + word
	}
	return text
}

// draft is an entry while it is written.
type draft struct {
	*journal.Result
	text  strings.Builder
	asked map[string]bool // positions that have their blank
	log   string          // why the mixture is to be logged; empty where it isn't
}

func (d *draft) line(format string, values ...any) {
	if len(values) > 0 {
		format = fmt.Sprintf(format, values...)
	}
	d.text.WriteString(format + "\n")
}

// apart returns what would be written, to be written later.
func (d *draft) apart(write func()) string {
	before := d.text.String()
	d.text.Reset()
	write()
	text := d.text.String()
	d.text.Reset()
	d.text.WriteString(before)
	return text
}

// meter writes the last meter, to be overwritten.
func (d *draft) meter() {
	for _, e := range slices.Backward(d.Result.Journal.Entries) {
		if !e.Plan && e.Meter != nil {
			d.line("# meter = %s  # the last one, of %s", e.Meter.Shown().Number, e.Date)
			return
		}
	}
	d.line("# meter =")
}

// tools lists the tools that there are.
func (d *draft) tools() {
	var names []string
	for _, t := range d.Result.Journal.Tools {
		names = append(names, fmt.Sprintf("%q", t.Name))
	}
	if len(names) > 0 {
		d.line("# with = [%s]", strings.Join(names, ", "))
	}
}

// requests writes blanks for what parts and entries ask for and nobody has read.
func (d *draft) requests() {
	d.line("")
	d.line("[set]")
	for _, r := range d.Result.Journal.Requests {
		why := "an entry expects it"
		if r.Part != nil {
			why = "since " + r.Part.Name + " went in"
		}
		d.blanks(r.Missing, why)
	}
	for _, item := range d.Result.Upkeep { // what goes in is not found
		if item.State >= upkeep.Soon && item.Path == "oil.change" {
			d.blanks([]string{item.Path}, item.State.String())
		}
	}
}

// due writes blanks for the readings that are due, that soon will be, and that stand out of their limits; what else is due as comments.
func (d *draft) due() {
	d.line("")
	for _, item := range d.Result.Upkeep {
		if item.State >= upkeep.Soon && item.Path == "" {
			what := map[upkeep.Kind]string{upkeep.Renewal: "renew ", upkeep.Calibration: "calibrate "}[item.Kind]
			d.line("# %s: %s%s", item.State, what, strings.Join(strings.Fields(item.Title), " "))
		}
	}
	d.line("[found]")
	for _, item := range d.Result.Upkeep {
		if item.State < upkeep.Soon || item.Path == "" {
			continue
		}
		for path := range strings.SplitSeq(item.Path, ", ") {
			d.blanks(d.Result.Journal.Positions.Below(path), item.State.String())
		}
	}
	for _, position := range d.Result.Journal.Positions.All() {
		if v := d.Result.Journal.Current(position); v != nil && v.IsReading() && (v.Verdict == model.Out || v.Verdict == model.Undecided) {
			d.blanks([]string{position}, "it stands "+v.Verdict.String())
		}
	}
}

// blanks writes a line for each position that has none yet, with its limit.
func (d *draft) blanks(positions []string, why string) {
	for _, position := range positions {
		if d.asked[position] {
			continue
		}
		if parse.IsOfMixture(position) {
			d.log = why
			continue
		}
		d.asked[position] = true
		note := why
		if limit := limitWords(d.Result.Journal.LimitAt(position, nil)); limit != "" {
			note += "; " + limit
		}
		d.line("%s = \"\"  # %s", key(position), note)
	}
}

// key writes a path as TOML does: what is no bare key in quotes.
func key(path string) string {
	segments := strings.Split(path, ".")
	for i, segment := range segments {
		if strings.ContainsFunc(segment, func(r rune) bool { return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '-' || r == '_') }) {
			segments[i] = strconv.Quote(segment)
		}
	}
	return strings.Join(segments, ".")
}

// limitWords says what a limit holds a value to, the steps of a torque first; nothing for none.
func limitWords(l *model.Limit) string {
	text := ""
	switch {
	case l == nil:
		return ""
	case len(l.Expect) > 0:
		return "limit: " + strings.Join(l.Expect, " or ")
	case l.IsFigures():
		text = "limit: "
		for _, step := range l.Steps {
			text += step.Shown().String() + " then "
		}
		text += l.BoundsText()
	case l.Nominal != nil:
		text = "nominal: " + l.Nominal.Shown().String()
	default:
		return ""
	}
	if l.When != nil {
		text += ", engine at " + ends(*l.When)
	}
	return text
}

// ends writes an interval in words where it has one end alone.
func ends(q quantity.Quantity) string {
	words := ""
	if q.IsOpenEnded() {
		if words = "from "; q.HasHigh {
			words = "up to "
		}
		q.Kind = quantity.Figure
	}
	return words + q.Shown().String()
}

// plans writes what the plans, and the planned parts that are in none, will ask for, as comments.
func (d *draft) plans() {
	j := d.Result.Journal
	inPlan := map[*model.Part]bool{}
	for _, e := range j.Entries {
		if !e.Plan {
			continue
		}
		d.line("")
		d.line("# Planned: %s", strings.Join(strings.Fields(e.Title), " "))
		for _, ref := range e.Fitted {
			if ref.Part != nil {
				inPlan[ref.Part] = true
				d.part(ref.Part)
			}
		}
		for _, path := range e.Fields.Names("expects") {
			d.reads("read", path.Name, func(position string) *model.Limit { return j.LimitAt(position, e) })
		}
	}
	first := true
	for _, p := range j.Parts {
		if !p.IsPlanned() || inPlan[p] {
			continue
		}
		if first {
			d.line("")
			d.line("# Planned parts. To fit one, take it up into `fitted`, above the first table:")
		}
		first = false
		d.part(p)
	}
}

// part writes what a planned part asks for.
func (d *draft) part(p *model.Part) {
	d.line("# fitted = [%q]", p.Name)
	for _, path := range p.Fields.Names("then") {
		d.reads("then read", path.Name, func(position string) *model.Limit { return d.Result.Journal.LimitWith(position, p) })
	}
}

// reads writes that a path is to be read, by each limit that will hold there.
func (d *draft) reads(words, path string, limitAt func(position string) *model.Limit) {
	var told []*model.Limit
	for _, position := range d.Result.Journal.Positions.Below(path) {
		l := limitAt(position)
		if limitWords(l) == "" || slices.Contains(told, l) {
			continue
		}
		told = append(told, l)
		at := position
		if l.Path != position && strings.HasPrefix(position, l.Path+".") && len(l.Path) >= len(path) {
			at = l.Path
		}
		d.line("#   %s %s: %s", words, at, limitWords(l))
	}
	if len(told) == 0 {
		d.line("#   %s %s", words, path)
	}
}

// Reading returns the text of an entry of a day's last second with one reading and, if it is known, the engine's temperature.
func Reading(day parse.Date, path, value, temp string) string {
	text := "```toml\ndate = " + parse.Date{Year: day.Year, Month: day.Month, Day: day.Day}.String() + "T23:59:59\n"
	if temp != "" {
		text += "engine-temp = " + quoted(temp) + "\n"
	}
	return text + "[found]\n" + key(path) + " = " + quoted(value) + "\n```\n"
}

// quoted writes a text without control characters as TOML does.
func quoted(text string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(text) + `"`
}
