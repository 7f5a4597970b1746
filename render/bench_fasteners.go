package render

import (
	"strings"

	"example.org/locknut/journal/bench"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// cardFasteners writes what is pulled down: to what, in which steps and order, with what.
func (p *page) cardFasteners(jobs []*bench.Job) {
	if len(jobs) == 0 {
		return
	}
	p.section("fasteners", "To be pulled down")
	p.stack("To be pulled down", "Fastener", "To", "Thread", "Spanner", "Last", "Found", "Set")
	for _, job := range jobs {
		for _, spot := range job.Spots {
			p.cardRow(func() { p.cardName(job, spot.Path) }, func() { p.cardTorque(job, spot.Path) }, func() { p.cardThread(job.Limit) },
				func() { p.limitKey(job.Limit, "drive") }, func() { p.cardLast(spot) })
		}
	}
	p.endTable()
	for _, job := range jobs {
		p.cardPattern(job)
	}
	p.endSection()
}

// cardTorque writes what a fastener is pulled to, each step in both units, and the tool that reaches it.
func (p *page) cardTorque(job *bench.Job, path string) {
	switch {
	case job.Limit == nil:
		p.put("no limit")
	case job.Limit.Unread:
		p.cardLimit(job)
	default:
		for _, step := range job.Limit.Steps {
			p.inBoth([]quantity.Quantity{step})
			p.put(" then ")
		}
		p.cardLimit(job)
	}
	p.cardTool(job)
	p.cardSetting(job, path)
}

// cardSetting writes what to set the wrench to, where that is not the torque: through an adapter as last time, or above a running torque.
func (p *page) cardSetting(job *bench.Job, path string) {
	n := p.site.current["wrench-setting."+strings.TrimPrefix(path, "torque.")]
	if n == nil || n.Reason != "" || p.site.journal.LimitAt(path, nil) != job.Limit {
		return
	}
	p.aside("set the wrench to ", func() { p.numberWords(n) })
}

// cardTool names the tools of a job where there is a choice, or where none reaches it.
func (p *page) cardTool(job *bench.Job) {
	if p.site.Hides("tools") || len(job.Tools) == 0 || !job.Picked && !job.Short {
		return
	}
	label := literal("")
	if job.Short {
		label = "not all in reach of "
	}
	p.aside(label, func() {
		for i, tool := range job.Tools {
			if i > 0 {
				p.put(", ")
			}
			p.text(tool.Title)
		}
	})
}

// cardLimit writes the last or only figure of a limit in both units, and what there is to know of it.
func (p *page) cardLimit(job *bench.Job) {
	if job.Limit.Unread || !isLimit(job.Limit) {
		p.put("can’t be read: see the warnings")
		return
	}
	p.put(p.site.limitedBoth[job.Limit])
	if job.Limit.Basis == "assumed" {
		p.put(` <strong class="assumed">assumed</strong>`)
	}
	if job.Before != nil {
		p.aside("as found: ", func() { p.limit(job.Before) })
	}
}

func (p *page) cardThread(l *model.Limit) {
	if l == nil {
		return
	}
	p.limitKey(l, "thread")
	if class := l.Key("class").Text; class != "" {
		p.put(", ")
		p.text(class)
	}
	if state := l.Key("threads").Text; state != "" {
		p.aside("", func() { p.text(state) })
	}
}

func (p *page) limitKey(l *model.Limit, key string) {
	if l != nil {
		p.text(l.Key(key).Text)
	}
}

// cardPattern writes a box for each fastener of a pattern and each step, in the order in which they are pulled.
func (p *page) cardPattern(job *bench.Job) {
	if len(job.Order) == 0 {
		return
	}
	p.put("<div class=\"pattern\">\n<p>")
	p.path(job.Path)
	p.put(" in this order, each step all round before the next:</p>\n")
	p.table("Order of "+job.Path, append([]string{"Order"}, job.Order...)...)
	row := func(write func()) {
		p.put(`<tr><th scope="row">`)
		write()
		p.put("</th>")
		p.boxes(len(job.Order))
		p.put("</tr>\n")
	}
	for _, step := range job.Limit.Steps {
		row(func() { p.figure(step.Shown()) })
	}
	row(func() {
		if job.Limit.Nominal != nil {
			p.figure(job.Limit.Nominal.Shown())
			return
		}
		p.limit(job.Limit)
	})
	p.endTable()
	p.put("</div>\n")
}

// counterpart is the unit that figures in one are shown in beside on a card, whatever the builder leads with: that of the other system, the builder's own if he
// has one there; nil for none.
func (s *site) counterpart(u *quantity.Unit) *quantity.Unit {
	if u == nil {
		return nil
	}
	if other := s.others[u]; other != nil && other.IsCounterpart(u) {
		return other
	}
	return u.Counterpart()
}

// inBoth writes figures of a limit in their unit and in the other.
func (p *page) inBoth(figures []quantity.Quantity) {
	for i, q := range figures {
		if i > 0 {
			p.put(", ")
		}
		p.bounds(q, q.Unit)
		if u := p.site.counterpart(q.Unit); u != nil {
			p.put(` <span class="other">(`)
			p.bounds(q, u)
			p.put(")</span>")
		}
	}
}
