package model

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"example.org/locknut/journal/markdown"
	"example.org/locknut/journal/parallel"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// LinkBodies gives a linked journal the bodies of its entries, in the order of the sources, and resolves our own links in them and in the words
// for the front page.
func (j *Journal) LinkBodies(s *Sources, bodies []*markdown.Body) {
	if home := s.Build.Home; home != nil {
		j.Home = j.resolveAll(home, nil, s.Files)
	}
	parallel.Each(len(j.Entries), func(i int) {
		e := j.Entries[i]
		e.takeBody(bodies[e.number])
		e.Links = j.resolveAll(e.Body, e, s.Files)
	})
	shown := map[string]bool{}
	for _, m := range j.Home {
		shown[m.File] = true
	}
	for _, e := range j.Entries {
		for _, m := range e.Links {
			shown[m.File] = true
		}
	}
	j.Photos = slices.Clone(s.Photos)
	for i := range j.Photos {
		j.Photos[i].Shown = shown[j.Photos[i].File.Name]
	}
}

// takeBody gives an entry its body, and its title from there where the head gives none.
func (e *Entry) takeBody(body *markdown.Body) {
	e.Body = body
	e.Title, e.TitleAt = e.Fields.Text("title").Text, e.Fields.Text("title").At
	if e.Title == "" && e.Body.Title != nil {
		e.Title, e.TitleAt = e.Body.Title.Text, e.Body.Title.At
	}
	if e.Title == "" {
		e.Title = path.Base(e.Path)
	}
}

// resolveAll resolves the links of a body.
func (j *Journal) resolveAll(body *markdown.Body, in *Entry, files map[string]bool) []*Mention {
	links := make([]*Mention, len(body.Holes))
	for i := range body.Holes {
		links[i] = j.resolve(&body.Holes[i], in, files)
	}
	return links
}

// resolve finds what a link of ours leads to. The entry is the one that it stands in, nil for the front page; files are those below
// the journal. Links nearly right are given a better target in Near.
func (j *Journal) resolve(h *markdown.Hole, in *Entry, files map[string]bool) *Mention {
	link := &Mention{Hole: h.N, Entry: in}
	name := parse.Fold(h.Target)
	switch h.Scheme {
	case markdown.SchemePart:
		link.Part = j.parts[name]
		if link.Part == nil {
			link.missing("part", h.Target, name, j.partNames())
		}
	case markdown.SchemeTool:
		link.Tool = j.tools[name]
		if link.Tool == nil {
			link.missing("tool", h.Target, name, sortedKeys(j.tools))
		}
	case markdown.SchemeEntry:
		link.Target = j.findEntry(h.Target)
		if link.Late = link.Target == nil && j.isLate(h.Target); link.Target == nil && !link.Late {
			link.missing("entry", h.Target, h.Target, sortedKeys(j.entries))
		}
	case markdown.SchemeLimit:
		j.resolveLimit(link, h.Target)
	case markdown.SchemeValue:
		j.resolveValue(link, h.Target)
	case markdown.SchemeChart:
		j.resolveChart(link, h.Target)
	default:
		j.resolveFile(link, h.Target, files)
	}
	return link
}

// missing says that a link leads nowhere, and what it was most likely meant to lead to: a known word that is nearly the one sought, or the only
// one that it is a part of.
func (link *Mention) missing(kind, target, sought string, known []string) {
	link.Broken = fmt.Sprintf("there is no %s `%s`", kind, target)
	if link.Near = source.Nearest(sought, known); link.Near != "" || len(sought) < 3 {
		return
	}
	var holding []string
	for _, word := range known {
		if strings.Contains(word, sought) {
			holding = append(holding, word)
		}
	}
	if len(holding) == 1 {
		link.Near = holding[0]
	}
}

func (j *Journal) partNames() []string {
	names := make([]string, len(j.Parts))
	for i, p := range j.Parts {
		names[i] = p.Name
	}
	return names
}

// findEntry returns the entry of a path, or the only one that has its address.
func (j *Journal) findEntry(target string) *Entry {
	target = strings.TrimSuffix(strings.TrimPrefix(target, "entries/"), ".md")
	if e := j.entries[target]; e != nil {
		return e
	}
	return j.addresses[address(target)]
}

// isLate reports whether a target names an entry after the moment that counts.
func (j *Journal) isLate(target string) bool {
	return j.late[address(strings.TrimSuffix(strings.TrimPrefix(target, "entries/"), ".md"))]
}

func (j *Journal) resolveLimit(link *Mention, target string) {
	link.Path = parse.FoldPath(target)
	fitted := j.Fitted
	if link.Entry != nil {
		fitted = link.Entry.FittedThen
	}
	if limits := j.governing(link.Path, fitted); len(limits) > 0 {
		link.Limit = limits[0]
		return
	}
	var known []string
	for _, limit := range j.Limits {
		if limit.Path == link.Path {
			link.Limit = limit
			return
		}
		known = append(known, limit.Path)
	}
	link.missing("limit at", target, link.Path, known)
}

// resolveValue finds the value that `value:PATH`, `value:found/PATH`, `value:set/PATH` or `value:ENTRY/set/PATH` names: the first as
// the entry left it, on the front page the one in force now.
func (j *Journal) resolveValue(link *Mention, target string) {
	holder, origin, place := splitValue(target)
	link.Path = parse.FoldPath(place)
	in := link.Entry
	if holder != "" {
		if in = j.findEntry(holder); in == nil && j.isLate(holder) {
			link.Late = true
			return
		}
		if in == nil {
			link.missing("entry", holder, holder, sortedKeys(j.entries))
			return
		}
	}
	switch {
	case origin != "":
		if in != nil {
			link.Value = in.reading(Origin(origin), link.Path)
		}
		if link.Value == nil {
			link.Broken = fmt.Sprintf("nothing was %s at `%s` here", origin, place)
		}
	case in == nil:
		link.Value = j.Current(link.Path)
	case in.Plan:
		link.Value = in.reading(Set, link.Path)
		if link.Value == nil {
			link.Value = j.Current(link.Path)
		}
	default:
		link.Value = j.At(link.Path, in)
	}
	if origin == "" && link.Value != nil && j.isUnreadSince(link, in) {
		link.Value, link.Unread = nil, true
		return
	}
	if link.Value == nil && (parse.IsWorked(link.Path) || j.isDifference(link.Path)) {
		link.Worked, link.Broken = true, ""
		return
	}
	sheet := j.Build.Fields == nil && parse.SheetPaths()[link.Path] != nil
	if link.Value == nil && (sheet || j.IsUnread(link.Path)) {
		link.Unread, link.Broken = true, ""
		return
	}
	if link.Value == nil && origin == "" {
		link.Value = j.lastRead(link.Path, in)
	}
	if link.Value == nil && link.Broken == "" {
		link.Broken = fmt.Sprintf("there is no value at `%s`", place)
		known := j.Read()
		for _, l := range j.differences {
			known = append(known, l.Path)
		}
		if near := source.Nearest(link.Path, known); near != "" {
			link.Near = strings.TrimSuffix(target, place) + near
		}
	}
}

// Charts are the names of the charts of more than one path: of the mixture, square by square; of pulls, what they gave over the engine speed, and the curves themselves. Every other chart is named by the path whose readings it shows.
var Charts = []string{"fuelling", "gain", "power"}

func (j *Journal) resolveChart(link *Mention, target string) {
	link.Path = parse.FoldPath(target)
	if slices.Contains(Charts, link.Path) || j.isMeasuredBelow(link.Path) || j.IsUnread(link.Path) || j.IsWithheld("entries") {
		return
	}
	link.missing("chart", target, link.Path, slices.Concat(Charts, j.Read()))
}

// isMeasuredBelow reports whether anything that counts was ever told at a path, or below it.
func (j *Journal) isMeasuredBelow(path string) bool {
	return slices.ContainsFunc(j.Positions.Below(path), func(position string) bool { return len(j.placeAt(position).values) > 0 })
}

// isDifference reports whether a limit at or above a path is held by the difference of two others, so that a number may be worked out there.
func (j *Journal) isDifference(path string) bool {
	return slices.ContainsFunc(j.differences, func(l *Limit) bool { return parse.IsAtOrBelow(path, l.Path) })
}

// lastRead returns the last value that spoke for a path up to the moment that a link speaks of, though it is stale by then.
func (j *Journal) lastRead(path string, in *Entry) *Value {
	until := j.spokenOf(in)
	var last *Value
	for i, position := range j.Positions.Below(path) {
		v := j.newestOf(position, until)
		if v == nil || i > 0 && v != last {
			return nil
		}
		last = v
	}
	return last
}

// spokenOf is the moment that a link to a value speaks of: as the entry left the engine, or in a plan and on the front page, where there is
// none, as it is now.
func (j *Journal) spokenOf(in *Entry) int {
	if in == nil || in.Plan {
		return j.end()
	}
	return j.EndOf(in)
}

// newestOf returns the last value that counts at a position up to a moment, stale or not.
func (j *Journal) newestOf(position string, until int) *Value {
	history := j.placeAt(position).values
	for i := len(history) - 1; i >= 0; i-- {
		if v := history[i]; v.Counts && v.Order <= until {
			return v
		}
	}
	return nil
}

// isUnreadSince reports whether something newer than the value of a link was measured, up to the moment that it speaks of, but can't be
// read.
func (j *Journal) isUnreadSince(link *Mention, in *Entry) bool {
	until := j.spokenOf(in)
	return slices.ContainsFunc(j.Positions.Below(link.Path), func(position string) bool {
		return j.isUnreadBetween(position, link.Value.Order, until)
	})
}

// splitValue takes the target of a value link apart.
func splitValue(target string) (holder, origin, place string) {
	i := strings.LastIndexByte(target, '/')
	if i < 0 {
		return "", "", target
	}
	place = target[i+1:]
	rest := target[:i]
	origin = path.Base(rest)
	if origin != "found" && origin != "set" {
		return rest, "", place
	}
	holder = strings.TrimSuffix(strings.TrimSuffix(rest, origin), "/")
	return holder, origin, place
}

// reading returns the entry's reading of that origin at a path, or above it.
func (e *Entry) reading(origin Origin, at string) *Value {
	for ; at != ""; at = parse.Above(at) {
		i := slices.IndexFunc(e.Values, func(v *Value) bool { return v.Origin == origin && v.Path == at })
		if i >= 0 {
			return e.Values[i]
		}
	}
	return nil
}

// resolveFile finds the file that a relative link names, from the entry's folder or from the journal's.
func (j *Journal) resolveFile(link *Mention, target string, files map[string]bool) {
	if target == "" {
		return // a place in the same page
	}
	folder := "."
	if link.Entry != nil {
		folder = path.Dir(link.Entry.File.Name)
	}
	for _, name := range []string{path.Join(folder, target), path.Clean(strings.TrimPrefix(target, "/"))} {
		if !files[name] {
			continue
		}
		link.File = name
		if trimmed, ok := strings.CutPrefix(name, "entries/"); ok && strings.HasSuffix(name, ".md") {
			link.Target = j.entries[strings.TrimSuffix(trimmed, ".md")]
			link.Late = j.isLate(trimmed)
			if link.Target == nil && !link.Late {
				link.Broken = fmt.Sprintf("`%s` is no entry that counts", target)
			}
		}
		return
	}
	link.missing("file", target, target, sortedKeys(files))
}
