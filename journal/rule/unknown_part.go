package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// unknownPart reports names of parts that no parts file has.
func unknownPart(c *Context) {
	if c.Journal.IsWithheld("parts") {
		return
	}
	names := partNames(c.Journal)
	for _, name := range c.Journal.Build.Fields.Names("fitted") {
		c.unknownName(name, "part", names, "")
	}
	for _, e := range c.Journal.Entries {
		for _, spent := range e.Spent {
			if !spent.Part.IsZero() {
				c.unknownName(spent.Part.Name, "part", names, e.Path)
			}
		}
		for _, refs := range [][]model.Ref{e.Bought, e.Fitted, e.Removed} {
			for _, ref := range refs {
				c.unknownName(ref.Name, "part", names, e.Path)
			}
		}
	}
	for _, part := range c.Journal.Parts {
		for _, name := range part.Fields.Names("clashes") {
			c.unknownName(name, "part", names, "")
		}
	}
}

// unknownName reports a name that is not among the known ones.
func (c *Context) unknownName(name parse.Name, kind string, known []string, entry string) {
	for _, k := range known {
		if k == name.Name {
			return
		}
	}
	do := fmt.Sprintf("add `[%s]` to the %ss, or mend the name", name.Name, kind)
	var fixes []source.Fix
	if near := source.Nearest(name.Name, known); near != "" {
		do = fmt.Sprintf("did you mean `%s`?", near)
		fixes = []source.Fix{source.Replace(fmt.Sprintf("write `%s`", near), name.At, `"`+near+`"`)}
	}
	order := -1
	if e := c.Journal.Entry(entry); e != nil {
		order = c.Journal.EndOf(e)
	}
	c.report(source.Finding{Severity: source.Error, At: name.At, Subject: name.Name, Entry: entry, Message: fmt.Sprintf("there is no %s `%s`", kind, name.Typed), Do: do, Fixes: fixes}, order)
}

func partNames(j *model.Journal) []string {
	names := make([]string, len(j.Parts))
	for i, p := range j.Parts {
		names[i] = p.Name
	}
	return names
}
