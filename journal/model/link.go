package model

import (
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// linker links decoded files into a journal and gathers what can only be found out by seeing two of them.
type linker struct {
	sources    *Sources
	journal    *Journal
	findings   []source.Finding
	spots      map[string]*spot      // by path
	told       map[teller]*Value     // the last one, by the entry that is being played
	pulledOnce map[string]pulledFile // files of pulls that are in, by their text
	loggedOnce map[int][]loggedFile  // files of logs that are in, by their size
	secondTold map[string]bool       // further columns of which it was noted that they are not read, by entry and head
	alike      map[string]*alike     // findings that stand for all files which have them, by what they have in common
	named      []parse.Reading       // columns that `paths` names anywhere; nil until they are asked for
	slab       []Value               // for the next readings: there are very many
	fits       int                   // how often the parts that are fitted have changed, from 1
	elsewhere  []lobeElsewhere       // files of the entry that is being played whose lobe stands where none of its side does
	fitUnclear bool                  // it can\'t be told what is in, at the moment that is being played
}

// Link links the files of a journal. AsOf, if it is given, is the last day, or the path of the last entry, that counts: later entries
// are left out. The bodies of entries are left to [Journal.LinkBodies]; they may be read meanwhile.
func Link(s *Sources, asOf AsOf) (*Journal, []source.Finding) {
	l := &linker{sources: s, journal: &Journal{
		Build: s.Build, Hide: map[string]bool{}, places: map[string]*place{}, late: map[string]bool{}, addresses: map[string]*Entry{},
		parts: map[string]*Part{}, tools: map[string]*Tool{}, entries: map[string]*Entry{},
	}}
	l.spots, l.told, l.pulledOnce, l.loggedOnce, l.secondTold, l.alike, l.fits = map[string]*spot{}, map[teller]*Value{}, map[string]pulledFile{}, map[int][]loggedFile{}, map[string]bool{}, map[string]*alike{}, 1
	l.build()
	l.sheetLimits()
	l.allParts()
	l.allTools()
	l.allEntries(asOf)
	l.withheld()
	l.fuelling()
	l.gather()
	l.play()
	l.settle()
	l.today(asOf)
	for i := range l.findings {
		l.findings[i].Entry = entryOf(l.findings[i])
	}
	return l.journal, l.findings
}

// today finds the day as of which things are due: never one before the newest entry that counts.
func (l *linker) today(asOf AsOf) {
	l.journal.Asked, l.journal.Today = asOf.Day, asOf.Day
	for _, e := range l.journal.Entries {
		if !e.Plan && e.Date.CompareDay(l.journal.Today) > 0 {
			l.journal.Today = e.Date
		}
	}
}

// entryOf returns the entry that a finding stands in, if it stands in one.
func entryOf(f source.Finding) string {
	if name, ok := strings.CutPrefix(f.At.File.Name, "entries/"); ok && f.Entry == "" {
		return strings.TrimSuffix(name, ".md")
	}
	return f.Entry
}

// AsOf is the moment up to which a journal counts: a day, or an entry. The zero value is no end.
type AsOf struct {
	Day   parse.Date
	Entry string
}

func (l *linker) report(rule string, severity source.Severity, at source.Range, subject, message, do string, notes ...source.Remark) *source.Finding {
	return l.add(source.Finding{Rule: rule, Severity: severity, At: at, Subject: subject, Message: message, Do: do, Notes: notes})
}

// add adds a finding, and returns it for what it is to say besides: before the next is added.
func (l *linker) add(f source.Finding) *source.Finding {
	l.findings = append(l.findings, f)
	return &l.findings[len(l.findings)-1]
}

func (l *linker) slip(v *parse.Value, slip *quantity.Slip, subject string) {
	l.findings = append(l.findings, v.Finding(slip, subject))
}

// resolve chooses the unit of a value and reports why it can't.
func (l *linker) resolve(v *parse.Value, want quantity.Want, subject string) (quantity.Quantity, bool) {
	if len(v.Repeats) > 0 {
		l.report("bad-quantity", source.Error, v.At, subject, fmt.Sprintf("`%s` holds %d figures; it wants one", subject, len(v.Repeats)), "write one figure")
		return quantity.Quantity{}, false
	}
	if v.Kind == quantity.Words || v.Kind == quantity.Blank {
		l.report("bad-quantity", source.Error, v.At, subject, fmt.Sprintf("`%s` is not a quantity", v.Text), "write a number and its unit")
		return quantity.Quantity{}, false
	}
	q, slip := v.Resolve(want)
	if slip != nil {
		l.slip(v, slip, subject)
		return quantity.Quantity{}, false
	}
	return q, true
}

func (l *linker) withheld() {
	broken := map[string]bool{}
	for _, f := range l.sources.Limits {
		broken["limits"] = broken["limits"] || !f.Read
	}
	for _, f := range l.sources.Parts {
		broken["parts"] = broken["parts"] || !f.Read
	}
	for _, f := range l.sources.Tools {
		broken["tools"] = broken["tools"] || !f.Read
	}
	for _, e := range l.journal.Entries {
		broken["entries"] = broken["entries"] || e.Fields == nil
	}
	for _, kind := range []string{"limits", "parts", "tools", "entries"} {
		if broken[kind] {
			l.journal.Withheld = append(l.journal.Withheld, kind)
		}
	}
}

func (l *linker) build() {
	j, f := l.journal, l.sources.Build.Fields
	j.Units = unitsOf(f)
	machine := f.Table("machine")
	j.Machine = machine.Text("name").Text
	j.Year, _ = machine.Whole("year")
	j.Title = f.Text("title").Text
	if j.Title == "" {
		j.Title = j.Machine
	}
	if j.Title == "" {
		j.Title = "Build journal"
	}
	j.URL, _, _ = SiteAddress(f.Text("url").Text)
	j.Theme = l.sources.Theme
	j.Meter = parse.UnitSpelled("km")
	if unit := machine.Text("meter").Text; unit != "" {
		j.Meter = parse.UnitSpelled(unit)
	}
	for _, name := range f.Table("engine").Names("cylinders") {
		j.Cylinders = append(j.Cylinders, name.Name)
	}
	for _, name := range f.Table("site").Names("hide") {
		j.Hide[name.Name] = true
	}
	if goals := f.Get("goals"); goals != nil {
		for i := range goals.Readings {
			r := &goals.Readings[i]
			if r.Unread || r.Value.IsBlank() {
				continue
			}
			if q, ok := l.resolve(&r.Value, j.wantHeld(r.Path, r.Value.Written().Units), r.Path); ok {
				j.Goals = append(j.Goals, Goal{Path: r.Path, Quantity: q, PathAt: r.PathAt, At: r.Value.At})
			}
		}
	}
}

func (l *linker) sheetLimits() {
	file := map[*parse.Limit]*source.File{}
	var all []*parse.Limit
	for _, f := range l.sources.Limits {
		for _, limit := range f.Limits {
			file[limit] = f.File
			all = append(all, limit)
		}
	}
	l.journal.sheetLimits = l.tree(all, file, nil)
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.SortFunc(keys, comparePaths)
	return keys
}

func (l *linker) allEntries(asOf AsOf) {
	var dated, plans []*Entry
	for i, p := range l.sources.Entries {
		e := l.entry(p)
		e.number = i
		l.journal.Tags = append(l.journal.Tags, e.Tags...)
		if e.Plan {
			plans = append(plans, e)
		} else {
			dated = append(dated, e)
		}
	}
	slices.Sort(l.journal.Tags)
	l.journal.Tags = slices.Compact(l.journal.Tags)
	slices.SortFunc(dated, compareEntries)
	slices.SortFunc(plans, compareEntries)
	dated = l.upTo(dated, asOf)
	l.journal.Entries = append(dated, plans...)
	for i, e := range l.journal.Entries {
		e.Index = i
		l.journal.entries[e.Path] = e
	}
	l.doubtMeters()
	addresses := map[string]*Entry{}
	for _, path := range sortedKeys(l.journal.entries) {
		e := l.journal.entries[path]
		if first := addresses[e.Address()]; first != nil {
			l.report("same-address", source.Error, e.File.Whole(), e.Path, fmt.Sprintf("the entry would stand at the same address as `%s`", first.File.Name), "rename one of the two: case and folders are folded in addresses")
			l.journal.addresses[e.Address()] = nil
			continue
		}
		addresses[e.Address()] = e
		l.journal.addresses[e.Address()] = e
	}
}

// upTo leaves out the entries after the moment that counts.
func (l *linker) upTo(dated []*Entry, asOf AsOf) []*Entry {
	for i, e := range dated {
		late := !asOf.Day.IsZero() && e.Date.CompareDay(asOf.Day) > 0
		if late || asOf.Entry != "" && i > 0 && dated[i-1].Path == asOf.Entry {
			for _, gone := range dated[i:] {
				l.journal.late[gone.Address()] = true
			}
			return dated[:i:i]
		}
	}
	return dated
}

// compareEntries orders entries by day, those without a time of day first, then by time, then by path with digits as numbers.
func compareEntries(a, b *Entry) int {
	if c := a.Date.CompareDay(b.Date); c != 0 {
		return c
	}
	if c := strings.Compare(a.Date.Time, b.Date.Time); c != 0 {
		return c
	}
	return compareNatural(a.Path, b.Path)
}

// compareNatural compares texts with runs of digits as numbers; where that finds no difference, by bytes.
func compareNatural(a, b string) int {
	x, y := a, b
	for x != "" && y != "" {
		if isDigit(x[0]) && isDigit(y[0]) {
			m, n := digits(x), digits(y)
			p, q := strings.TrimLeft(m, "0"), strings.TrimLeft(n, "0")
			if len(p) != len(q) {
				return len(p) - len(q)
			}
			if c := strings.Compare(p, q); c != 0 {
				return c
			}
			x, y = x[len(m):], y[len(n):]
			continue
		}
		if x[0] != y[0] {
			return int(x[0]) - int(y[0])
		}
		x, y = x[1:], y[1:]
	}
	if len(x) != len(y) {
		return len(x) - len(y)
	}
	return strings.Compare(a, b)
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

func digits(text string) string {
	for i := range len(text) {
		if !isDigit(text[i]) {
			return text[:i]
		}
	}
	return text
}

func (l *linker) entry(decoded *parse.Entry) *Entry {
	own := *decoded // readings from CSV files are added to the journal's own copy
	p := &own
	p.Found, p.Set = slices.Clip(p.Found), slices.Clip(p.Set)
	e := &Entry{Entry: p, Plan: p.Date.IsZero() && !p.DateBad}
	if p.Fields == nil {
		return e
	}
	e.Meter, e.MeterWas = l.meter(p, "meter"), l.meter(p, "meter-was")
	if v := p.Fields.Value("engine-temp"); v != nil {
		if q, slip := v.Resolve(quantity.Want{Dimensions: []quantity.Dimension{quantity.Temperature}}); slip == nil {
			e.EngineTemp = &q
		}
	}
	e.Bought, e.Fitted, e.Removed = l.refs(p, "bought"), l.refs(p, "fitted"), l.refs(p, "removed")
	e.With = l.refs(p, "with")
	for i := range p.Fields.Tables("spent") {
		table := &p.Fields.Tables("spent")[i]
		price := table.Value("price")
		if price == nil {
			continue
		}
		if q := l.money(price, "spent"); q != nil {
			part := table.Name("part")
			e.Spent = append(e.Spent, Spent{For: table.Text("for").Text, Price: *q, Part: Ref{Name: part, Part: l.journal.parts[part.Name]}, At: price.At})
		}
	}
	for _, tag := range p.Fields.Names("tags") {
		e.Tags = append(e.Tags, tag.Name)
	}
	return e
}

func (l *linker) meter(p *parse.Entry, name string) *quantity.Quantity {
	v := p.Fields.Value(name)
	if build := l.journal.Build.Fields; v == nil || build == nil || build.Table("machine").IsBad("meter") {
		return nil // what the meter counts can't be read
	}
	unit := l.journal.Meter
	if q, ok := l.resolve(v, quantity.Want{Dimensions: []quantity.Dimension{unit.Dimension}, Bare: unit}, name); ok {
		return &q
	}
	return nil
}

func (l *linker) refs(p *parse.Entry, key string) []Ref {
	var refs []Ref
	for _, name := range p.Fields.Names(key) {
		refs = append(refs, Ref{Name: name, Part: l.journal.parts[name.Name], Tool: l.journal.tools[name.Name]})
	}
	return refs
}

// address folds a path below `entries/` to the name of a page.
func address(path string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(path) {
		switch {
		case r == '/':
			b.WriteByte('.')
		case r == ' ' || r == '_':
			b.WriteByte('-')
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}
