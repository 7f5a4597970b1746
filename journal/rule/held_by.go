package rule

import (
	"fmt"
	"strings"

	"example.org/locknut/journal/model"
)

// heldBy names the limit that a value's verdict is by, where its path alone doesn't tell: that of some of its positions, or the worst of several; then the
// others that say the same.
func heldBy(v *model.Value) string {
	judged := v.Judged()
	if len(judged) < 2 && !strings.HasPrefix(v.Limit.Path, v.Path+".") {
		return ""
	}
	text := fmt.Sprintf(", at `%s`", v.Limit.Path)
	var also []string
	for _, j := range judged {
		if j.Limit != v.Limit && j.Verdict == v.Verdict {
			also = append(also, "`"+j.Limit.Path+"`")
		}
	}
	if len(also) > 0 {
		text += fmt.Sprintf("; it is %s at %s too", v.Verdict, strings.Join(also, ", "))
	}
	return text
}
