package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// fittedAgain reports parts fitted though they are in: they count as renewed, which is usual of what wears, and hardly of what lasts as long as the engine.
func fittedAgain(c *Context) {
	for _, change := range c.Journal.Changes {
		if !change.IsAgain() {
			continue
		}
		part := change.Ref.Part
		f := source.Finding{Severity: source.Warning, At: change.Ref.At, Subject: part.Name, Entry: change.Entry.Path,
			Do:      "if it stayed in, take it out of `fitted`; if it was out in between, list it under `removed` in the entry that took it out; if a new one like it went in, list that under `bought`, or accept this",
			Message: fmt.Sprintf("`%s` goes in here, and has been in from the start: it counts as a new one, of which nothing has been read yet", part.Name)}
		if from := since(part, change.Entry); from != nil {
			f.Message = fmt.Sprintf("`%s` goes in here, and has been in since `%s`: it counts as a new one, of which nothing has been read yet", part.Name, from.Path)
		}
		c.report(f, c.Journal.OrderOf(change))
	}
}

// since returns the entry that put a part in which an entry puts in again; nil from the start.
func since(part *model.Part, again *model.Entry) *model.Entry {
	for _, stay := range part.Stays {
		if stay.To == again {
			return stay.From
		}
	}
	return nil
}
