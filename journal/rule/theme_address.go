package rule

import (
	"fmt"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// themeAddress reports what a style sheet of the builder's theme names and no page of the site can load. A sheet that names something
// outside the site is left out whole.
func themeAddress(c *Context) {
	for _, style := range c.Journal.Theme.Styles {
		if style.Broken {
			continue
		}
		for _, a := range style.Addresses {
			if message, do := c.themeTrouble(a); message != "" {
				c.report(source.Finding{Severity: source.Error, At: a.At, Subject: style.File.Name, Message: message, Do: do}, -1)
			}
		}
	}
}

func (c *Context) themeTrouble(a parse.StyleAddress) (message, do string) {
	name, _, why := a.Local()
	switch {
	case a.Import:
		return "`@import` brings in another style sheet, so this one is left out", "take it out; all `.css` files in `theme/` are taken, by their names"
	case why != "":
		return fmt.Sprintf("`%s` %s, so this style sheet is left out", clipped(a.Text), why), "put the file into `theme/` and name it from there, as in `url(\"brand.svg\")`"
	case name == "":
		return "", ""
	}
	file := c.Journal.Theme.Find(name)
	switch {
	case file == nil:
		return fmt.Sprintf("there is no file `%s`", clipped(name)), "put it there, or take its name out"
	case file.Reason != "":
		return fmt.Sprintf("`%s` %s: it is not put on the site", name, file.Reason), "name a WOFF2 font, or an SVG, PNG or JPEG picture, of no more than 1 MB and without scripts"
	}
	return "", ""
}

// clipped shortens a text that may be long, such as a picture written out in an address.
func clipped(text string) string {
	const most = 60
	if runes := []rune(text); len(runes) > most {
		return string(runes[:most]) + "…"
	}
	return text
}
