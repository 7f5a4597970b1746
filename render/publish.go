package render

import (
	"path"
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

// publication says what of a journal may be published. Where it is not clear whether something is hidden, it is.
type publication struct {
	journal  *model.Journal
	entries  []*model.Entry // published, in the journal's order
	shown    map[*model.Entry]bool
	withheld []string        // texts that tell of a hidden entry or tool: a finding that holds one is not published
	private  map[string]bool // files that only hidden entries name
}

// kinds are the words that `hide` knows; every other one is a tag.
var kinds = []string{"spend", "hours", "places", "photos", "tools", "accepted"}

func publish(result *journal.Result) *publication {
	p := &publication{journal: result.Journal, shown: map[*model.Entry]bool{}, private: map[string]bool{}}
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
		p.entries = append(p.entries, e)
		p.shown[e] = true
		for _, name := range dataOf(e) {
			public[name] = true
		}
	}
	for name := range public {
		delete(p.private, name)
	}
	p.hidePaths()
	if p.hides("tools") {
		for _, tool := range p.journal.Tools {
			p.withheld = append(p.withheld, tool.Name, tool.Typed, tool.Title)
		}
	}
	return p
}

// hidePaths withholds the paths that only hidden entries name.
func (p *publication) hidePaths() {
	if len(p.entries) == len(p.journal.Entries) {
		return
	}
	public := map[string]bool{}
	for _, l := range p.journal.Limits {
		public[l.Path] = true
	}
	for _, part := range p.journal.Parts {
		for _, r := range part.Brings {
			public[r.Path] = true
		}
	}
	for _, v := range p.journal.Values {
		if v.Entry == nil || p.shown[v.Entry] {
			public[v.Path] = true
		}
	}
	for _, e := range p.journal.Entries {
		for _, r := range slices.Concat(e.Found, e.Set) {
			public[r.Path] = public[r.Path] || p.shown[e]
		}
	}
	for _, path := range sorted(public) {
		if !public[path] {
			p.withheld = append(p.withheld, path)
		}
	}
}

// positions returns the positions at and below a path, less those that only hidden entries name.
func (p *publication) positions(path string) []string {
	var list []string
	for _, position := range p.journal.Positions.Below(path) {
		if !slices.Contains(p.withheld, position) {
			list = append(list, position)
		}
	}
	return list
}

// hides reports whether `hide` names a word.
func (p *publication) hides(word string) bool { return p.journal.Hide[word] }

func (p *publication) hidesEntry(e *model.Entry, unclear map[string]bool) bool {
	if slices.ContainsFunc(e.Tags, p.hides) {
		return true
	}
	return p.hidesTags() && (unclear[e.Path] || e.Fields == nil || e.Fields.Get("tags") == nil && tagsKey.MatchString(headOf(e)))
}

// hidesTags reports whether `hide` names any tag.
func (p *publication) hidesTags() bool {
	for word := range p.journal.Hide {
		if !slices.Contains(kinds, word) {
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
func (p *publication) unclearTags(findings []source.Finding) map[string]bool {
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
	for _, key := range []string{"pulls", "readings", "degreeing", "fuelling"} {
		for _, table := range e.Fields.Tables(key) {
			for _, name := range table.Texts("data") {
				names = append(names, name.Text)
			}
		}
	}
	return names
}

// isMoney reports whether values at a path are sums of money that are not published.
func (p *publication) isMoney(at string) bool {
	if !p.hides("spend") {
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

func (p *publication) showsValue(v *model.Value) bool {
	return (v.Entry == nil || p.shown[v.Entry]) && !(p.hides("spend") && isDimension(v.Quantity.Unit, quantity.Money))
}

func (p *publication) showsLimit(l *model.Limit) bool {
	return !(p.hides("spend") && l.Dimension == quantity.Money)
}

// showsNumber reports whether a number rests on published values only.
func (p *publication) showsNumber(n *derive.Number) bool {
	if n.Entry != nil && !p.shown[n.Entry] || p.hides("spend") && n.Estimate.Dimension == quantity.Money {
		return false
	}
	for _, in := range n.Inputs {
		if in.Value != nil && !p.showsValue(in.Value) || in.Number != nil && !p.showsNumber(in.Number) {
			return false
		}
	}
	return true
}

var (
	spendKey = regexp.MustCompile(`(?i)\b(price|spent)\b["']?\s*(=|\])`)
	hoursKey = regexp.MustCompile(`(?i)\bhours\b["']?\s*=`)
	placeKey = regexp.MustCompile(`(?i)\b(altitude|sea[-_]level)\b["']?\s*=`)
)

// showsFinding reports whether a finding tells nothing that is hidden, in its words or by its place.
func (p *publication) showsFinding(f *source.Finding) bool {
	if f.State == source.Accepted && p.hides("accepted") {
		return false
	}
	if e := p.journal.Entry(f.Entry); e != nil && !p.shown[e] || !p.showsPlace(f.At) {
		return false
	}
	if len(p.journal.Hide) == 0 {
		return true
	}
	for _, text := range p.withheld {
		if text != "" && (strings.Contains(f.Message, text) || strings.Contains(f.Do, text) || f.Subject == text) {
			return false
		}
	}
	line := lineOf(f.At)
	return !(p.hides("spend") && (spendKey.MatchString(line) || f.Subject == "price" || f.Subject == "spent" || p.isMoney(f.Subject)) ||
		p.hides("hours") && (hoursKey.MatchString(line) || f.Subject == "hours") ||
		p.hides("places") && placeKey.MatchString(line) ||
		p.hides("photos") && p.isPicture(f))
}

// showsPlace reports whether a piece of a file belongs to nothing that is hidden.
func (p *publication) showsPlace(at source.Range) bool {
	if at.File == nil {
		return true
	}
	name := at.File.Name
	if below, ok := strings.CutPrefix(name, "entries/"); ok {
		if e := p.journal.Entry(strings.TrimSuffix(below, ".md")); e != nil && !p.shown[e] {
			return false
		}
	}
	if p.private[name] || p.hides("tools") && (name == "tools.toml" || path.Dir(name) == "tools") {
		return false
	}
	hide := p.hideField()
	return hide == nil || hide.At.File != at.File || at.End <= hide.At.Start || hide.At.End <= at.Start
}

func (p *publication) hideField() *parse.Field {
	return p.journal.Build.Fields.Table("site").Get("hide")
}

// lineOf returns the text of the lines that a place stands in.
func lineOf(at source.Range) string {
	if at.File == nil || at.IsWhole() {
		return ""
	}
	text := at.File.Text
	start := strings.LastIndexByte(text[:at.Start], '\n') + 1
	end := strings.IndexByte(text[at.End:], '\n')
	if end < 0 {
		return text[start:]
	}
	return text[start : at.End+end]
}

// isPicture reports whether a finding is about a picture.
func (p *publication) isPicture(f *source.Finding) bool {
	if strings.HasPrefix(f.Subject, "photos/") || f.At.File != nil && strings.HasPrefix(f.At.File.Name, "photos/") || strings.Contains(f.Message, "photos/") {
		return true
	}
	for _, e := range p.journal.Entries {
		if e.File != f.At.File || e.Body == nil {
			continue
		}
		for _, h := range e.Body.Holes {
			if h.Picture && f.At.Start < h.At.End && h.At.Start < f.At.End {
				return true
			}
		}
	}
	return false
}
