package rule

import (
	"fmt"

	"example.org/locknut/journal/source"
)

// unreadablePhoto reports files among the photos that are no picture that can be read.
func unreadablePhoto(c *Context) {
	for _, photo := range c.Journal.Photos {
		if photo.Reason != "" {
			c.report(source.Finding{Severity: source.Warning, At: photo.File.Whole(), Subject: photo.File.Name,
				Message: fmt.Sprintf("the photo can't be read: %s", photo.Reason), Do: "save it as JPEG, PNG or GIF, or move it out of `photos/`"}, -1)
		}
	}
}
