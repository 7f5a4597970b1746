package render

import (
	"math"
	"slices"

	"example.org/locknut/journal/bench"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// cardReadings writes what is to be read: what stands alone in one table, what one limit holds at several places side by side.
func (p *page) cardReadings(c *bench.Card) {
	jobs := slices.DeleteFunc(slices.Concat(c.Marks, c.Readings), p.isSquares)
	if len(jobs) == 0 {
		return
	}
	worked := slices.DeleteFunc(slices.Clone(jobs), func(job *bench.Job) bool { return !job.Worked })
	jobs = slices.DeleteFunc(jobs, func(job *bench.Job) bool { return job.Worked })
	p.section("readings", "To be seen and read")
	for _, job := range jobs {
		if len(job.Spots) > 1 {
			p.cardGroup(job)
		}
	}
	jobs = slices.DeleteFunc(jobs, func(job *bench.Job) bool { return len(job.Spots) > 1 })
	if len(jobs) > 0 {
		p.stack("To be seen and read", "Where", "Limit", "Last", "Found", "Left")
		for _, job := range jobs {
			p.cardRow(func() { p.cardName(job, job.Path) }, func() { p.cardHeld(job) }, func() { p.cardLast(job.Spots[0]) })
		}
		p.endTable()
	}
	p.cardWorked(worked)
	p.endSection()
}

// isSquares reports whether a job is to log the mixture, and the squares are known that it is logged by: those have a table of their own.
func (p *page) isSquares(job *bench.Job) bool {
	return parse.IsOfMixture(job.Path) && p.site.journal.Target != nil
}

// mostOnCard is how many squares have room for a line beside their figure, side by side on a sheet.
const mostOnCard = 7

// cardSquares writes the mixture that is wanted, square by square, with room beside each figure for what is found.
func (p *page) cardSquares(c *bench.Card) {
	target := p.site.journal.Target
	if !slices.ContainsFunc(c.Readings, p.isSquares) {
		return
	}
	p.section("mixture", "Mixture wanted: lambda by throttle and engine speed, ± "+model.ShowLambda(target.Tolerance))
	heads := []string{"Throttle"}
	for column := range target.Speed {
		_, speed := target.Names(0, column)
		heads = append(heads, speed.String())
	}
	room := " / ____"
	if len(target.Speed) > mostOnCard {
		room = "" // the figure that is found goes above the one that is wanted
	}
	p.table("Mixture wanted", heads...)
	for row := range target.Throttle {
		throttle, _ := target.Names(row, 0)
		cells := make([]func(), len(target.Speed))
		for column := range cells {
			cells[column] = func() {
				if lambda := target.Lambda[row][column]; math.IsNaN(lambda) {
					p.put("–")
				} else {
					p.text(model.ShowLambda(lambda) + room)
				}
			}
		}
		p.row(func() { p.text(throttle.String()) }, cells...)
	}
	p.endTable()
	p.endSection()
}

// cardWorked writes what is worked out from readings, and from which: there is nothing to write in.
func (p *page) cardWorked(jobs []*bench.Job) {
	if len(jobs) == 0 {
		return
	}
	p.table("Worked out", "Worked out", "Limit", "From")
	for _, job := range jobs {
		for _, spot := range job.Spots {
			p.row(func() { p.cardName(job, spot.Path) }, func() { p.cardHeld(job) }, func() { p.cardFrom(spot.Path) })
		}
	}
	p.endTable()
}

// cardFrom writes the paths of the readings that go into the numbers at and below a path.
func (p *page) cardFrom(path string) {
	var from []string
	for _, n := range p.site.numbers {
		if !parse.IsAtOrBelow(n.Path, path) {
			continue
		}
		for _, v := range valuesOf(n) {
			if v.Origin != model.FromSheet && !slices.Contains(from, v.Path) {
				from = append(from, v.Path)
			}
		}
	}
	if len(from) == 0 {
		p.put("–")
	}
	for i, path := range from {
		if i > 0 {
			p.put(", ")
		}
		p.path(path)
	}
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
		p.aside("too wide: close the gap; too tight: open it", func() {
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
	for _, spots := range inColumns(job.Spots) {
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

// mostColumns is how many positions stand beside one another on a card: as many boxes as a hand can write in fit on the width of a sheet.
const mostColumns = 8

// inColumns parts the spots of a job into rows, each as long as the others or shorter by the least.
func inColumns(spots []bench.Spot) [][]bench.Spot {
	rows := max(1, (len(spots)+mostColumns-1)/mostColumns)
	return slices.Collect(slices.Chunk(spots, max(1, (len(spots)+rows-1)/rows)))
}
