package report

import (
	"slices"
	"strings"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/parse"
)

// uses writes which numbers are worked out at a path and from what, which its values go into, and where the limits stand that hold it.
func (path Path) uses(p *pager) {
	var workedBy, from, into []string
	for i := range derive.All {
		f := &derive.All[i]
		if f.WorksOut(path.Fits) {
			workedBy = append(workedBy, f.Name)
			from = append(from, f.Of...)
		} else if !path.Worked && !path.Apart && f.Feeds(path.told()) {
			into = append(into, f.Name)
		}
	}
	p.fact("worked by", strings.Join(workedBy, ", "))
	slices.Sort(from)
	p.fact("from", strings.Join(slices.Compact(from), ", "))
	p.fact("goes into", strings.Join(into, ", "))
	if !strings.HasPrefix(path.Path, "setting.") {
		p.fact("limits", path.limits())
	}
}

// told is the path that was asked for, else the row's words before any that can be chosen.
func (path Path) told() string {
	if path.Asked != "" {
		return path.Asked
	}
	var words []string
	for _, word := range strings.Split(path.Path, ".") {
		if strings.ContainsAny(word, "(…") || word == "CYL" || word == "NAME" {
			break
		}
		words = append(words, word)
	}
	return strings.Join(words, ".")
}

// limits says where a limit of a path may stand.
func (path Path) limits() string {
	words := "at this path or above it, in limits.toml or a part's `limits`; the deepest holds"
	if path.NamesBelowCylinder() {
		all := strings.Replace(path.Path, "CYL.", "", 1)
		words += "; one at " + all + " holds for every cylinder"
	}
	if parse.IsAtOrBelow(path.Path, "clearance") {
		words += "; one with `of` is held by the difference of two paths"
	}
	return words
}
