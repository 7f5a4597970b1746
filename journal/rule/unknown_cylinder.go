package rule

import (
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// unknownCylinder reports readings and limits of a cylinder that the engine doesn't have: nothing else would stand beside them.
func unknownCylinder(c *Context) {
	if len(c.Journal.Cylinders) == 0 {
		return
	}
	for _, l := range c.Journal.Limits {
		if name, ok := c.strangeCylinder(l.Path); ok {
			c.report(c.strange(parse.Name{Name: l.Path, At: l.PathAt}, name), -1)
		}
	}
	known := c.paths().known
	done := map[string]string{}
	for _, v := range c.Journal.Values {
		if !v.IsReading() {
			continue
		}
		name, seen := done[v.Path]
		if !seen {
			if strange, ok := c.strangeCylinder(v.Path); ok && c.rightPath(v.Path, known) == "" {
				name = strange
			}
			done[v.Path] = name
		}
		if name != "" {
			f := c.strange(parse.Name{Name: v.Path, At: v.PathAt()}, name)
			c.value(v, f.Severity, f.Message, f.Do)
			c.findings[len(c.findings)-1].At = f.At
		}
	}
}

// strange is a finding about a path that names no cylinder of the engine where one is due.
func (c *Context) strange(path parse.Name, name string) source.Finding {
	return source.Finding{Severity: source.Warning, At: path.At, Subject: path.Name,
		Message: fmt.Sprintf("`%s` names the cylinder `%s`; the engine has %s", path.Name, name, oneOf(c.Journal.Cylinders)),
		Do:      "write the name that `cylinders` has in build.toml, or add this one there"}
}

// oneOf lists names in back-quotes.
func oneOf(names []string) string {
	return "`" + strings.Join(names, "`, `") + "`"
}

// strangeCylinder returns what stands in a path where the path table has a cylinder, if the engine has none of that name.
func (c *Context) strangeCylinder(path string) (string, bool) {
	pattern := parse.FindPattern(path)
	if pattern == nil {
		return "", false
	}
	depth, ok := pattern.Cylinders()
	words := strings.Split(path, ".")
	if !ok || len(words) <= depth || slices.Contains(c.Journal.Cylinders, words[depth]) {
		return "", false
	}
	return words[depth], true
}
