package rule

import (
	"fmt"
	"slices"

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

// isAskedByMistake reports whether a request comes of a part that is fitted though it is in. That has a finding of its own, and once it is accepted all is asked for.
func (c *Context) isAskedByMistake(r *model.Request) bool {
	isAccepted := func(a *model.Accept) bool {
		return a.Finding.Name == "fitted-again" && (a.Path == r.Part.Name || a.Path == "" && a.Entry == r.Entry)
	}
	if r.Part == nil || r.Entry == nil || !r.Part.Lasts() || slices.ContainsFunc(c.Journal.Accepts, isAccepted) {
		return false
	}
	return slices.ContainsFunc(c.Journal.Changes, func(change model.Change) bool {
		return change.Ref.Part == r.Part && change.Entry == r.Entry && change.IsAgain()
	})
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
