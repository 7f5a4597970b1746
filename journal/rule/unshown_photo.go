package rule

import (
	"example.org/locknut/journal/source"
)

// unshownPhoto reports photos that no entry shows.
func unshownPhoto(c *Context) {
	if c.Journal.IsWithheld("entries") {
		return
	}
	for _, photo := range c.Journal.Photos {
		if photo.Reason == "" && !photo.Shown {
			c.report(source.Finding{Severity: source.Note, At: photo.File.Whole(), Subject: photo.File.Name,
				Message: "no entry shows this photo", Do: "show it: `![what it shows](" + photo.File.Name + ")`, or move it out of `photos/`"}, -1)
		}
	}
}
