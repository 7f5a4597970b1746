package render

import (
	"slices"
	"strconv"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// readings writes the values of an entry: a row each, those of one path together, in the order in which the paths come.
func (p *page) readings(e *model.Entry) {
	groups := p.site.byPath(e)
	if len(groups) == 0 {
		return
	}
	heads := []string{"Where", "State", "Value", "Verdict", "Limit", "Deviation"}
	tool := p.toolCells(slices.Concat(groups...))
	if tool != nil {
		heads = append(heads, "With")
	}
	p.section("readings", "Readings")
	p.classed(readingTable, "Readings", heads...)
	for _, group := range groups {
		for i, v := range group {
			p.put("<tr")
			p.valueID(v)
			p.put(">")
			if i == 0 {
				p.groupHead(v.Path, len(group))
			}
			p.reading(v)
			if tool != nil {
				tool(v)
			}
			p.put("</tr>\n")
		}
	}
	p.endTable()
	p.endSection()
}

// byPath returns the published values of an entry, less the pulls', by path.
func (s *site) byPath(e *model.Entry) [][]*model.Value {
	groups := make([][]*model.Value, 0, len(e.Values))
	at := make(map[string]int, len(e.Values))
	for i, v := range e.Values {
		if v.Origin == model.FromPulls && !v.IsLogged() || !s.ShowsValue(v) {
			continue
		}
		if group, there := at[v.Path]; there {
			groups[group] = append(groups[group], v)
			continue
		}
		at[v.Path] = len(groups)
		groups = append(groups, e.Values[i:i+1:i+1]) // most are alone
	}
	return groups
}

// groupHead writes the head of the rows of one path.
func (p *page) groupHead(path string, rows int) {
	p.put(`<th scope="rowgroup"`)
	if rows > 1 {
		p.attr("rowspan", strconv.Itoa(rows))
	}
	p.put(">")
	p.path(path)
	p.put("</th>")
}

// reading writes the cells of a value, its path and its tool aside.
func (p *page) reading(v *model.Value) {
	p.put("<td>")
	p.origin(v)
	p.put("</td><td>")
	p.value(v)
	p.details(v)
	p.put("</td><td>")
	p.beside(p.site.stripOf(v))
	p.judged(v)
	p.put("</td><td>")
	p.limitOf(v)
	p.put("</td><td>")
	p.deviation(v)
	p.put("</td>")
}

// toolCells returns what writes the cell of a value's tool; nil where no value has one that is published.
func (p *page) toolCells(values []*model.Value) func(*model.Value) {
	if p.site.Hides("tools") || !slices.ContainsFunc(values, func(v *model.Value) bool { return v.Tool != nil }) {
		return nil
	}
	return func(v *model.Value) {
		p.put("<td>")
		if v.Tool != nil {
			p.to(p.site.toolPlace(v.Tool), v.Tool.Title)
		}
		p.put("</td>")
	}
}

// origin says where a value comes from.
func (p *page) origin(v *model.Value) {
	switch v.Origin {
	case model.FromSheet:
		p.put("build sheet")
	case model.FromPart:
		p.put("brought by ")
		p.to(p.site.partPlace(v.Part), v.Part.Title)
	case model.Found:
		p.put("found")
	case model.Set:
		p.put("set")
	case model.FromPulls:
		p.put("pulls")
	case model.FromDegreeing:
		p.put("degree wheel")
	case model.FromFuelling, model.FromLogs:
		p.put("log")
	case model.FromWorked:
		p.put("worked out")
	}
}

// details writes what a value carries beside its figure.
func (p *page) details(v *model.Value) {
	if v.Setting() != nil {
		p.aside("at the fastener; the wrench was set to ", func() { p.figure(v.Setting().Quantity.Shown()) })
	}
	p.unsureness(v)
	if v.Temp != nil && v.Entry != nil && v.Temp != v.Entry.EngineTemp {
		p.aside("engine at ", func() { p.figure(v.Temp.Shown()) })
	}
	if v.Written == nil || v.Written.Details == nil {
		return
	}
	d := v.Written.Details
	if !d.Was.IsZero() {
		p.aside("corrected; it said ", func() { p.element("s", d.Was.Text) })
	}
	if !d.Note.IsZero() {
		p.aside("", func() { p.text(d.Note.Text) })
	}
}

// unsureness writes the uncertainty of a figure that does not say it itself: what its tool contributes.
func (p *page) unsureness(v *model.Value) {
	q := v.Quantity
	if q.Unit == nil || q.HasSpread || q.Kind == quantity.Interval || len(v.Repeats) > 0 || v.Estimate.Expanded() <= 0 {
		return
	}
	_, u := quantity.ShowEstimate(v.Estimate, q.Unit)
	p.aside("± ", func() { p.figure(u); p.put(" (k = 2)") })
}

func (p *page) aside(words literal, write func()) {
	p.put(`<span class="aside">`)
	p.put(words)
	write()
	p.put("</span>")
}

// limitOf writes the limit that a value is held to, linked to its own row.
func (p *page) limitOf(v *model.Value) {
	if v.Limit == nil || !p.site.ShowsLimit(v.Limit) {
		return
	}
	link := p.open(p.site.limitPlace(v.Limit))
	p.limit(v.Limit)
	if link {
		p.put("</a>")
	}
}

// isNews reports whether a number stands on the page of the entry that left the engine so: the gain of a stage only where the stage ends
// there, the pull of a bolt only where it was tightened, or every page would hold all of them.
func isNews(n *derive.Number) bool {
	switch {
	case n.Entry == nil || n.Entry.Plan || n.Reason != "" || !n.Concerns(n.Entry):
		return false
	case n.Stage != nil:
		return n.Stage.To.Entry == n.Entry
	case n.Path == "gain.total":
		return true
	}
	ofStages := len(n.Inputs) > 0 && n.Inputs[0].Number != nil && n.Inputs[0].Number.Stage != nil
	return !ofStages || slices.ContainsFunc(n.Inputs, func(in derive.Input) bool { return in.Number != nil && isNews(in.Number) })
}

// mostInputs is how many inputs of a number the page of an entry shows: all stages so far go into a gain since the first pulls.
const mostInputs = 6

// leftNumbers writes what could be worked out of the engine as an entry left it.
func (p *page) leftNumbers(e *model.Entry) {
	if e.Plan {
		return
	}
	var numbers []*derive.Number
	for _, n := range p.asLeft(e) {
		if isNews(n) {
			numbers = append(numbers, n)
		}
	}
	if len(numbers) == 0 {
		return
	}
	p.numberTable("numbers", "Numbers, as this entry left the engine", numbers)
}

// foundNumbers writes what could be worked out of the engine as an entry found it, from what it then replaced.
func (p *page) foundNumbers(e *model.Entry) {
	numbers := slices.DeleteFunc(p.site.sums.AsFound(e), func(n *derive.Number) bool { return !p.site.ShowsNumber(n) })
	if len(numbers) > 0 {
		p.numberTable("found-numbers", "Numbers, as this entry found the engine", numbers)
	}
}

// numberTable writes numbers of an entry, each with where it comes from.
func (p *page) numberTable(id, title string, numbers []*derive.Number) {
	p.section(id, title)
	p.classed(numberTable, title, append([]string{"Number", "Figure", "From"}, p.site.limitHeads(numbers)...)...)
	for _, n := range numbers {
		p.put("<tr")
		p.id(anchor(n.ID()))
		p.put(`><th scope="row">`)
		p.to(p.site.numberPlace(p.site.current[n.Path]), n.Title)
		p.put("</th><td>")
		p.numberWords(n)
		p.put("</td><td>")
		skipped := 0
		if len(n.Inputs) > 0 && n.Inputs[0].Number != nil { // of a formula's own inputs none is left out
			skipped = max(0, len(n.Inputs)-mostInputs)
		}
		before := skipped + n.Earlier
		if before > 0 {
			p.text(quantity.Counted(before, "earlier figure") + "; ")
		}
		p.inputs(n.Inputs[skipped:])
		p.put("</td>")
		p.numberCells(n, numbers)
		p.put("</tr>\n")
	}
	p.endTable()
	p.endSection()
}

// limitHeads are the heads of a table of numbers for their limits: none where no number has one.
func (s *site) limitHeads(numbers []*derive.Number) []string {
	for _, n := range numbers {
		if n.Limit != nil && s.ShowsLimit(n.Limit) {
			return []string{"Limit", "Verdict"}
		}
	}
	return nil
}

// numberCells writes the cells of limit and verdict, in a table that has them.
func (p *page) numberCells(n *derive.Number, all []*derive.Number) {
	if p.site.limitHeads(all) == nil {
		return
	}
	p.put("<td>")
	if n.Limit == nil || !p.site.ShowsLimit(n.Limit) {
		p.put("</td><td></td>")
		return
	}
	link := p.open(p.site.limitPlace(n.Limit))
	p.limit(n.Limit)
	if link {
		p.put("</a>")
	}
	p.put("</td><td>")
	p.beside(p.site.stripOfNumber(n))
	p.verdict(n.Verdict, n.Limit)
	p.put("</td>")
}

// numberWords writes a number and what to do with it, or why it can't be had.
func (p *page) numberWords(n *derive.Number) {
	if n.Reason != "" {
		p.put("– ")
		p.message(n.Reason)
		return
	}
	p.number(n)
	if n.Words != "" {
		p.put(", ")
		p.message(n.Words)
	}
}

// inputs writes what went into a number, each linked to where it stands.
func (p *page) inputs(list []derive.Input) {
	for i, in := range list {
		if i > 0 {
			p.put("; ")
		}
		p.put("<var>")
		p.text(in.Symbol)
		p.put("</var> = ")
		if in.Number != nil {
			link := p.open(p.site.numberPlace(in.Number))
			if in.Number.Reason == "" {
				p.figure(in.Number.Shown())
			} else {
				p.put("–")
			}
			if link {
				p.put("</a>")
			}
			continue
		}
		link := p.open(p.site.valuePlace(in.Value))
		if in.Curves != nil {
			p.text("the mean of " + quantity.Counted(len(in.Curves.Runs), "curve"))
		} else if in.Value.Words != "" {
			p.text(in.Value.Words)
		} else {
			p.figure(in.Value.Quantity.Shown())
		}
		if link {
			p.put("</a>")
		}
	}
}
