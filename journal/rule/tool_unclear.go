package rule

import (
	"fmt"
	"strings"

	"example.org/locknut/journal/source"
)

// toolUnclear reports readings for which an entry lists several tools, and nothing tells which of them took it.
func toolUnclear(c *Context) {
	for _, v := range c.Journal.Values {
		if v.Tool != nil || v.Entry == nil || !v.IsReading() || v.Setting() != nil || v.Words != "" || len(v.Entry.With) < 2 || c.Journal.AreToolsUnclear(v.Entry) {
			continue
		}
		tools := v.Entry.Tools(v.Path)
		if len(tools) < 2 || v.IsToolNamed() || v.OutOfReach() != nil {
			continue
		}
		names := make([]string, len(tools))
		for i, t := range tools {
			names[i] = "`" + t.Name + "`"
		}
		c.value(v, source.Note, fmt.Sprintf("which tool read `%s` is not clear: %s are for it", v.Path, strings.Join(names, " and ")),
			fmt.Sprintf("name it: `{ value = \"…\", with = \"%s\" }`; until then its uncertainty is not reckoned with", tools[0].Name))
	}
}
