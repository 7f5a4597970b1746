package rule

import (
	"example.org/locknut/journal/source"
)

// logWithoutTarget notes a journal whose newest log of the mixture is held to nothing.
func logWithoutTarget(c *Context) {
	logs := c.rides()
	if len(logs) == 0 || c.Journal.Target != nil || c.Journal.TargetUnread || c.Journal.FuelUnread {
		return
	}
	last := logs[len(logs)-1]
	c.report(source.Finding{
		Severity: source.Note, At: last.At, Subject: "fuelling", Entry: last.Entry.Path,
		Message: "nothing says what mixture is wanted: this log is held to nothing", Do: "write `target` into `[fuelling]` of build.toml: lambda by throttle and engine speed",
	}, last.Order)
}
