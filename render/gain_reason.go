package render

import (
	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/markdown"
	"example.org/locknut/journal/model"
)

// undrawn returns the hole of a chart that is not drawn, with the reason in its words where that is of the pulls: of a gain that can't be told.
func (p *page) undrawn(h *markdown.Hole, link *model.Mention) *markdown.Hole {
	if link.Broken != "" || link.Path != "gain" || p.away {
		return h
	}
	reason := p.site.gainReason(link.Entry)
	if reason == "" {
		return h
	}
	told := *h
	told.Text = joinedWords(h.Text, "– not drawn: "+reason)
	return &told
}

// gainReason says why a gain over the engine speed can't be told as an entry left the engine, nil is now; nothing where it can, or where something of it is not published.
func (s *site) gainReason(e *model.Entry) string {
	stages, _ := s.sums.GainsOver(e)
	for _, stage := range stages {
		if s.current[stage.Path] == nil {
			return ""
		}
	}
	if len(stages) == 0 {
		return "no stage between two sessions of pulls by then"
	}
	return derive.GainOver(stages).Reason
}
