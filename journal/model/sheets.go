package model

import (
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// definedTwice reports a name that two sheets give to a part, or to a tool.
func (l *linker) definedTwice(what, typed string, at, first source.Range) {
	l.report("defined-twice", source.Error, at, parse.Fold(typed), fmt.Sprintf("the %s `%s` is defined twice", what, typed), "keep one of the two, or rename it",
		source.Remark{At: first, Message: "the first one"})
}

func (l *linker) allParts() {
	for _, f := range l.sources.Parts {
		for _, p := range f.Parts {
			if first := l.journal.parts[p.Name]; first != nil {
				l.definedTwice("part", p.Typed, p.NameAt, first.NameAt)
				continue
			}
			l.part(p)
		}
	}
	slices.SortFunc(l.journal.Parts, func(a, b *Part) int { return strings.Compare(a.Name, b.Name) })
}

func (l *linker) part(p *parse.Part) {
	j := l.journal
	part := &Part{Part: p, Title: p.Fields.Text("title").Text, Slot: p.Fields.Name("slot").Name}
	if part.Title == "" {
		part.Title = p.Typed
	}
	if v := p.Fields.Value("price"); v != nil {
		if part.Price = l.money(v, p.Name); part.Price != nil && part.Price.SI() < 0 {
			l.slip(v, &quantity.Slip{Kind: "bad-quantity", End: len(v.Text), Message: fmt.Sprintf("`%s` is a price below nought", v.Text), Do: "check its sign; what came back for a part that was sold is `[[spent]]` of an entry"}, p.Name)
			part.Price = nil
		}
	}
	if f := p.Fields.Get("brings"); f != nil {
		part.Brings = f.Readings
	}
	var limits []*parse.Limit
	file := map[*parse.Limit]*source.File{}
	if f := p.Fields.Get("limits"); f != nil {
		limits = f.Limits
		for _, limit := range limits {
			file[limit] = p.File
		}
	}
	j.parts[p.Name] = part
	j.Parts = append(j.Parts, part)
	part.limits = l.tree(limits, file, part)
	j.partsLimit = j.partsLimit || len(part.limits.byPath) > 0
	for _, path := range sortedKeys(part.limits.byPath) {
		part.Limits = append(part.Limits, part.limits.byPath[path])
	}
}

func (l *linker) money(v *parse.Value, subject string) *quantity.Quantity {
	if l.journal.Build.Fields == nil || l.journal.Units.Unread[quantity.Money] {
		return nil
	}
	want := quantity.Want{Dimensions: []quantity.Dimension{quantity.Money}, Money: l.journal.Units.Currency}
	if want.Money != "" {
		want.Bare = parse.UnitSpelled(want.Money)
	}
	if q, ok := l.resolve(v, want, subject); ok {
		return &q
	}
	return nil
}

func (l *linker) allTools() {
	for _, f := range l.sources.Tools {
		for _, t := range f.Tools {
			if first := l.journal.tools[t.Name]; first != nil {
				l.definedTwice("tool", t.Typed, t.NameAt, first.NameAt)
				continue
			}
			l.tool(t)
		}
	}
	slices.SortFunc(l.journal.Tools, func(a, b *Tool) int { return strings.Compare(a.Name, b.Name) })
}

func (l *linker) tool(t *parse.Tool) {
	tool := &Tool{Tool: t, Title: t.Fields.Text("title").Text, For: t.Fields.Names("for")}
	tool.Unread = t.Fields.IsBad("for", "range", "resolution", "error", "error-of", "uncertainty", "repeatability")
	if tool.Title == "" {
		tool.Title = t.Typed
	}
	dimensions := tool.dimensions()
	figure := func(name string) *quantity.Quantity {
		v := t.Fields.Value(name)
		if v == nil {
			return nil
		}
		for _, share := range []quantity.Dimension{quantity.Pure, quantity.TemperatureStep} {
			if q, slip := v.Resolve(quantity.Want{Dimensions: []quantity.Dimension{share}}); slip == nil && (share == quantity.Pure || name != "range" && slices.Contains(dimensions, quantity.Temperature)) {
				return &q
			}
		}
		if q, ok := l.resolve(v, quantity.Want{Dimensions: dimensions}, t.Name); ok {
			return &q
		}
		tool.Unread = true
		return nil
	}
	off := func(name string) *quantity.Quantity {
		q := figure(name)
		if q == nil || !tool.isSenseless(*q) {
			return q
		}
		v := t.Fields.Value(name)
		l.slip(v, &quantity.Slip{Kind: "impossible", End: len(v.Text), Message: fmt.Sprintf("`%s` would be off by %s: half of what it reads, or more", t.Name, q.Shown()), Do: "check the number and its unit: a tool so far off tells nothing"}, t.Name)
		tool.Unread = true
		return nil
	}
	tool.Range, tool.Resolution, tool.Length = figure("range"), figure("resolution"), l.length(t, "length")
	tool.Error, tool.Uncertainty, tool.Repeatability = off("error"), off("uncertainty"), off("repeatability")
	if of := t.Fields.Text("error-of"); of.Text == "maximum" && (tool.Range == nil || !tool.Range.HasHigh) && !t.Fields.IsBad("range") && !tool.Unread {
		l.report("missing-key", source.Error, of.At, t.Name, "the maximum that the error is a share of is not given", "add `range`: from the least to the most that it reads")
		tool.Unread = true
	}
	leaves := t.Fields.Values("leaves")
	for i := range leaves {
		if q, slip := leaves[i].Resolve(quantity.Want{Dimensions: []quantity.Dimension{quantity.Length}}); slip == nil {
			tool.Leaves = append(tool.Leaves, q)
		}
	}
	l.journal.tools[t.Name] = tool
	l.journal.Tools = append(l.journal.Tools, tool)
}

// dimensions returns what the tool can read in, by the paths that it is for.
func (t *Tool) dimensions() []quantity.Dimension {
	var all []quantity.Dimension
	for _, path := range t.For {
		if pattern := parse.FindPattern(path.Name); pattern != nil {
			all = append(all, pattern.Dimensions...)
		}
	}
	if slices.Contains(all, quantity.Lambda) {
		all = append(all, quantity.AirFuel) // meters of the mixture show either
	}
	return all
}

// senselessShare is the share of a reading, or of the whole scale, from which on a tool's error can't be meant: common practice, no source.
const senselessShare = 0.5

// isSenseless reports whether a tool can't be so far off as a figure says.
func (t *Tool) isSenseless(off quantity.Quantity) bool {
	share := off.SI()
	if off.Unit.Dimension != quantity.Pure {
		if t.Range == nil || !t.Range.HasHigh || t.Range.Unit.Dimension != off.Unit.Dimension || off.Unit.Offset != 0 || !(t.Range.HighSI() > 0) {
			return false
		}
		share /= t.Range.HighSI()
	}
	return quantity.Compare(share, senselessShare, 0) >= 0
}

func (l *linker) length(t *parse.Tool, name string) *quantity.Quantity {
	v := t.Fields.Value(name)
	if v == nil {
		return nil
	}
	q, slip := v.Resolve(quantity.Want{Dimensions: []quantity.Dimension{quantity.Length}})
	if slip != nil {
		return nil // the decoder has reported it
	}
	return &q
}

// Reads reports whether the tool is for a path.
func (t *Tool) Reads(path string) bool {
	for _, p := range t.For {
		if parse.IsAtOrBelow(path, p.Name) {
			return true
		}
	}
	return false
}
