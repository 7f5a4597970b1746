package render

import (
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// pullSubjects are what findings on the figures of pulls are about, beside their files: which of two is wrong nobody can tell, so that the figures stand as they were read.
var pullSubjects = []string{"power", "pulls", "air"}

// doubts writes what is found open, and worse than a note, on the figures of pulls that a page goes by: above them, since a gain of a session in the wrong unit looks like any other.
func (p *page) doubts(sessions []*model.Pulls) {
	var list []*source.Finding
	for _, session := range sessions {
		for _, f := range p.site.found.at[session.Entry] {
			if f.State == source.Open && f.Severity > source.Note && isOfPulls(f, session) && !slices.Contains(list, f) {
				list = append(list, f)
			}
		}
	}
	if len(list) == 0 {
		return
	}
	p.section("doubts", "In doubt")
	p.put("<p>The figures below are as they were read. Until this is mended, or accepted, they are worth little:</p>\n")
	p.findings(list, excerpt)
	p.endSection()
}

func isOfPulls(f *source.Finding, session *model.Pulls) bool {
	return slices.ContainsFunc(pullSubjects, func(path string) bool { return parse.IsAtOrBelow(f.Subject, path) }) ||
		slices.ContainsFunc(session.Runs, func(run model.Run) bool { return run.File.Name == f.Subject })
}
