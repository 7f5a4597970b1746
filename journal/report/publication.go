package report

import (
	"maps"
	"regexp"
	"slices"
	"strings"

	"example.org/locknut/journal"
	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// Publication says what of a journal may be published: on its site, or in an export for others. Where it is not clear whether something is
// hidden, it is. It is put together once, only read from then on, and may be asked from several goroutines.
type Publication struct {
	Entries []*model.Entry // published, in the journal's order

	journal  *model.Journal
	hide     map[string]bool
	shown    []bool               // by index of the entry
	meters   []*quantity.Quantity // what the meter showed, as far as published entries tell it, by index of the entry
	withheld []string             // texts that tell of a hidden entry or tool: a finding that holds one is not published
	private  map[string]bool      // files that only hidden entries name
	paths    map[string]bool      // paths that only hidden entries name
	words    map[string]bool      // words of paths that stand in those alone
	numbers  map[string]bool      // paths of the worked-out numbers that rest on what is hidden
}

// Publish applies what the journal hides.
func Publish(result *journal.Result) *Publication { return publication(result, result.Journal.Hide) }

func publication(result *journal.Result, hide map[string]bool) *Publication {
	p := &Publication{journal: result.Journal, hide: hide, shown: make([]bool, len(result.Journal.Entries)), private: map[string]bool{}}
	unclear := p.unclearTags(result.Findings)
	public := map[string]bool{}
	for _, e := range p.journal.Entries {
		if p.hidesEntry(e, unclear) {
			p.withheld = append(p.withheld, e.Path, e.Title)
			for _, name := range dataOf(e) {
				p.private[name] = true
			}
			continue
		}
		p.Entries = append(p.Entries, e)
		p.shown[e.Index] = true
		for _, name := range dataOf(e) {
			public[name] = true
		}
	}
	for name := range public {
		delete(p.private, name)
	}
	p.hidePictures()
	p.readMeters()
	p.hidePaths()
	p.hideNumbers(result.Numbers)
	if p.Hides("tools") {
		for _, tool := range p.journal.Tools {
			p.withheld = append(p.withheld, tool.Name, tool.Typed, tool.Title)
		}
	}
	return p
}

// hideNumbers finds the numbers as of now that aren't published.
func (p *Publication) hideNumbers(numbers []*derive.Number) {
	if len(p.hide) == 0 {
		return
	}
	p.numbers = map[string]bool{}
	for _, n := range numbers {
		if !p.ShowsNumber(n) {
			p.numbers[n.Path] = true
		}
	}
}

// hidePictures withholds the names of the files that only hidden entries link to.
func (p *Publication) hidePictures() {
	public := map[string]bool{"": true}
	for _, m := range p.journal.Home {
		public[m.File] = true
	}
	for _, e := range p.Entries {
		for _, m := range e.Links {
			public[m.File] = true
		}
	}
	for _, e := range p.journal.Entries {
		for _, m := range e.Links {
			if !p.ShowsEntry(e) && !public[m.File] {
				p.withheld = append(p.withheld, m.File)
			}
		}
	}
}

// readMeters finds what the meter showed at each entry. A figure of a hidden entry would tell when that was, so it stands in for none.
func (p *Publication) readMeters() {
	p.meters = make([]*quantity.Quantity, len(p.journal.Entries))
	var meter *quantity.Quantity
	for _, e := range p.Entries {
		if e.Plan {
			continue
		}
		if e.Meter != nil {
			meter = e.Meter
		}
		p.meters[e.Index] = meter
	}
}

// MeterThen returns what the meter showed at an entry: its own figure, else the last published one before; nil where there is none, and for a
// plan.
func (p *Publication) MeterThen(e *model.Entry) *quantity.Quantity {
	if e == nil {
		return nil
	}
	return p.meters[e.Index]
}

// hidePaths withholds the paths that only hidden entries name.
func (p *Publication) hidePaths() {
	if len(p.Entries) == len(p.journal.Entries) {
		return
	}
	public := p.namedPaths()
	p.paths, p.words = map[string]bool{}, map[string]bool{}
	for _, path := range slices.Sorted(maps.Keys(public)) {
		if !public[path] {
			p.withheld = append(p.withheld, path)
			p.paths[path] = true
			for word := range strings.SplitSeq(path, ".") {
				p.words[word] = true
			}
		}
	}
	for path := range public {
		if public[path] {
			for word := range strings.SplitSeq(path, ".") {
				delete(p.words, word)
			}
		}
	}
	for _, cylinder := range p.journal.Cylinders {
		delete(p.words, cylinder)
	}
}

// namedPaths returns the paths that the journal names, each with whether anything that is published does.
func (p *Publication) namedPaths() map[string]bool {
	public := map[string]bool{}
	for _, l := range p.journal.Limits {
		public[l.Path] = true
	}
	for _, g := range p.journal.Goals {
		public[g.Path] = public[g.Path] || p.ShowsGoal(g)
	}
	for _, part := range p.journal.Parts {
		for _, r := range part.Brings {
			public[r.Path] = true
		}
	}
	for _, v := range p.journal.Values {
		public[v.Path] = public[v.Path] || v.Entry == nil || p.ShowsEntry(v.Entry)
	}
	for _, part := range p.journal.Parts {
		for _, path := range part.Fields.Names("then") {
			public[path.Name] = true
		}
	}
	for _, e := range p.journal.Entries {
		for _, r := range slices.Concat(e.Found, e.Set) {
			public[r.Path] = public[r.Path] || p.ShowsEntry(e)
		}
		for _, path := range e.Fields.Names("expects") {
			public[path.Name] = public[path.Name] || p.ShowsEntry(e)
		}
	}
	return public
}

// ShowsPath reports whether a path is known from what is published, and holds nothing that is hidden.
func (p *Publication) ShowsPath(path string) bool { return !p.paths[path] && !p.IsMoney(path) }

// Positions returns the positions at and below a path, less those that only hidden entries name.
func (p *Publication) Positions(path string) []string {
	var list []string
	for _, position := range p.journal.Positions.Below(path) {
		if !p.paths[position] {
			list = append(list, position)
		}
	}
	return list
}

// Hides reports whether `hide` names a word.
func (p *Publication) Hides(word string) bool { return p.hide[word] }

func (p *Publication) hidesEntry(e *model.Entry, unclear map[string]bool) bool {
	return slices.ContainsFunc(e.Tags, p.Hides) || p.isUnclear(e, unclear)
}

// isUnclear reports whether an entry may have a tag that `hide` names and that can't be read; unclear are those whose tags could not all be read.
func (p *Publication) isUnclear(e *model.Entry, unclear map[string]bool) bool {
	return p.hidesTags() && (unclear[e.Path] || e.Fields == nil || e.Fields.Get("tags") == nil && tagsKey.MatchString(headOf(e)))
}

// hidesTags reports whether `hide` names any tag.
func (p *Publication) hidesTags() bool {
	for word := range p.hide {
		if !slices.Contains(parse.HideWords, word) {
			return true
		}
	}
	return false
}

// tagsKey finds a key of an entry that was to hold its tags, though it could not be read.
var tagsKey = regexp.MustCompile(`(?mi)^[ \t]*["']?tags?["']?[ \t]*=`)

func headOf(e *model.Entry) string {
	return e.File.Text[min(e.Fence.End, e.BodyFrom):e.BodyFrom]
}

// unclearTags returns the entries whose tags could not all be read: one of those might be hidden.
func (p *Publication) unclearTags(findings []source.Finding) map[string]bool {
	unclear := map[string]bool{}
	for _, f := range findings {
		e := p.journal.Entry(f.Entry)
		if e == nil {
			continue
		}
		tags := e.Fields.Get("tags")
		inTags := tags != nil && f.At.File == e.File && f.At.Start < tags.At.End && tags.At.Start < f.At.End
		if inTags || f.Subject == "tags" || (f.Rule == "unknown-key" || f.Rule == "misplaced-key") && source.Nearest(f.Subject, []string{"tags"}) != "" {
			unclear[e.Path] = true
		}
	}
	return unclear
}

// dataOf returns the names of the files that an entry takes figures from.
func dataOf(e *model.Entry) []string {
	var names []string
	for _, key := range parse.DataTables {
		for _, table := range e.Fields.Tables(key) {
			for _, name := range table.Texts("data") {
				names = append(names, name.Text)
			}
		}
	}
	return names
}

// IsMoney reports whether values at a path are sums of money that are not published.
func (p *Publication) IsMoney(at string) bool {
	if !p.Hides("spend") {
		return false
	}
	for _, v := range p.journal.History(at) {
		if isDimension(v.Quantity.Unit, quantity.Money) {
			return true
		}
	}
	return false
}

func isDimension(u *quantity.Unit, d quantity.Dimension) bool { return u != nil && u.Dimension == d }

// ShowsEntry reports whether an entry is published; nil is none.
func (p *Publication) ShowsEntry(e *model.Entry) bool { return e != nil && p.shown[e.Index] }

// ShowsValue reports whether a value is published.
func (p *Publication) ShowsValue(v *model.Value) bool {
	return (v.Entry == nil || p.ShowsEntry(v.Entry)) && !(p.Hides("spend") && isDimension(v.Quantity.Unit, quantity.Money)) && !(v.TellsPlace() && p.Hides("places"))
}

// ShowsLimit reports whether a limit is published.
func (p *Publication) ShowsLimit(l *model.Limit) bool {
	return !(p.Hides("spend") && l.Dimension == quantity.Money)
}

// ShowsGoal reports whether a goal is published.
func (p *Publication) ShowsGoal(g model.Goal) bool {
	return !(p.Hides("spend") && isDimension(g.Quantity.Unit, quantity.Money))
}

// ShowsNumber reports whether a number rests on published values only.
func (p *Publication) ShowsNumber(n *derive.Number) bool {
	if len(p.hide) == 0 {
		return true
	}
	if n.Entry != nil && !p.ShowsEntry(n.Entry) || p.Hides("spend") && n.Estimate.Dimension == quantity.Money {
		return false
	}
	for _, in := range n.Inputs {
		if in.Value != nil && !p.ShowsValue(in.Value) || in.Number != nil && !p.ShowsNumber(in.Number) {
			return false
		}
	}
	if slices.ContainsFunc(n.Told, func(v *model.Value) bool { return !p.ShowsValue(v) }) {
		return false
	}
	if len(p.words) > 0 { // its own path may end as one that only a hidden entry names
		for word := range strings.SplitSeq(n.Path, ".") {
			if p.words[word] {
				return false
			}
		}
	}
	return true
}
