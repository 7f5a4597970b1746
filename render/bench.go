package render

import (
	"slices"
	"strconv"
	"strings"

	"example.org/locknut/journal/bench"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/upkeep"
)

// mostColumns is how many positions stand beside one another on a card: as many boxes as a hand can write in fit on the width of a sheet.
const mostColumns = 8

// benchPlace is the bench card of an entry, nowhere for one that has none.
func (s *site) benchPlace(e *model.Entry) place { return place{page: s.benchPages[e.Index]} }

// assignCards works out which published entries have a card, and names its page by the entry's.
func (s *site) assignCards() {
	s.benchPages = make([]string, len(s.journal.Entries))
	for _, e := range s.Entries {
		if s.hasCard(e) {
			s.benchPages[e.Index] = "bench/" + strings.TrimPrefix(s.entryPages[e.Index], "entries/")
		}
	}
}

// hasCard reports whether an entry takes anything to the bench.
func (s *site) hasCard(e *model.Entry) bool {
	return e.Fields != nil && (len(e.Found)+len(e.Set)+len(e.Fitted)+len(e.Removed)+len(e.Values)+len(e.Body.Tasks) > 0 ||
		len(e.Fields.Names("expects"))+len(e.Fields.Tables("pulls")) > 0)
}

// benchPage is the card of an entry: one sheet of paper for the bench.
func (s *site) benchPage(p *page, e *model.Entry) {
	c := bench.Of(s.journal, e, s.ShowsValue)
	p.begin(head{title: "Bench card: " + e.Title, about: "A sheet for the bench: " + e.Title + ".", crumbs: []crumb{entriesCrumb, {s.entryPlace(e), e.Title}}, plate: s.plateStill()})
	p.put("<div class=\"bench\">\n")
	p.cardFacts(c)
	p.cardCautions(e)
	p.cardFasteners(c.Fasteners)
	p.cardReadings(c)
	p.cardPulls(e)
	p.cardSteps(e)
	p.put("</div>\n")
	p.end()
}

// cardFacts writes what to know and to fetch before the work begins.
func (p *page) cardFacts(c *bench.Card) {
	e := c.Entry
	p.put("<dl class=\"facts\">\n")
	switch {
	case e.Plan:
		p.textTerm("Day", "a plan; done on ____________")
	case !e.Date.IsZero():
		p.term("Day", func() { p.day(e) })
	}
	p.term("Meter", func() { p.put("____________ "); p.text(p.site.journal.Meter.Symbol) })
	p.cardTemperature(c)
	p.cardRefs("Fit", e.Fitted)
	p.cardRefs("Take out", e.Removed)
	if tools := c.Tools(); len(tools) > 0 && !p.site.Hides("tools") {
		p.term("Fetch", func() {
			for i, tool := range tools {
				if i > 0 {
					p.put(", ")
				}
				p.to(p.site.toolPlace(tool), tool.Title)
				p.expired(tool, e)
			}
		})
	}
	p.textTerm("Spanners and keys", strings.Join(c.Drives, ", "))
	p.put("</dl>\n")
}

// expired says that the calibration of a tool has run out by the day of an entry, of a plan by now.
func (p *page) expired(tool *model.Tool, e *model.Entry) {
	day := e.Date
	if e.Plan {
		day = p.site.journal.Today
	}
	if _, until := upkeep.CalibrationAt(tool, day); !until.IsZero() && !day.IsZero() && until.CompareDay(day) < 0 {
		p.aside("calibration ran out ", func() { p.text(until.String()) })
	}
}

// cardRefs writes the parts that are moved.
func (p *page) cardRefs(label string, refs []model.Ref) {
	p.partRefs(label, refs, func(*model.Part) {})
}

// cardTemperature writes the engine temperature that the limits ask for, with what asks for it.
func (p *page) cardTemperature(c *bench.Card) {
	var wanted []*bench.Job
	for _, job := range slices.Concat(c.Marks, c.Fasteners, c.Readings) {
		if job.Limit != nil && job.Limit.When != nil && !slices.ContainsFunc(wanted, func(other *bench.Job) bool { return *other.Limit.When == *job.Limit.When }) {
			wanted = append(wanted, job)
		}
	}
	p.term("Engine at", func() {
		p.put("____________")
		for _, job := range wanted {
			first, _, _ := strings.Cut(job.Path, ".")
			p.put("; for ")
			p.text(first + " ")
			p.bounds(*job.Limit.When, job.Limit.When.Unit)
		}
	})
}

// cardRow writes a row that ends with the two boxes.
func (p *page) cardRow(first func(), rest ...func()) {
	p.put(`<tr><th scope="row">`)
	first()
	p.put("</th>")
	for _, cell := range rest {
		p.put("<td>")
		cell()
		p.put("</td>")
	}
	p.boxes(2)
	p.put("</tr>\n")
}

// cardName writes a path, with the limit's title.
func (p *page) cardName(job *bench.Job, path string) {
	p.path(path)
	if job.Limit != nil && job.Limit.Title != "" {
		p.aside("", func() { p.text(job.Limit.Title) })
	}
}

func (p *page) cardLast(spot bench.Spot) {
	if spot.Last == nil {
		p.put("–")
		return
	}
	if spot.Last.Words != "" {
		p.text(spot.Last.Words)
		return
	}
	p.figure(spot.Last.Quantity.Shown())
}

// cardFasteners writes what is pulled down: to what, in which steps and order, with what.
func (p *page) cardFasteners(jobs []*bench.Job) {
	if len(jobs) == 0 {
		return
	}
	p.section("fasteners", "To be pulled down")
	p.table("To be pulled down", "Fastener", "To", "Thread", "Spanner", "Last", "Found", "Set")
	for _, job := range jobs {
		for _, spot := range job.Spots {
			p.cardRow(func() { p.cardName(job, spot.Path) }, func() { p.cardTorque(job) }, func() { p.cardThread(job.Limit) },
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
func (p *page) cardTorque(job *bench.Job) {
	if job.Limit == nil {
		p.put("no limit")
	} else {
		for _, step := range job.Limit.Steps {
			p.inBoth([]quantity.Quantity{step})
			p.put(" then ")
		}
		p.cardLimit(job)
	}
	p.cardTool(job)
}

// cardTool names the tool of a job where there is a choice, or where none reaches it.
func (p *page) cardTool(job *bench.Job) {
	if p.site.Hides("tools") || len(job.Tools) == 0 || !job.Picked && !job.Short {
		return
	}
	label := literal("")
	if job.Short {
		label = "out of reach of the "
	}
	p.aside(label, func() { p.text(job.Tools[0].Title) })
}

// cardLimit writes the last or only figure of a limit in both units, and what there is to know of it.
func (p *page) cardLimit(job *bench.Job) {
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

// cardReadings writes what is to be read: what stands alone in one table, what one limit holds at several places side by side.
func (p *page) cardReadings(c *bench.Card) {
	jobs := slices.Concat(c.Marks, c.Readings)
	if len(jobs) == 0 {
		return
	}
	p.section("readings", "To be seen and read")
	for _, job := range jobs {
		if len(job.Spots) > 1 {
			p.cardGroup(job)
		}
	}
	jobs = slices.DeleteFunc(jobs, func(job *bench.Job) bool { return len(job.Spots) > 1 })
	if len(jobs) > 0 {
		p.table("To be seen and read", "Where", "Limit", "Last", "Found", "Left")
		for _, job := range jobs {
			p.cardRow(func() { p.cardName(job, job.Path) }, func() { p.cardHeld(job) }, func() { p.cardLast(job.Spots[0]) })
		}
		p.endTable()
	}
	p.endSection()
}

// cardHeld writes what a job holds a reading to, and how it is read and set.
func (p *page) cardHeld(job *bench.Job) {
	switch {
	case job.Limit == nil:
		p.put("no limit")
	case len(job.Limit.Expect) > 0:
		p.limit(job.Limit)
	default:
		p.cardLimit(job)
	}
	p.cardLeaves(job)
	p.cardTurn(job)
	p.cardTool(job)
}

// cardLeaves says which leaves prove it, as far as tools are published.
func (p *page) cardLeaves(job *bench.Job) {
	if job.Goes == nil || p.site.Hides("tools") {
		return
	}
	p.aside("in if ", func() {
		p.figure(job.Goes.Shown())
		p.put(" goes and ")
		if job.Stops == job.Goes {
			p.put("drags")
			return
		}
		p.figure(job.Stops.Shown())
		p.put(" drags or stops")
	})
}

// cardTurn says how a valve's lash is set.
func (p *page) cardTurn(job *bench.Job) {
	switch {
	case job.Turn == nil:
	case job.Turn.Shim:
		p.aside("too wide: thicker shim; too tight: thinner", func() {})
	default:
		p.aside("too wide: screw in; too tight: screw out", func() {
			if job.Turn.Quarter > 0 {
				p.put("; a quarter turn is ")
				u := p.site.journal.Units.Leading(quantity.Length)
				p.figure(quantity.Show(job.Turn.Quarter, u, 1e-6))
			}
		})
	}
}

// cardGroup writes the places that one limit holds, side by side.
func (p *page) cardGroup(job *bench.Job) {
	p.put("<div class=\"job\">\n<p>")
	p.cardName(job, job.Path)
	p.put(" ")
	p.cardHeld(job)
	p.put("</p>\n")
	for _, spots := range bench.Columns(job.Spots, mostColumns) {
		heads := []string{""}
		for _, spot := range spots {
			heads = append(heads, spot.Name)
		}
		p.table(job.Path, heads...)
		if slices.ContainsFunc(spots, func(spot bench.Spot) bool { return spot.Last != nil }) {
			p.put(`<tr><th scope="row">Last</th>`)
			for _, spot := range spots {
				p.put("<td>")
				p.cardLast(spot)
				p.put("</td>")
			}
			p.put("</tr>\n")
		}
		for _, label := range []literal{"Found", "Left"} {
			p.put(`<tr><th scope="row">`)
			p.put(label)
			p.put("</th>")
			p.boxes(len(spots))
			p.put("</tr>\n")
		}
		p.endTable()
	}
	p.put("</div>\n")
}

// pullsOnCard is how many lines a card has for pulls: three repeats tell their scatter, and one may go wrong.
const pullsOnCard = 4

// cardPulls writes lines for the pulls of a session, and what has to be known for them to be compared.
func (p *page) cardPulls(e *model.Entry) {
	tables := e.Fields.Tables("pulls")
	if len(tables) == 0 {
		return
	}
	p.section("pulls", "Pulls")
	p.table("Pulls", "Pull", "Peak power", "Peak torque", "Air at the intake", "Air pressure", "Humidity", "Gear", "Correction on the sheet")
	for i := range pullsOnCard {
		p.put(`<tr><th scope="row">`)
		p.text(strconv.Itoa(i + 1))
		p.put("</th>")
		p.boxes(7)
		p.put("</tr>\n")
	}
	p.endTable()
	p.endSection()
}

// boxes writes so many cells to write in.
func (p *page) boxes(n int) {
	for range n {
		p.put(`<td class="box"></td>`)
	}
}

// cardSteps writes the steps of the entry, each with a box: the card is for doing them.
func (p *page) cardSteps(e *model.Entry) {
	if len(e.Body.Tasks) == 0 {
		return
	}
	p.section("steps", "Steps")
	p.put("<ul class=\"steps\">\n")
	for _, task := range e.Body.Tasks {
		p.put(`<li><span class="mark" aria-hidden="true">☐</span> `)
		p.text(task.Text)
		p.put("</li>\n")
	}
	p.put("</ul>\n")
	p.endSection()
}

// customary are the units that figures of a metric journal are shown in beside, on a card, and metric the other way round: a spanner, a leaf and a
// wrench may be marked in either.
var (
	customary = map[quantity.Dimension]string{quantity.Length: "in", quantity.Torque: "lbf·ft", quantity.Pressure: "psi", quantity.Temperature: "°F"}
	metric    = map[quantity.Dimension]string{quantity.Length: "mm", quantity.Torque: "N·m", quantity.Pressure: "kPa", quantity.Temperature: "°C"}
	isInch    = []string{"in", "thou", "ft", "lbf·ft", "lbf·in", "psi", "°F"}
)

// counterpart is the unit that figures in one are shown in beside on a card; nil for none.
func (s *site) counterpart(u *quantity.Unit) *quantity.Unit {
	if u == nil {
		return nil
	}
	inch := slices.Contains(isInch, u.Symbol)
	other := s.others[u]
	if other != nil && slices.Contains(isInch, other.Symbol) != inch {
		return other
	}
	symbol := customary[u.Dimension]
	if inch {
		symbol = metric[u.Dimension]
	}
	if symbol == "" {
		return other
	}
	return quantity.UnitOf(symbol, u.Dimension)
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
