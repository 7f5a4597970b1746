package rule

import (
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// lashBeforeShim reports shims that were changed when the lash at their valve had been read with another. It is settled once that is read again.
func lashBeforeShim(c *Context) {
	if c.Journal.IsFitUnclear() {
		return
	}
	for _, shim := range c.Journal.Values {
		old := c.Journal.LashesBefore(shim)
		if len(old) == 0 {
			continue
		}
		f := source.Finding{Severity: source.Warning, At: shim.At(), Subject: shim.Path, Origin: string(shim.Origin), Entry: shim.Entry.Path, Do: "read the lash again and write it under `[set]`"}
		if shim.Part != nil {
			f.At = c.whereFitted(shim.Part, shim.Entry)
		}
		open := slices.DeleteFunc(slices.Clone(old), func(lash model.OldLash) bool { return lash.Over })
		if len(open) == 0 {
			f.State, open = source.Settled, old
		}
		var positions []string
		for _, lash := range open {
			positions = append(positions, lash.Position)
			note := source.Remark{At: lash.Read.At(), Message: "read here, with the shim that was in then"}
			if !slices.Contains(f.Notes, note) {
				f.Notes = append(f.Notes, note)
			}
		}
		f.Message = fmt.Sprintf("the shim at `%s` was changed after the lash was read: %s", shim.Path, strings.Join(positions, ", "))
		c.report(f, shim.Order)
	}
}
