package render

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/render/chart"
)

var powerCrumb = crumb{place{page: "power.html"}, "Power"}

// sessions returns the published sessions that measured power, up to the end of an entry, in order of time; nil is now.
func (s *site) sessions(until *model.Entry) []*model.Pulls {
	var all []*model.Pulls
	for _, e := range s.Entries {
		if e.Plan {
			continue
		}
		for _, session := range e.Pulls {
			if session.Peak != nil && s.ShowsValue(session.Peak) && (until == nil || session.Order <= s.journal.EndOf(until)) {
				all = append(all, session)
			}
		}
	}
	slices.SortStableFunc(all, func(a, b *model.Pulls) int { return a.Order - b.Order })
	return all
}

// powerUnit is the unit that powers are told in: the builder's, else that of the last session.
func (s *site) powerUnit(sessions []*model.Pulls) *quantity.Unit {
	if lead := s.journal.Units.Lead[quantity.Power]; lead != nil || len(sessions) == 0 {
		return lead
	}
	return sessions[len(sessions)-1].Peak.Quantity.Unit
}

// curvesUpTo are the mean curves of all sessions up to an entry; nil is now.
func (s *site) curvesUpTo(until *model.Entry) chart.CurvesData {
	sessions := s.sessions(until)
	names := sessionNames(sessions)
	data := chart.CurvesData{Speed: parse.UnitSpelled("rpm"), Power: s.powerUnit(sessions), Torque: s.journal.Units.Leading(quantity.Torque)}
	sessions = slices.DeleteFunc(sessions, func(session *model.Pulls) bool { return len(session.Runs) == 0 })
	counts := func(where string) bool {
		return slices.ContainsFunc(sessions, func(session *model.Pulls) bool { return session.Where == where })
	}
	mixed := counts("wheel") && counts("crank") // which are not to be compared
	if more := len(sessions) - chart.MostSessions; more > 0 {
		data.Earlier, sessions = more, slices.Delete(sessions, 1, 1+more)
	}
	for _, session := range sessions {
		curve, compared := s.compared(session)
		label := names[session].String()
		if mixed && session.Where != "" {
			label += ", " + session.Where
		}
		if session.Dyno != nil && session.Dyno != sessions[len(sessions)-1].Dyno {
			label += ", another dyno"
		}
		one := chart.Session{Label: label, PeakPower: chart.FigureOf(compared(session.Peak))}
		if session.Torque != nil {
			one.PeakTorque = chart.FigureOf(compared(session.Torque))
		}
		one.Power, one.Torque = drawnPoints(curve(quantity.Power)), drawnPoints(curve(quantity.Torque))
		one.Lambda = drawnPoints(s.sums.Session(session).Lambda(), "")
		data.Sessions = append(data.Sessions, one)
	}
	data.Wanted = s.wantedAtFull()
	if n := len(data.Sessions); n > 0 {
		data.Sessions[0].Role = chart.Baseline
		data.Sessions[n-1].Role = chart.Current
	}
	return data
}

// wantedAtFull are the lambdas that are wanted at full throttle, square by square of the engine speed; none where there is no target.
func (s *site) wantedAtFull() (wanted []chart.Wanted) {
	t := s.journal.Target
	if t == nil {
		return nil
	}
	row, ok := calc.NearestBreakpoint(t.Throttle, 1)
	if !ok {
		return nil // the target ends below it
	}
	for i, lambda := range t.Lambda[row] {
		if from, to, is := calc.SpanOfBreakpoint(t.Speed, i); is && !math.IsNaN(lambda) {
			wanted = append(wanted, chart.Wanted{From: from, To: to, Lambda: lambda, Tolerance: t.Tolerance})
		}
	}
	return wanted
}

// drawnPoints are the points of a curve as charts draw them; none of one that has a reason for that.
func drawnPoints(points []derive.CurvePoint, _ string) []chart.CurvePoint {
	drawn := make([]chart.CurvePoint, len(points))
	for i, pt := range points {
		drawn[i] = chart.CurvePoint(pt)
	}
	return drawn
}

// compared returns how the curves and the figures of a session are told to stand beside those of others; as they were read where that can't be had, or rests on what is not
// published.
func (s *site) compared(session *model.Pulls) (curve func(quantity.Dimension) ([]derive.CurvePoint, string), figure func(*model.Value) quantity.Estimate) {
	one := s.sums.Session(session)
	if factor, ok := one.Factor(); !ok || factor == 1 || slices.ContainsFunc(session.Air.Values(), func(v *model.Value) bool { return !s.ShowsValue(v) }) {
		return one.CurveAsRead, func(v *model.Value) quantity.Estimate { return v.Estimate }
	}
	return one.Curve, func(v *model.Value) quantity.Estimate {
		e, _ := one.Corrected(v)
		return e
	}
}

// gainsNow are the steps of gain, with their total. A stage of which anything is hidden is not told.
func (s *site) gainsNow() chart.GainData {
	data := chart.GainData{Unit: s.powerUnit(s.sessions(nil))}
	total := s.current["gain.total"]
	var last *derive.Stage
	for _, stage := range s.sums.Stages {
		n := s.current[stage.Path]
		if n == nil {
			if s.ShowsEntry(stage.To.Entry) {
				data.Stages = append(data.Stages, chart.GainStage{Label: stage.To.Entry.Title, Reason: "what it starts from is not published"})
			}
			continue
		}
		if last == nil {
			_, compared := s.compared(stage.From)
			data.Baseline = chart.FigureOf(compared(stage.From.Peak))
		}
		last = stage
		step := chart.GainStage{Label: stageName(stage), Reason: n.Reason}
		if n.Reason == "" {
			step.Gain = chart.FigureOf(n.Estimate)
		}
		data.Stages = append(data.Stages, step)
	}
	if last != nil {
		_, compared := s.compared(last.To)
		data.Now = chart.FigureOf(compared(last.To.Peak))
	}
	switch {
	case total == nil:
		data.Reason = "not every stage is published"
	case total.Reason != "":
		data.Reason = total.Reason
	default:
		data.Total = chart.FigureOf(total.Estimate)
	}
	return data
}

// stageName is what changed in a stage, or where no part did, the entry that ended it.
func stageName(stage *derive.Stage) string {
	changed := partTitles(stage.In)
	switch {
	case changed == "" && len(stage.Out) > 0:
		changed = "without " + partTitles(stage.Out)
	case changed == "":
		changed = stage.To.Entry.Title
	}
	return changed
}

func partTitles(parts []*model.Part) string {
	titles := make([]string, len(parts))
	for i, part := range parts {
		titles[i] = part.Title
	}
	return strings.Join(titles, ", ")
}

// powerPage shows what the pulls say: what each stage gave, the curves over each other, and every session.
func (s *site) powerPage(p *page) {
	p.begin(head{title: powerCrumb.title, about: "Power and torque by session, and what each stage of the build gave.", plate: s.plateNow()})
	sessions := s.sessions(nil)
	p.doubts(sessions)
	steps := s.gainsNow()
	p.drawnSection("gain", "Gain, stage by stage", func(dst []byte, size chart.Size) []byte { return chart.GainSteps(dst, steps, size) })
	p.gainsOverSpeed()
	p.drawnSection("curves", "Curves", p.chartNamed("power", nil))
	p.sessionTable(sessions)
	p.gainTable("stages", "What each stage gave", "stage-gain", "gain.total")
	p.gainTable("part-gains", "What the parts gave", "part-gain", "")
	p.gainTable("band", "Over the band, and in torque", "band-gain", "")
	p.gainTable("claims", "What was claimed for them", "claim", "")
	p.gainTable("corrected", "Peaks, as they are compared", "corrected-power", "")
	p.end()
}

// drawnSection writes a chart in a section of its own, where there is something to draw.
func (p *page) drawnSection(id, title string, draw plot) {
	before := len(p.bytes)
	p.section(id, title)
	if !p.figureOf(draw, "") {
		p.bytes = p.bytes[:before]
		p.dropSection()
		return
	}
	p.endSection()
}

func (p *page) sessionTable(sessions []*model.Pulls) {
	s := p.site
	heads := []string{"When", "Changed since the session before", "Mean peak power", "Torque", "Gear", "Air", "Correction"}
	dyno := !s.Hides("tools") && slices.ContainsFunc(sessions, func(session *model.Pulls) bool { return session.Dyno != nil })
	if dyno {
		heads = append(heads, "Dyno")
	}
	placed := slices.ContainsFunc(sessions, func(session *model.Pulls) bool { return session.Where != "" })
	if placed {
		heads = append(heads, "Counts at")
	}
	names := sessionNames(sessions)
	p.section("sessions", "Sessions")
	p.stack("Sessions", heads...)
	for _, session := range slices.Backward(sessions) {
		cells := []func(){
			func() { p.changedIn(session) },
			func() { p.peak(session.Peak); p.saysWorkedOut(session, quantity.Power) },
			func() { p.peak(session.Torque); p.saysWorkedOut(session, quantity.Torque) },
			func() { p.gear(session) },
			func() { p.airFigures(session) },
			func() { p.text(session.Corrected) },
		}
		if dyno {
			cells = append(cells, func() {
				if session.Dyno != nil {
					p.to(s.toolPlace(session.Dyno), session.Dyno.Title)
				}
			})
		}
		if placed {
			cells = append(cells, func() { p.text(cmp.Or(session.Where, "not said")) })
		}
		p.row(func() {
			p.toEntry(s.valuePlace(session.Peak), session.Entry)
			if words := joined(names[session].which, besideWork(session.Entry, session.State)); words != "" {
				p.aside("", func() { p.text(words) })
			}
		}, cells...)
	}
	p.endTable()
	p.endSection()
}

// changedIn writes the parts that changed in the stage that a session ends.
func (p *page) changedIn(session *model.Pulls) {
	i := slices.IndexFunc(p.site.sums.Stages, func(stage *derive.Stage) bool { return stage.To == session })
	if i < 0 {
		return
	}
	stage := p.site.sums.Stages[i]
	if !p.site.ShowsEntry(stage.From.Entry) {
		return // what changed since then may be the hidden entry's work
	}
	p.partList("in: ", stage.In)
	p.partList("out: ", stage.Out)
}

func (p *page) partList(label literal, parts []*model.Part) {
	if len(parts) == 0 {
		return
	}
	p.aside(label, func() {
		for i, part := range parts {
			if i > 0 {
				p.put(", ")
			}
			p.to(p.site.partPlace(part), part.Title)
		}
	})
}

// peak writes the mean of a session's peaks with its uncertainty, in the unit that the builder leads with.
func (p *page) peak(v *model.Value) {
	if v == nil || v.Quantity.Unit == nil {
		p.put("–")
		return
	}
	u := v.Quantity.Unit
	if lead := p.site.journal.Units.Lead[u.Dimension]; lead != nil {
		u = lead
	}
	if v.Estimate.Expanded() <= 0 {
		p.figure(v.Quantity.ShownIn(u))
		return
	}
	value, spread := quantity.ShowEstimate(v.Estimate, u)
	p.figure(quantity.Shown{Number: value.Number + " ± " + spread.Number, Unit: spread.Unit})
	if n := len(v.Repeats); n > 1 {
		p.aside("", func() { p.text(quantity.Counted(n, "pull")) })
	}
}

// saysWorkedOut says that a peak was worked out from the other figure of its files.
func (p *page) saysWorkedOut(session *model.Pulls, d quantity.Dimension) {
	if words := workedOutWords(session, d); words != "" {
		p.aside("", func() { p.text(words) })
	}
}

func workedOutWords(session *model.Pulls, d quantity.Dimension) string {
	switch {
	case !session.WorkedOut(d):
		return ""
	case d == quantity.Power:
		return "worked out from torque"
	}
	return "worked out from power"
}

// gainTable lists the gains of a family, the newest stage first, and under them their sum.
func (p *page) gainTable(id, title, family, sum string) {
	list := p.site.inFamily(family)
	if len(list) == 0 {
		return
	}
	if family == "stage-gain" {
		list = slices.Clone(list)
		slices.SortFunc(list, func(a, b *derive.Number) int { return byEnd(b, a) })
	}
	if n := p.site.current[sum]; n != nil {
		list = append(list, n)
	}
	p.section(id, title)
	heads := []string{"Gain", "Figure"}
	if family == "stage-gain" {
		heads = append(heads, "Changed")
	}
	costs := family == "part-gain" && !p.site.Hides("spend") && slices.ContainsFunc(list, func(n *derive.Number) bool { return priceOf(n) != nil })
	if costs {
		heads = append(heads, "Cost")
	}
	if len(heads) > 2 {
		p.stack(title, heads...)
	} else {
		p.table(title, heads...)
	}
	for _, n := range list {
		cells := []func(){func() { p.numberWords(n) }}
		if family == "stage-gain" {
			cells = append(cells, func() {
				if n.Stage != nil {
					p.partList("in: ", n.Stage.In)
					p.partList("out: ", n.Stage.Out)
				}
			})
		}
		if costs {
			cells = append(cells, func() { p.costOf(n) })
		}
		p.row(func() { p.to(p.site.numberPlace(n), gainTitle(n)) }, cells...)
	}
	p.endTable()
	p.endSection()
}

// priceOf returns what the parts of a gain cost together; nil where one has no price, or they were paid for in several currencies.
func priceOf(n *derive.Number) *quantity.Quantity {
	if len(n.Inputs) == 0 || n.Inputs[0].Number == nil || n.Inputs[0].Number.Stage == nil {
		return nil
	}
	var sum *quantity.Quantity
	for _, part := range n.Inputs[0].Number.Stage.In {
		switch {
		case part.Price == nil || sum != nil && sum.Unit != part.Price.Unit:
			return nil
		case sum == nil:
			price := *part.Price
			sum = &price
		default:
			sum.Value, sum.Step = sum.Value+part.Price.Value, min(sum.Step, part.Price.Step)
		}
	}
	return sum
}

// costOf writes what the parts of a gain cost, and where the gain is more than scatter, what a unit of power did.
func (p *page) costOf(n *derive.Number) {
	price := priceOf(n)
	if price == nil {
		p.put("–")
		return
	}
	p.figure(price.Shown())
	if gain := n.Unit.FromSI(n.Estimate.Value); n.Reason == "" && gain > 0 && derive.IsShown(n.Estimate) {
		p.aside("", func() {
			p.figure(quantity.Show(price.Unit.SI(price.Value/gain), price.Unit, price.Unit.SI(1)))
			p.text(" a " + n.Unit.Symbol)
		})
	}
}

// gainTitle leaves out what the head of the section says already.
func gainTitle(n *derive.Number) string {
	for _, same := range []string{"gain in peak power, ", "gain with ", "gain in "} {
		if rest, ok := strings.CutPrefix(n.Title, same); ok {
			return rest
		}
	}
	return n.Title
}
