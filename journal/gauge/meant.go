package gauge

import (
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
)

// meant returns the path that a shortened one means: each of its words begins a word of the path, in order.
func meant(j *model.Journal, typed string) (string, error) {
	path := parse.FoldPath(typed)
	known := slices.Concat(j.Read(), j.Positions.All())
	for _, l := range j.Limits {
		if !l.EachCylinder {
			known = append(known, l.Path)
		}
		known = append(known, j.Positions.Below(l.Path)...)
	}
	slices.Sort(known)
	known = slices.DeleteFunc(slices.Compact(known), func(s string) bool { return s == "" })
	if slices.Contains(known, path) {
		return path, nil
	}
	var fits []string
	for _, k := range known {
		if shortens(strings.Split(path, "."), strings.Split(k, ".")) {
			fits = append(fits, k)
		}
	}
	// Of `lash.intake` and what is below it the first is meant.
	least := slices.DeleteFunc(slices.Clone(fits), func(k string) bool {
		return slices.ContainsFunc(fits, func(above string) bool { return strings.HasPrefix(k, above+".") })
	})
	switch {
	case len(least) == 1:
		return least[0], nil
	case len(least) == 0:
		return path, nil // nothing is known of it: it has no limit
	}
	return "", fmt.Errorf("`%s` may mean %s", typed, strings.Join(least[:min(8, len(least))], ", "))
}

// shortens reports whether each of the words begins one of the segments, in order.
func shortens(words, segments []string) bool {
	for _, word := range words {
		i := slices.IndexFunc(segments, func(segment string) bool { return strings.HasPrefix(segment, word) })
		if i < 0 || word == "" {
			return false
		}
		segments = segments[i+1:]
	}
	return true
}
