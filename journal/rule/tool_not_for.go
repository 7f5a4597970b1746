package rule

import (
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// toolNotFor reports readings, logs and pulls that name a tool which is for something else, and entries that list one which can have read nothing there, beside readings of which another tool is for.
func toolNotFor(c *Context) {
	if c.Journal.IsWithheld("tools") || !slices.ContainsFunc(c.Journal.Tools, func(t *model.Tool) bool { return len(t.For) > 0 }) {
		return
	}
	c.namedBeside()
	for _, e := range c.Journal.Entries {
		if !e.Plan && e.Fields != nil {
			c.idleTool(e)
		}
		for _, log := range e.Logs {
			paths := log.Paths()
			if log.Mixture != nil {
				paths = append(append(paths, log.MixturePaths()...), "lambda")
			}
			c.meter(e, log.Meter, log.At, "with", paths)
		}
		for _, p := range e.Pulls {
			c.meter(e, p.Dyno, p.At, "dyno", []string{"power", "torque"})
		}
	}
}

// isForOther reports whether a tool is for something, and for nothing like a path: a tool that is for one bolt may have tightened another. What it is for must be beyond doubt.
func (c *Context) isForOther(t *model.Tool, path string) bool {
	if t == nil || len(t.For) == 0 || t.Fields.IsBad("for") {
		return false
	}
	return !slices.ContainsFunc(t.For, func(of parse.Name) bool {
		return firstWord(of.Name) == firstWord(path) || c.paths().isWrong(of.Name)
	})
}

func firstWord(path string) string {
	word, _, _ := strings.Cut(path, ".")
	return word
}

// namedBeside reports the tools that readings name beside them, each once where a grid or a list has it for several.
func (c *Context) namedBeside() {
	said := map[source.Range]bool{}
	for _, v := range c.Journal.Values {
		if v.Entry == nil || !v.IsReading() || v.Written == nil || v.Tool == nil || !v.IsToolNamed() || parse.IsAtOrBelow(v.Path, "setting") || !c.isForOther(v.Tool, v.Path) {
			continue
		}
		at := v.Written.Details.With.At
		if said[at] || c.rightPath(v.Path, c.paths().known) != "" { // it is the path that is mistyped
			continue
		}
		said[at] = true
		c.value(v, source.Warning, fmt.Sprintf("`%s` is named for `%s`, and is for %s", v.Tool.Name, v.Path, forWords(v.Tool)), c.toolAdvice(v.Tool, v.Path), forNote(v.Tool)).At = at
	}
}

// forWords says what a tool is for.
func forWords(t *model.Tool) string {
	var all []string
	for _, of := range t.For {
		all = append(all, "`"+of.Name+"`")
	}
	return strings.Join(all, ", ")
}

func forNote(t *model.Tool) source.Remark {
	return source.Remark{At: t.For[0].At, Message: "what it is for"}
}

// toolAdvice names the tools that are for a path.
func (c *Context) toolAdvice(t *model.Tool, path string) string {
	var all []string
	for _, other := range c.Journal.Tools {
		if other.Reads(path) {
			all = append(all, "`"+other.Name+"`")
		}
	}
	if len(all) == 0 {
		return fmt.Sprintf("name the tool that took it, or add the path to what `%s` is for", t.Name)
	}
	return fmt.Sprintf("%s? if it was `%s`, add the path to what that is for", strings.Join(all, " or "), t.Name)
}

// idleTool reports the tool of an entry that is for nothing that was read there, where something was read that none listed is for, and another tool is.
func (c *Context) idleTool(e *model.Entry) {
	if len(e.With) == 0 || c.Journal.AreToolsUnclear(e) || slices.ContainsFunc([]string{"degreeing", "pulls", "logs", "fuelling", "readings"}, func(key string) bool { return e.Fields.Get(key) != nil }) {
		return
	}
	paths := slices.Concat(pathsOf(e.Found), pathsOf(e.Set))
	i := slices.IndexFunc(e.With, func(ref model.Ref) bool {
		return len(paths) > 0 && !slices.ContainsFunc(paths, func(path string) bool { return !c.isForOther(ref.Tool, path) })
	})
	if i < 0 || slices.ContainsFunc(e.With, func(ref model.Ref) bool { return len(ref.Tool.For) == 0 }) {
		return
	}
	for _, v := range e.Values {
		if !v.IsReading() || v.IsToolNamed() || len(e.Tools(v.Path)) > 0 || c.rightPath(v.Path, c.paths().known) != "" {
			continue
		}
		other := slices.IndexFunc(c.Journal.Tools, func(t *model.Tool) bool { return t.Reads(v.Path) })
		if other < 0 {
			continue
		}
		t := e.With[i].Tool
		f := c.value(v, source.Warning, fmt.Sprintf("`%s` is for %s, and nothing of that was read here; `%s` was, which `%s` is for", t.Name, forWords(t), v.Path, c.Journal.Tools[other].Name),
			"name the tool that was used", forNote(t), source.Remark{At: v.At(), Message: "read here"})
		f.At, f.Subject, f.Origin = e.With[i].At, t.Name, ""
		return
	}
}

func pathsOf(readings []parse.Reading) []string {
	paths := make([]string, len(readings))
	for i := range readings {
		paths[i] = readings[i].Path
	}
	return paths
}

// meter reports the tool of a log, or of pulls, that is for none of what they hold.
func (c *Context) meter(e *model.Entry, t *model.Tool, at source.Range, key string, paths []string) {
	if len(paths) == 0 || slices.ContainsFunc(paths, func(path string) bool { return !c.isForOther(t, path) }) {
		return
	}
	for _, of := range []string{"logs", "fuelling", "pulls"} {
		for _, table := range e.Fields.Tables(of) {
			if name := table.Name(key); name.Name == t.Name && table.At == at {
				at = name.At
			}
		}
	}
	c.report(source.Finding{Severity: source.Warning, At: at, Subject: t.Name, Entry: e.Path, Message: fmt.Sprintf("`%s` is named for `%s`, and is for %s", t.Name, paths[0], forWords(t)),
		Do: c.toolAdvice(t, paths[0]), Notes: []source.Remark{forNote(t)}}, c.Journal.EndOf(e))
}
