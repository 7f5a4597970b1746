package render

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/render/chart"
)

var fuellingCrumb = crumb{place{page: "fuelling.html"}, "Fuelling"}

// logs returns the published logs, up to the end of an entry, in order of time; nil is now.
func (s *site) logs(until *model.Entry) []*model.Log {
	var all []*model.Log
	for _, e := range s.Entries {
		if e.Plan || until != nil && e.Index > until.Index {
			continue
		}
		all = append(all, e.Logs...)
	}
	slices.SortStableFunc(all, func(a, b *model.Log) int { return a.Order - b.Order })
	return all
}

// mixtures returns those of the logs that tell of the mixture.
func (s *site) mixtures(until *model.Entry) []*model.Log {
	return slices.DeleteFunc(s.logs(until), func(l *model.Log) bool { return !l.TellsMixture() })
}

// fuelNumbers are the numbers of fuel and injectors.
func (s *site) fuelNumbers() []*derive.Number {
	return slices.Concat(s.inFamily("fuel-ratio"), s.inFamily("injector-flow"), s.inFamily("injector-duty"))
}

// tellsFuelling reports whether there is more to tell of the fuelling than the name of the fuel.
func (s *site) tellsFuelling() bool {
	return len(s.logs(nil)) > 0 || len(s.inFamily("injector-flow"))+len(s.inFamily("injector-duty")) > 0
}

// squaresOf is what a log found in the squares of its target; none where there is no target.
func (s *site) squaresOf(l *model.Log) chart.MixtureData {
	data := chart.MixtureData{Unit: "rpm"}
	target := s.journal.Target
	if target == nil {
		return data
	}
	data.Squares = make([][]chart.MixtureSquare, len(target.Throttle))
	l.Mixture.Each(func(row, column int, one model.Square) {
		throttle, speed := target.Names(row, column)
		if column == 0 {
			data.Throttle = append(data.Throttle, throttle.String())
		}
		if row == 0 {
			data.Speed = append(data.Speed, speed.Number)
		}
		data.Squares[row] = append(data.Squares[row], chart.MixtureSquare{Mean: one.Seen.Mean(), Target: one.Target, Tolerance: target.Tolerance, Seen: l.ShowTime(one.Seen.Seen), State: one.State, Load: one.IsLoad()})
	})
	return data
}

// newest returns the newest of some logs: of rides, where there is one, since pulls see full throttle alone; of several beside each other the one that was lean under load in most squares.
func newest(logs []*model.Log) *model.Log {
	var last *model.Log
	for _, l := range slices.Backward(logs) {
		if l.Pulls == nil && (last == nil || l.IsBeside(last) && harmful(l) > harmful(last)) {
			last = l
		}
	}
	if last == nil {
		return logs[len(logs)-1]
	}
	return last
}

// harmful counts the squares in which a log was lean under load.
func harmful(l *model.Log) (n int) {
	l.Mixture.Each(func(_, _ int, square model.Square) {
		if square.State == model.Lean && square.IsLoad() {
			n++
		}
	})
	return n
}

// squaresChart is the chart of the newest log of the mixture up to an entry; nil is now.
func (s *site) squaresChart(until *model.Entry) plot {
	logs := s.mixtures(until)
	if len(logs) == 0 {
		return func(dst []byte, _ chart.Size) []byte { return dst }
	}
	data := s.squaresOf(newest(logs))
	return func(dst []byte, size chart.Size) []byte { return chart.MixtureSquares(dst, data, size) }
}

// courseChart is the chart of one column of a log over its time.
func (s *site) courseChart(l *model.Log, c *model.Course) plot {
	data := chart.CourseData{About: c.Path, Unit: c.Unit, Stretches: c.Trace.Stretches, End: c.End, Limit: s.limitIn(c.Worst.Limit, c.Unit), Worst: readingOf(c.Worst, c.Unit), WorstAt: c.WorstAt, Verdict: c.Worst.Verdict}
	if l.Timed {
		data.Time = parse.UnitSpelled("s")
		if data.End > 600 {
			data.Time = quantity.UnitOf("min", quantity.Duration)
		}
	}
	return func(dst []byte, size chart.Size) []byte { return chart.Course(dst, data, size) }
}

// fuellingPage shows what the newest log says of the mixture, what else was logged, and whether the injectors suffice.
func (s *site) fuellingPage(p *page) {
	p.begin(head{title: fuellingCrumb.title, about: "The mixture square by square, what else was logged, and what the fuel needs.", plate: s.plateNow()})
	p.put("<p>Lambda 1 burns all fuel and all air; less is rich, more is lean. Lean under load melts pistons. Exhaust gas kills, and a machine on a roller or a road can hurt: work with air, help and a way out.</p>\n")
	if mixtures := s.mixtures(nil); len(mixtures) > 0 {
		last := newest(mixtures)
		p.section("squares", "Mixture by the newest log")
		p.put("<p>")
		p.logOf(last)
		p.put("</p>\n")
		p.logFacts(last)
		p.figureOf(s.squaresChart(nil), "")
		p.squaresTable(last)
		p.endSection()
	}
	s.logTable(p)
	p.newestCourses()
	if list := s.fuelNumbers(); len(list) > 0 {
		p.section("fuel", "Fuel and injectors")
		p.table("Fuel and injectors", "Number", "Figure")
		for _, n := range list {
			p.row(func() { p.to(s.numberPlace(n), n.Title) }, func() { p.numberWords(n) })
		}
		p.endTable()
		p.endSection()
	}
	p.end()
}

// pullsLogged says that a log is that of pulls.
const pullsLogged = "pulls, at full throttle"

// logFacts writes what a log was made with and what it leaves out.
func (p *page) logFacts(l *model.Log) {
	s, m := p.site, l.Mixture
	p.put("<dl class=\"facts\">\n")
	if l.Pulls != nil {
		p.textTerm("Of", pullsLogged)
	}
	if l.Meter != nil && !s.Hides("tools") {
		p.term("Meter", func() { p.to(s.toolPlace(l.Meter), l.Meter.Title) })
	}
	p.textTerm("Note", l.Note)
	if m == nil {
		p.textTerm("Logged for", l.ShowTime(l.Span))
	} else {
		p.textTerm("Ran for", l.ShowTime(m.Ran))
		if l.TellsMixture() {
			p.textTerm("Mean lambda", model.ShowMean(m.All.Mean()))
		}
		if m.Outside > 0 {
			p.textTerm("Beyond the squares", l.ShowTime(m.Outside))
		}
		if m.Unburnt > 0 {
			p.textTerm("Nothing burnt", l.ShowTime(m.Unburnt)+": throttle shut, fuel cut, or the meter at its end; not counted")
		}
		if m.Ratio > 0 {
			p.textTerm("Read as", quantity.Show(m.Ratio, parse.UnitSpelled("AFR"), 0.1).String()+" at lambda 1")
		}
		if t := s.journal.Target; t != nil {
			p.textTerm("Tolerance", "± "+model.ShowLambda(t.Tolerance))
		}
	}
	p.put("</dl>\n")
}

// logOf writes which log it is.
func (p *page) logOf(l *model.Log) {
	p.toEntry(p.site.entryPlace(l.Entry), l.Entry)
	if words := besideWork(l.Entry, l.State); words != "" {
		p.aside("", func() { p.text(words) })
	}
	if l.Pulls != nil {
		p.aside("", func() { p.text(pullsLogged) })
	}
}

// squaresTable lists the squares that a log was in, and names those that it was not.
func (p *page) squaresTable(l *model.Log) {
	target := p.site.journal.Target
	if target == nil {
		return
	}
	var unvisited []string
	p.classed(tightTable, "Squares", "Square", "Found", "Target", "Mean", "Spread", "Leanest", "Richest", "Seen")
	l.Mixture.Each(func(row, column int, square model.Square) {
		throttle, speed := target.Names(row, column)
		name := throttle.String() + ", " + speed.String()
		switch {
		case math.IsNaN(square.Target):
			return
		case square.State == model.Unvisited:
			unvisited = append(unvisited, name)
			return
		}
		text := func(s string) func() { return func() { p.text(s) } }
		p.row(text(name), func() { p.squareState(square) }, text(model.ShowLambda(square.Target)), text(model.ShowMean(square.Seen.Mean())), text(model.ShowMean(square.Seen.Deviation())),
			text(model.ShowMean(square.Leanest.Lambda)), text(model.ShowMean(square.Richest.Lambda)), text(l.ShowTime(square.Seen.Seen)))
	})
	p.endTable()
	if len(unvisited) > 0 {
		p.element("p", "Never visited: "+strings.Join(unvisited, "; ")+".")
		p.put("\n")
	}
}

// squareState writes what was found in a square, as a verdict where it is one.
func (p *page) squareState(s model.Square) {
	switch {
	case s.State == model.Lean && s.IsLoad():
		p.put(`<span class="verdict out"><span class="mark" aria-hidden="true">✕</span> lean under load</span>`)
	case s.State == model.Lean:
		p.put(`<span class="verdict worn"><span class="mark" aria-hidden="true">◐</span> lean</span>`)
	case s.State == model.Rich:
		p.put(`<span class="verdict worn"><span class="mark" aria-hidden="true">◐</span> rich</span>`)
	case s.State == model.OnTarget:
		p.put(`<span class="verdict in"><span class="mark" aria-hidden="true">✓</span> on target</span>`)
	default:
		p.text(s.State.String())
	}
}

// logTable lists all logs of the mixture, the newest first, where there are several.
func (s *site) logTable(p *page) {
	logs := s.mixtures(nil)
	if len(logs) < 2 {
		return
	}
	p.section("logs", "Logs of the mixture")
	p.classed(tightTable, "Logs of the mixture", "When", "Mean lambda", "Lean under load", "Lean", "Rich", "Squares seen", "Ran for")
	for _, l := range slices.Backward(logs) {
		var load, lean, rich, seen, all int
		l.Mixture.Each(func(_, _ int, square model.Square) {
			if !math.IsNaN(square.Target) {
				all++
			}
			switch {
			case square.State == model.Lean && square.IsLoad():
				load++
			case square.State == model.Lean:
				lean++
			case square.State == model.Rich:
				rich++
			}
			if square.IsJudged() {
				seen++
			}
		})
		number := func(n int) func() { return func() { p.text(strconv.Itoa(n)) } }
		p.row(func() { p.logOf(l) },
			func() { p.text(model.ShowMean(l.Mixture.All.Mean())) }, number(load), number(lean), number(rich), func() { p.text(strconv.Itoa(seen)); p.put(" of "); p.text(strconv.Itoa(all)) }, func() { p.text(l.ShowTime(l.Mixture.Ran)) })
	}
	p.endTable()
	p.endSection()
}

// showsCourse reports whether something was logged in a column, and nothing of it is hidden: all its figures are of the kind of the worst.
func (s *site) showsCourse(c *model.Course) bool {
	return c.Worst != nil && s.ShowsPath(c.Path) && s.ShowsValue(c.Worst)
}

// newestCourses draws what else was logged, of each path the newest log that holds it. Those before are on the pages of their entries.
func (p *page) newestCourses() {
	drawn := map[string]bool{}
	for _, l := range slices.Backward(p.site.logs(nil)) {
		for _, c := range l.Courses {
			if drawn[c.Path] || !c.Counts() || !p.site.showsCourse(c) {
				continue
			}
			drawn[c.Path] = true
			p.section("course."+c.Path, c.Path+" by the newest log")
			p.put("<p>")
			p.logOf(l)
			p.put("</p>\n")
			p.course(l, c)
			p.endSection()
		}
	}
}

// course draws a column of a log over its time, and leads to its worst figure.
func (p *page) course(l *model.Log, c *model.Course) {
	if l.Timed || l.Pulls == nil { // one pull after the other, row by row, makes no course
		p.figureOf(p.site.courseChart(l, c), "")
	}
	p.put("<p>Worst: ")
	p.valueLink(c.Worst)
	if c.Worst.Limit != nil {
		p.put(" ")
		p.judgedThere(c.Worst)
	}
	p.put("</p>\n")
}

// logs writes what was logged in an entry.
func (p *page) logs(e *model.Entry) {
	if len(e.Logs) == 0 {
		return
	}
	p.section("logs", "Logs")
	for _, l := range e.Logs {
		p.headOfSide(e, l.State)
		p.logFacts(l)
		for _, c := range l.Courses {
			if p.site.showsCourse(c) {
				p.course(l, c)
			}
		}
	}
	if p.site.journal.Target != nil && slices.ContainsFunc(e.Logs, (*model.Log).TellsMixture) {
		p.put("<p>The newest, square by square: ")
		p.to(fuellingCrumb.at, fuellingCrumb.title)
		p.put(".</p>\n")
	}
	p.endSection()
}
