package report

import (
	"path"
	"regexp"
	"slices"
	"strings"

	"example.org/locknut/journal"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/rule"
	"example.org/locknut/journal/source"
	"example.org/locknut/journal/upkeep"
)

var (
	spendKey = regexp.MustCompile(`(?i)\b(price|spent)\b["']?\s*(=|\])`)
	hoursKey = regexp.MustCompile(`(?i)\bhours\b["']?\s*=`)
	placeKey = regexp.MustCompile(`(?i)\b(altitude|sea[-_]level)\b["']?\s*=`)
)

// ShowsFinding reports whether a finding tells nothing that is hidden, in its words or by its place.
func (p *Publication) ShowsFinding(f *source.Finding) bool {
	if f.State == source.Accepted && p.Hides("accepted") {
		return false
	}
	if e := p.journal.Entry(f.Entry); e != nil && !p.ShowsEntry(e) || !p.showsPlace(f.At) {
		return false
	}
	if len(p.Entries) < len(p.journal.Entries) && slices.Contains(tellingRules, f.Rule) {
		return false // it may tell the day, the meter or a reading of a hidden entry
	}
	if slices.ContainsFunc(f.Notes, func(r source.Remark) bool { return !p.showsPlace(r.At) }) {
		return false // it rests on what stands there, and its words may tell of it
	}
	if len(p.hide) == 0 {
		return true
	}
	if p.numbers[f.Subject] {
		return false // it tells of a number that is not shown
	}
	for _, text := range p.withheld {
		if text != "" && (strings.Contains(f.Message, text) || strings.Contains(f.Do, text) || f.Subject == text) {
			return false
		}
	}
	line := linesOf(f.At)
	return !(p.Hides("spend") && (spendKey.MatchString(line) || f.Subject == "price" || f.Subject == "spent" || p.IsMoney(f.Subject)) ||
		p.Hides("hours") && (hoursKey.MatchString(line) || f.Subject == "hours") ||
		p.Hides("places") && (placeKey.MatchString(line) || slices.ContainsFunc(f.Notes, func(r source.Remark) bool { return placeKey.MatchString(linesOf(r.At)) })) ||
		p.Hides("photos") && p.isPicture(f))
}

// Findings returns those findings that are published. What there is to do again is told as it is reckoned from what is published.
func (p *Publication) Findings(result *journal.Result, items []upkeep.Item) []source.Finding {
	var list []source.Finding
	add := func(findings []source.Finding, shows func(*source.Finding) bool) {
		for i := range findings {
			if shows(&findings[i]) && p.ShowsFinding(&findings[i]) {
				list = append(list, findings[i])
			}
		}
	}
	isUpkeep := func(f *source.Finding) bool { return slices.Contains(rule.UpkeepRules, f.Rule) }
	if len(p.Entries) == len(p.journal.Entries) && !p.Hides("tools") {
		add(result.Findings, func(*source.Finding) bool { return true })
		return list
	}
	add(result.Findings, func(f *source.Finding) bool { return !isUpkeep(f) })
	add(rule.UpkeepFindings(result.Sums, items), isUpkeep)
	return list
}

// tellingRules are those whose findings, about one entry or one sheet, tell of figures in others.
var tellingRules = []string{"before-bought", "far-off-date", "lash-before-shim", "meter-backwards", "meter-leap", "stale-prose", "suspected-limit", "unlike-fellows"}

// ShowsRemark reports whether a remark tells nothing that is hidden.
func (p *Publication) ShowsRemark(r source.Remark) bool {
	return p.ShowsFinding(&source.Finding{At: r.At, Message: r.Message})
}

// showsPlace reports whether a piece of a file belongs to nothing that is hidden.
func (p *Publication) showsPlace(at source.Range) bool {
	if at.File == nil {
		return true
	}
	name := at.File.Name
	if below, ok := strings.CutPrefix(name, "entries/"); ok {
		if e := p.journal.Entry(strings.TrimSuffix(below, ".md")); e != nil && !p.ShowsEntry(e) {
			return false
		}
	}
	if p.private[name] || p.Hides("tools") && (name == "tools.toml" || path.Dir(name) == "tools") {
		return false
	}
	hide := p.hideField()
	return hide == nil || hide.At.File != at.File || at.End <= hide.At.Start || hide.At.End <= at.Start
}

func (p *Publication) hideField() *parse.Field {
	return p.journal.Build.Fields.Table("site").Get("hide")
}

// linesOf returns the text of the lines that a place stands in.
func linesOf(at source.Range) string {
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
func (p *Publication) isPicture(f *source.Finding) bool {
	if strings.HasPrefix(f.Subject, "photos/") || f.At.File != nil && strings.HasPrefix(f.At.File.Name, "photos/") || strings.Contains(f.Message, "photos/") {
		return true
	}
	for _, e := range p.journal.Entries {
		if e.File != f.At.File {
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
