package render

import (
	"slices"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/render/chart"
)

// plot draws one chart in a size; it appends nothing where there is nothing to draw.
type plot func(dst []byte, size chart.Size) []byte

// drawn writes a chart for wide screens and paper, and beside it the one for phones, and reports whether there was anything to draw. CSS
// shows the one that fits.
func (p *page) drawn(draw plot) bool {
	before := len(p.bytes)
	for _, size := range []chart.Size{chart.Wide, chart.Narrow} {
		p.bytes = draw(p.bytes, size)
	}
	return len(p.bytes) > before
}

// figureOf writes a chart as a figure with its caption; where there is nothing to draw it writes nothing and says so.
func (p *page) figureOf(draw plot, caption string) bool {
	before := len(p.bytes)
	p.put("<figure class=\"drawing\">\n")
	if !p.drawn(draw) {
		p.bytes = p.bytes[:before]
		return false
	}
	p.put("\n")
	if caption != "" {
		p.element("figcaption", caption)
		p.put("\n")
	}
	p.put("</figure>\n")
	return true
}

// beside writes the strip of a value into a cell or a line whose words say all of it, so that a screen reader need not hear it twice.
func (p *page) beside(data chart.StripData) {
	before := len(p.bytes)
	p.put(`<span class="strip" aria-hidden="true">`)
	inside := len(p.bytes)
	if p.bytes = chart.Strip(p.bytes, data, chart.Cell); len(p.bytes) == inside {
		p.bytes = p.bytes[:before]
		return
	}
	p.put("</span>")
}

// stripOf is the strip of a value, with its value as found where one was set later in the same entry. It is empty for one without a
// limit in figures that judges it.
func (s *site) stripOf(v *model.Value) chart.StripData {
	l := v.Limit
	if l == nil || l.Unit == nil || v.Unjudged != model.Judged || !s.ShowsLimit(l) || v.Words != "" {
		return chart.StripData{}
	}
	data := chart.StripData{About: v.Path, Gauge: s.gauges[l], Reading: readingOf(v, l.Unit), Verdict: v.Verdict}
	if !data.Reading.Is {
		return chart.StripData{}
	}
	if found := v.FoundAs; found != nil && s.ShowsValue(found) {
		data.Found = readingOf(found, l.Unit)
	}
	return data
}

// stripOfNumber is the strip of a worked-out number.
func (s *site) stripOfNumber(n *derive.Number) chart.StripData {
	l := n.Limit
	if l == nil || l.Unit == nil || n.Reason != "" || n.Unit == nil || !n.Unit.ConvertsTo(l.Unit) || !s.ShowsLimit(l) {
		return chart.StripData{}
	}
	x := n.Estimate.Value
	reading := chart.Reading{Is: true, Low: x, High: x, Expanded: n.Estimate.Expanded(), Shown: quantity.Show(x, l.Unit, n.Step())}
	return chart.StripData{About: n.Path, Gauge: s.gauges[l], Reading: reading, Verdict: n.Verdict}
}

// readingOf is a value as charts draw it.
func readingOf(v *model.Value, u *quantity.Unit) chart.Reading {
	if v.Words != "" {
		return chart.Reading{}
	}
	return chart.Read(&v.Quantity, v.Estimate.Expanded(), u)
}

// historyOfPath is the chart of what spoke for a path over time, and whether there is more to see in it than one reading. Of a path
// with several positions there is none: each has its own.
func (s *site) historyOfPath(path string, until *model.Entry) (chart.HistoryData, bool) {
	data := chart.HistoryData{About: path}
	if len(s.Positions(path)) > 1 {
		return data, false
	}
	rows := make([]*model.Value, 0, len(s.histories[path]))
	for _, v := range slices.Backward(s.histories[path]) {
		dated := v.Entry != nil && !v.Entry.Date.IsZero() && !v.Entry.Plan
		if dated && v.Counts && v.Quantity.Unit != nil && (until == nil || v.Order <= s.journal.EndOf(until)) {
			rows = append(rows, v)
		}
	}
	if len(rows) < 2 {
		return data, false
	}
	data.Unit = rows[len(rows)-1].Quantity.Unit
	data.Points = make([]chart.HistoryPoint, 0, len(rows))
	var last *model.Limit
	for _, v := range rows {
		at := dayOf(v.Entry)
		data.Points = append(data.Points, chart.HistoryPoint{At: at, Reading: readingOf(v, data.Unit), Found: v.Origin == model.Found, Stale: v.StaleBy != nil, Verdict: v.Verdict})
		if v.Limit != last {
			data.Limits = append(data.Limits, chart.LimitFrom{At: at, Limit: s.limitIn(v.Limit, data.Unit)})
			last = v.Limit
		}
	}
	data.Fitted = s.fittedAt(path, dayOf(rows[0].Entry), until)
	return data, true
}

// limitIn is a limit as a chart in a unit draws it: none where it is not published, or measures something else.
func (s *site) limitIn(l *model.Limit, u *quantity.Unit) chart.Limit {
	if l == nil || l.Unit == nil || !s.ShowsLimit(l) || !l.Unit.ConvertsTo(u) {
		return chart.Limit{}
	}
	return chart.LimitOf(l)
}

func dayOf(e *model.Entry) float64 {
	return chart.Day(e.Date.Year, e.Date.Month, e.Date.Day)
}

// fittedAt returns the parts that went in, from a day on, and bear on a path.
func (s *site) fittedAt(path string, from float64, until *model.Entry) []chart.Fitted {
	var marks []chart.Fitted
	for _, c := range s.journal.Changes {
		if c.Kind != model.Fits && c.Kind != model.Renews || c.Entry == nil || c.Entry.Date.IsZero() || !s.ShowsEntry(c.Entry) || c.Ref.Part == nil {
			continue
		}
		if until != nil && c.Entry.Index > until.Index || dayOf(c.Entry) < from || !bearsOn(c.Ref.Part, path) {
			continue
		}
		marks = append(marks, chart.Fitted{At: dayOf(c.Entry), Label: c.Ref.Part.Title})
	}
	return marks
}

// bearsOn reports whether a part has to do with a path: it brings or limits something on the way to it, or asks for it to be read again.
func bearsOn(part *model.Part, path string) bool {
	touches := func(other string) bool {
		return parse.IsAtOrBelow(other, path) || parse.IsAtOrBelow(path, other)
	}
	return slices.ContainsFunc(part.Brings, func(r parse.Reading) bool { return touches(r.Path) }) ||
		slices.ContainsFunc(part.Limits, func(l *model.Limit) bool { return isLimit(l) && touches(l.Path) }) ||
		slices.ContainsFunc(part.Fields.Names("then"), func(n parse.Name) bool { return touches(n.Name) })
}

// chartNamed is the chart that `chart:NAME` asks for, as an entry left the engine; nil is now.
func (p *page) chartNamed(name string, e *model.Entry) plot {
	s := p.site
	switch name {
	case "power":
		data := s.curvesUpTo(e)
		return func(dst []byte, size chart.Size) []byte { return chart.Curves(dst, data, size) }
	case "gain":
		total := s.current["gain.total"]
		if e != nil {
			total = find(p.asLeft(e), "gain.total")
		}
		data := s.gainCurvesUpTo(e, total)
		return func(dst []byte, size chart.Size) []byte { return chart.GainCurves(dst, data, size) }
	case "fuelling":
		return s.squaresChart(e)
	}
	if e != nil {
		if l, c := e.CourseOf(name); c != nil && s.showsCourse(c) {
			return s.courseChart(l, c)
		}
	}
	data, ok := s.historyOfPath(name, e)
	return func(dst []byte, size chart.Size) []byte {
		if !ok {
			return dst
		}
		return chart.History(dst, data, size)
	}
}
