package model

import (
	"slices"

	"example.org/locknut/journal/parse"
)

// isToolUnknown reports whether an entry used something that can't be told to be a tool, or for what: it may have taken any of its readings.
func (j *Journal) isToolUnknown(e *Entry) bool {
	return e.Fields.IsBad("with") || slices.ContainsFunc(e.With, func(r Ref) bool { return r.Tool == nil || r.Tool.Fields.IsBad("for") })
}

// OutOfReach returns the tools of the value's entry that are for it where there are several, and its figure, or what the wrench was set to, lies beyond the
// scale of each; nil where it may have been one of them.
func (v *Value) OutOfReach() []*Tool {
	if v.Tool != nil || v.Entry == nil || v.IsToolNamed() || parse.IsAtOrBelow(v.Path, "setting") {
		return nil
	}
	q := v.Quantity
	if v.Setting() != nil {
		q = v.Setting().Quantity
	}
	tools := v.Entry.Tools(v.Path)
	if len(tools) < 2 || slices.ContainsFunc(tools, func(t *Tool) bool { return t.Range == nil || t.Holds(q) }) {
		return nil
	}
	return tools
}
