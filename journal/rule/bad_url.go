package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// badURL reports an address of the site that is none. The message doesn't repeat it: it may hold a password.
func badURL(c *Context) {
	text := c.Journal.Build.Fields.Text("url")
	if text.At.IsZero() || text.Text == "" {
		return
	}
	_, why, meant := model.SiteAddress(text.Text)
	if why == "" {
		return
	}
	do, fixes := "write the address of the folder that the site will stand in, as in `https://example.org/curlew/`", []source.Fix(nil)
	if meant != "" {
		do = fmt.Sprintf("write `%s`", meant)
		fixes = []source.Fix{source.Replace(do, text.At, `"`+meant+`"`)}
	}
	c.report(source.Finding{Severity: source.Error, At: text.At, Subject: "url", Message: "the address of the site, `url`, " + why, Do: do, Fixes: fixes}, -1)
}
