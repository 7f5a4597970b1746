package derive

import (
	"slices"
	"strings"

	"example.org/locknut/journal/parse"
)

// Feeds reports whether what stands at a path, or right above or below it, goes into the family's numbers.
func (f *Family) Feeds(path string) bool {
	return slices.ContainsFunc(f.Of, func(of string) bool { return parse.IsAtOrBelow(of, path) || parse.IsAtOrBelow(path, of) })
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
