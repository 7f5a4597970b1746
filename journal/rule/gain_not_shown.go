package rule

import (
	"fmt"
	"strings"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/source"
)

// gainNotShown notes changes of parts whose gain, or loss, is no more than the scatter of the pulls.
func gainNotShown(c *Context) {
	for _, n := range c.Numbers {
		if n.Stage == nil || n.Reason != "" || len(n.Stage.In)+len(n.Stage.Out) == 0 || n.Estimate.Expanded() <= 0 || derive.IsShown(n.Estimate) || restsOn(n, c.isSuspect) {
			continue
		}
		var changed []string
		for _, part := range n.Stage.In {
			changed = append(changed, "`"+part.Name+"`")
		}
		what := "what " + strings.Join(changed, ", ") + " gave"
		if len(changed) == 0 {
			what = "what taking parts out gave"
		}
		to := n.Stage.To
		c.report(source.Finding{
			Severity: source.Note, At: to.At, Subject: n.Path, Entry: to.Entry.Path,
			Message: fmt.Sprintf("%s is %s, %s", what, n.Shown(), n.Words),
			Do:      "pull again, three times each at least and one session after the other; until then nobody can tell",
			Notes:   []source.Remark{{At: n.Stage.From.At, Message: "the pulls before"}},
		}, to.Order)
	}
}
