package rule

import (
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// manyPaths is how many paths name an unknown cylinder for `cylinders` to be what is wrong, and not they. Common practice, no source.
const manyPaths = 3

// unknownCylinder reports readings and limits of a cylinder that the engine doesn't have, and what asks for one to be read: nothing else would stand beside them. Where many name the same one it
// is said once, of the sheet.
func unknownCylinder(c *Context) {
	strange := c.strangers()
	missing := c.missingCylinders(strange)
	if len(missing) > 0 {
		c.tooFewCylinders(missing, strange)
	}
	for _, s := range strange {
		if slices.Contains(missing, s.name()) {
			continue
		}
		message := fmt.Sprintf("`%s` names the cylinder `%s`; the engine has %s", s.shown(), s.name(), c.cylinders())
		do := "write the name that `cylinders` has in build.toml, or add this one there"
		if len(c.Journal.Cylinders) == 0 {
			do = fmt.Sprintf("write `%s`, or say in build.toml how many `cylinders` there are", parse.Above(s.path))
		}
		if len(s.values) == 0 {
			c.report(source.Finding{Severity: source.Warning, At: s.at, Subject: s.shown(), Entry: s.entry, Message: message, Do: do}, -1)
			continue
		}
		f := c.value(s.values[0], source.Warning, message, do)
		f.At, f.Subject = s.at, s.shown()
		if slices.ContainsFunc(s.values, func(v *model.Value) bool { return !v.Settled }) {
			f.State = source.Open
		}
	}
}

// stranger is a limit, what is asked for, or the readings of one state of an entry, at and below a path that ends in a cylinder's name which is none.
type stranger struct {
	path   string
	whole  string // the path of the limit, or of the first reading
	at     source.Range
	entry  string         // that asks for it; empty for the others
	values []*model.Value // none of a limit, and of what is asked for
}

func (s *stranger) name() string { return parse.LastSegment(s.path) }

// shown returns the path to tell: as it was written, where it is but one.
func (s *stranger) shown() string {
	if len(s.values) > 1 {
		return s.path
	}
	return s.whole
}

// strangers returns the limits, the readings, then what is asked for beside them, of cylinders that the engine doesn't have, but for those that have a finding of their own.
func (c *Context) strangers() []*stranger {
	var list []*stranger
	for _, l := range c.Journal.Limits {
		if path, ok := c.Journal.UnknownCylinder(l.Path); ok && !l.EachCylinder && !l.Unread {
			list = append(list, &stranger{path: path, whole: l.Path, at: l.PathAt})
		}
	}
	type typed struct {
		entry  *model.Entry
		origin model.Origin
		path   string
	}
	known := c.paths().known
	done, found := map[string]string{}, map[typed]*stranger{}
	for _, v := range c.Journal.Values {
		if !v.IsReading() {
			continue
		}
		path, seen := done[v.Path]
		if !seen {
			if strange, ok := c.Journal.UnknownCylinder(v.Path); ok && c.rightPath(v.Path, known) == "" {
				path = strange
			}
			done[v.Path] = path
		}
		if path == "" {
			continue
		}
		key := typed{v.Entry, v.Origin, path}
		if found[key] == nil {
			found[key] = &stranger{path: path, whole: v.Path, at: v.PathAt()}
			list = append(list, found[key])
		}
		found[key].values = append(found[key].values, v)
	}
	told := len(list)
	for _, asked := range c.requests() {
		path, ok := c.Journal.UnknownCylinder(asked.Name.Name)
		if !ok || c.mayBeName(path) || c.paths().isWrong(asked.Name.Name) || slices.ContainsFunc(list[:told], func(s *stranger) bool { return s.path == path }) {
			continue
		}
		list = append(list, &stranger{path: path, whole: asked.Name.Name, at: asked.At, entry: asked.entry})
	}
	return list
}

// mayBeName reports whether a path that is asked for may name a ring, or a valve, of every cylinder.
func (c *Context) mayBeName(path string) bool {
	pattern, name := parse.FindPattern(path), parse.LastSegment(path)
	return pattern != nil && pattern.NamesBelowCylinder() && !c.isNearCylinder(name) && strings.Trim(name, "0123456789") != ""
}

// missingCylinders returns the names that so many paths have that the engine has those cylinders, in the order in which they are first told.
func (c *Context) missingCylinders(strange []*stranger) []string {
	if c.Journal.Build.Fields.Table("engine").Get("cylinders") == nil {
		return nil
	}
	paths := map[string][]string{}
	var names []string
	for _, s := range strange {
		name := s.name()
		if len(paths[name]) >= manyPaths || slices.Contains(paths[name], s.path) || c.isNearCylinder(name) {
			continue
		}
		paths[name] = append(paths[name], s.path)
		if len(paths[name]) == manyPaths {
			names = append(names, name)
		}
	}
	return names
}

// isNearCylinder reports whether a name is nearly that of a cylinder.
func (c *Context) isNearCylinder(name string) bool {
	return slices.ContainsFunc(c.Journal.Cylinders, func(cylinder string) bool { return c.isNearWord(name, cylinder) })
}

// tooFewCylinders reports that the sheet lacks cylinders which many paths name.
func (c *Context) tooFewCylinders(missing []string, strange []*stranger) {
	paths := map[string]bool{}
	var first *stranger
	for _, s := range strange {
		if slices.Contains(missing, s.name()) {
			paths[s.path] = true
			if first == nil {
				first = s
			}
		}
	}
	what := "a cylinder"
	if len(missing) > 1 {
		what = "cylinders"
	}
	c.report(source.Finding{Severity: source.Warning, At: c.Journal.Build.Fields.Table("engine").Get("cylinders").At, Subject: "cylinders",
		Message: fmt.Sprintf("the engine has %s, but %d paths name %s %s", c.cylinders(), len(paths), what, oneOf(missing)),
		Do:      "mend `cylinders`, or the names in the paths", Notes: []source.Remark{{At: first.at, Message: "the first of them"}}}, -1)
}

// cylinders says which cylinders the engine has.
func (c *Context) cylinders() string {
	if len(c.Journal.Cylinders) == 0 {
		return "one, which needs no name"
	}
	return oneOf(c.Journal.Cylinders)
}

// oneOf lists names in back-quotes.
func oneOf(names []string) string {
	return "`" + strings.Join(names, "`, `") + "`"
}
