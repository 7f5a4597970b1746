package derive

import (
	"slices"
	"strings"

	"example.org/locknut/journal/parse"
)

// comesFrom are the paths that the numbers come from of families whose numbers every entry's page shows, or that an adjuster turns.
var comesFrom = map[string][]string{
	"clearance":         {"bore", "piston", "journal", "bearing", "pin"},
	"displacement":      {"engine.bore", "engine.stroke", "bore"},
	"compression-ratio": {"engine.bore", "engine.stroke", "engine.chamber", "engine.deck", "engine.gasket", "engine.dome", "engine.dish"},
	"lash-deviation":    {"lash"},
	"adjuster-turn":     {"lash", "engine.rocker-ratio"},
	"shim-to-fit":       {"lash", "shim", "engine.rocker-ratio"},
	"stage-gain":        {"power.peak"},
	"cumulative-gain":   {"power.peak"},
	"part-gain":         {"power.peak"},
}

// From returns the paths that the family's numbers come from: those at, above and below them feed it.
func (f *Family) From() []string {
	if len(f.Of) > 0 {
		return f.Of
	}
	return comesFrom[f.Name]
}

// Feeds reports whether what stands at a path, or right above or below it, goes into the family's numbers.
func (f *Family) Feeds(path string) bool {
	return slices.ContainsFunc(f.From(), func(of string) bool { return parse.IsAtOrBelow(of, path) || parse.IsAtOrBelow(path, of) })
}

// WorksOut reports whether the family's numbers stand at paths of a sort, as the examples on its page do.
func (f *Family) WorksOut(fits func(path string) bool) bool {
	inside := false
	for line := range strings.Lines(Page(f.Name)) {
		line = strings.TrimRight(line, "\n")
		if strings.HasPrefix(line, "```") {
			inside = line == "```numbers"
			continue
		}
		path, _, _ := strings.Cut(line, " ")
		if path = strings.TrimSuffix(path, ":"); inside && path != "" && fits(path) {
			return true
		}
	}
	return false
}
