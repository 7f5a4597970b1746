package render

import (
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
)

// mention is something on the site that mentions a thing, and how.
type mention struct {
	at    place
	title string
	how   []string
}

// noted is a thing and where it is mentioned.
type noted struct {
	thing string
	at    place
}

// Things that are mentioned are known by kind and name.
func partThing(name string) string  { return "part:" + name }
func toolThing(name string) string  { return "tool:" + name }
func pathThing(path string) string  { return "path:" + path }
func entryThing(path string) string { return "entry:" + path }

// mentioned notes that something mentions a thing. What mentions it in several ways stands once.
func (s *site) mentioned(thing string, at place, title, how string) {
	key := noted{thing, at}
	m := s.noted[key]
	if m == nil {
		m = &mention{at: at, title: title}
		s.noted[key] = m
		s.mentions[thing] = append(s.mentions[thing], m)
	}
	if !slices.Contains(m.how, how) {
		m.how = append(m.how, how)
	}
}

// gatherMentions finds out what mentions each part, tool, path and entry.
func (s *site) gatherMentions() {
	s.mentions, s.noted = map[string][]*mention{}, map[noted]*mention{}
	defer func() { s.noted = nil }() // it is for gathering alone
	for _, link := range s.journal.Home {
		s.linked(link, place{page: "index.html"}, "The build")
	}
	for _, e := range s.Entries {
		s.mentionedBy(e)
	}
	for _, part := range s.journal.Parts {
		at := s.partPlace(part)
		for _, name := range part.Fields.Names("then") {
			s.mentioned(pathThing(name.Name), at, part.Title, "asks for it once fitted")
		}
		for _, r := range part.Brings {
			s.mentioned(pathThing(r.Path), at, part.Title, "brings it")
		}
		for _, name := range part.Fields.Names("clashes") {
			s.mentioned(partThing(name.Name), at, part.Title, "clashes with it")
		}
		for _, other := range s.journal.Parts {
			if other != part && gives(other, part) {
				s.mentioned(partThing(other.Name), at, part.Title, "needs what it gives")
			}
		}
	}
}

// gives reports whether a part gives something that another needs.
func gives(part, to *model.Part) bool {
	for _, need := range to.Fields.Names("needs") {
		if part.Name == need.Name || slices.ContainsFunc(part.Fields.Names("gives"), func(n parse.Name) bool { return n.Name == need.Name }) {
			return true
		}
	}
	return false
}

func (s *site) mentionedBy(e *model.Entry) {
	at, title := s.entryPlace(e), entryTitle(e)
	for _, list := range []struct {
		refs []model.Ref
		how  string
	}{{e.Bought, "bought"}, {e.Fitted, "fitted"}, {e.Removed, "took out"}} {
		how := list.how
		if e.Plan {
			how = "plans: " + how
		}
		for _, ref := range list.refs {
			s.mentioned(partThing(ref.Name.Name), at, title, how)
		}
	}
	for _, ref := range e.With {
		s.mentioned(toolThing(ref.Name.Name), at, title, "used")
	}
	for _, v := range e.Values {
		if v.Tool != nil {
			s.mentioned(toolThing(v.Tool.Name), at, title, "read with it")
		}
	}
	for _, p := range e.Pulls {
		if p.Dyno != nil {
			s.mentioned(toolThing(p.Dyno.Name), at, title, "pulls")
		}
	}
	for _, name := range e.Fields.Names("expects") {
		s.mentioned(pathThing(name.Name), at, title, "expects it")
	}
	for _, table := range e.Fields.Tables("later") {
		for _, name := range table.Names("reading") {
			s.mentioned(pathThing(name.Name), at, title, "asks for it later")
		}
	}
	for _, link := range e.Links {
		s.linked(link, at, title)
	}
}

func (s *site) linked(link *model.Mention, at place, title string) {
	if link.Broken != "" {
		return
	}
	const how = "mentions it"
	if link.Part != nil {
		s.mentioned(partThing(link.Part.Name), at, title, how)
	}
	if link.Tool != nil {
		s.mentioned(toolThing(link.Tool.Name), at, title, how)
	}
	if link.Target != nil && link.Target != link.Entry {
		s.mentioned(entryThing(link.Target.Path), at, title, how)
	}
	if link.Limit != nil {
		s.mentioned(pathThing(link.Limit.Path), at, title, "mentions its limit")
	}
	if link.Value == nil {
		return
	}
	for _, path := range slices.Compact([]string{link.Path, link.Value.Path}) {
		s.mentioned(pathThing(path), at, title, how)
	}
	if from := link.Value.Entry; from != nil && from != link.Entry {
		s.mentioned(entryThing(from.Path), at, title, "mentions a value of it")
	}
}

// entryTitle is how an entry stands in a list: its day, if it has one, and its title.
func entryTitle(e *model.Entry) string {
	if e.Date.IsZero() || strings.HasPrefix(e.Title, e.Date.String()) {
		return e.Title
	}
	return e.Date.String() + " " + e.Title
}
