package render

import (
	_ "embed"
	"slices"
	"strconv"
	"strings"

	"example.org/locknut/journal/bench"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/upkeep"
)

// cardCSS lays cards out, alike in every theme: how much goes on a sheet is no matter of taste.
//
//go:embed card.css
var cardCSS []byte

// tablesCSS lays tables out that stay compact on a narrow screen, alike in every theme.
//
//go:embed tables.css
var tablesCSS []byte

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
	c := bench.Of(s.journal, e, bench.View{Value: s.ShowsValue, Limit: s.ShowsLimit, Path: s.ShowsPath})
	p.begin(head{title: "Bench card: " + e.Title, about: "A sheet for the bench: " + e.Title + ".", crumbs: []crumb{entriesCrumb, {s.entryPlace(e), e.Title}}, plate: s.plateStill()})
	p.put("<div class=\"bench\">\n")
	p.cardFacts(c)
	p.cardCautions(e)
	p.cardFasteners(c.Fasteners)
	p.cardReadings(c)
	p.cardSquares(c)
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

// cardTemperature writes the engine temperatures that the limits ask for, each with all that asks for it.
func (p *page) cardTemperature(c *bench.Card) {
	type wish struct {
		when  *quantity.Quantity
		paths []string
	}
	var wishes []wish
	for _, job := range slices.Concat(c.Marks, c.Fasteners, c.Readings) {
		if job.Limit == nil || job.Limit.When == nil {
			continue
		}
		first, _, _ := strings.Cut(job.Path, ".")
		i := slices.IndexFunc(wishes, func(w wish) bool { return *w.when == *job.Limit.When })
		if i < 0 {
			i = len(wishes)
			wishes = append(wishes, wish{when: job.Limit.When})
		}
		if !slices.Contains(wishes[i].paths, first) {
			wishes[i].paths = append(wishes[i].paths, first)
		}
	}
	p.term("Engine at", func() {
		p.put("____________")
		for _, w := range wishes {
			p.put("; for ")
			p.text(strings.Join(w.paths, ", ") + " ")
			p.bounds(*w.when, w.when.Unit)
		}
	})
}

// cardRow writes a row of a stacked table, which ends with the two boxes: on a narrow screen nobody writes into those, and they are not shown.
func (p *page) cardRow(first func(), rest ...func()) {
	p.put(`<tr><th scope="row">`)
	first()
	p.put("</th>")
	for i, cell := range rest {
		p.put("<td")
		p.attr("data-head", p.heads[i+1])
		p.put(">")
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
	if all, _ := countSteps(e); all == 0 {
		return
	}
	p.section("steps", "Steps")
	p.put("<ul class=\"steps\">\n")
	for task := range stepsOf(e) {
		p.put(`<li><span class="mark" aria-hidden="true">☐</span> `)
		p.stepText(e, task)
		p.put("</li>\n")
	}
	p.put("</ul>\n")
	p.endSection()
}
