package render

import (
	"math"
	"strconv"
	"strings"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
	"example.org/locknut/journal/upkeep"
)

// plateField is one figure of a data plate.
type plateField struct {
	label  string
	write  func(*page)
	counts bool // it is a bare number, which says nothing without its label
}

// plateNow is the state of the engine now: for the first page and the lists.
func (s *site) plateNow() []plateField {
	fields := s.plateNumbers(s.numbers)
	day := s.journal.Asked
	if e := s.lastDated(); e != nil && e.Date.CompareDay(day) > 0 {
		day = e.Date
	}
	if !day.IsZero() {
		fields = append(fields, plateField{label: "as of", counts: true, write: func(p *page) { p.date(day) }})
	}
	fields = append(fields, s.plateMeter(s.lastDated())...)
	fields = append(fields, s.platePower(s.journal.Current("power.peak"), find(s.numbers, "gain.total"))...)
	fields = append(fields, plateCount("open findings", len(s.found.in[source.Open]), warningsCrumb.at))
	due := 0
	for i := range s.upkeep {
		if s.upkeep[i].State >= upkeep.Due {
			due++
		}
	}
	if due > 0 {
		fields = append(fields, plateCount("due", due, upkeepCrumb.at))
	}
	return fields
}

// plateCount is a number of things, linked to where they stand.
func plateCount(label string, n int, at place) plateField {
	return plateField{label: label, counts: true, write: func(p *page) {
		link := p.open(at)
		p.put(`<span class="figure">`)
		p.text(strconv.Itoa(n))
		p.put("</span>")
		if link {
			p.put("</a>")
		}
	}}
}

// plateAsLeft is the state of the engine as an entry left it, with the day of that.
func (s *site) plateAsLeft(e *model.Entry, numbers []*derive.Number) []plateField {
	var fields []plateField
	if !e.Date.IsZero() {
		fields = append(fields, plateField{label: "as of", counts: true, write: func(p *page) { p.day(e) }})
	}
	fields = append(append(fields, s.plateNumbers(numbers)...), s.plateMeter(e)...)
	return append(fields, s.platePower(s.journal.At("power.peak", e), find(numbers, "gain.total"))...)
}

func (s *site) plateMeter(e *model.Entry) []plateField {
	meter := s.MeterThen(e)
	if meter == nil {
		return nil
	}
	return []plateField{{label: "meter", write: func(p *page) { p.figure(meter.Shown()) }}}
}

// plateStill is what every other page carries.
func (s *site) plateStill() []plateField {
	return s.plateNumbers(s.numbers)[:min(1, len(s.plateNumbers(s.numbers)))]
}

func (s *site) plateNumbers(numbers []*derive.Number) []plateField {
	var fields []plateField
	for _, f := range [][2]string{{"engine.displacement", "capacity"}, {"engine.compression-ratio", "ratio"}} {
		if n := find(numbers, f[0]); n != nil && n.Reason == "" {
			fields = append(fields, plateField{label: f[1], write: func(p *page) { p.figure(plateFigure(n)) }})
		}
	}
	return fields
}

// plateFigure is a number as a plate has it stamped: to four digits at most.
func plateFigure(n *derive.Number) quantity.Shown {
	step := n.Step()
	if u := n.Estimate.Expanded(); u > 0 {
		step = quantity.TwoFigures(u)
	}
	four := math.Pow(10, math.Floor(math.Log10(math.Abs(n.Unit.FromSI(n.Estimate.Value))))-3)
	return quantity.Show(n.Estimate.Value, n.Unit, max(step, n.Unit.StepSI(four, 1)))
}

func (s *site) platePower(v *model.Value, gain *derive.Number) []plateField {
	if v == nil || v.Quantity.Unit == nil || !s.ShowsValue(v) {
		return nil
	}
	shown := s.besideOthers(v)
	return []plateField{{label: joinedWords("power", shown.words()), write: func(p *page) {
		p.figure(s.lead(shown.Quantity))
		if isGainUpTo(gain, v) {
			alike := *gain // in the unit of the power that it stands beside
			if alike.Unit = v.Quantity.Unit; s.journal.Units.Lead[quantity.Power] != nil {
				alike.Unit = s.journal.Units.Lead[quantity.Power]
			}
			p.put(` <span class="gain">(`)
			p.figure(alike.Shown().Signed(gain.Estimate.Value))
			p.put(`<span class="since"> in `)
			p.text(quantity.Counted(len(gain.Inputs)+gain.Earlier, "stage"))
			p.put(`</span>)</span>`)
		}
	}}}
}

// joinedWords puts two texts behind each other, the second where there is one.
func joinedWords(a, b string) string { return strings.TrimSpace(a + " " + b) }

// isGainUpTo reports whether a gain over all stages ends at a power: a later figure of another origin is no part of it.
func isGainUpTo(gain *derive.Number, power *model.Value) bool {
	if gain == nil || gain.Reason != "" || power.Origin != model.FromPulls || len(gain.Inputs) == 0 {
		return false
	}
	last := gain.Inputs[len(gain.Inputs)-1].Number
	return last != nil && last.Stage != nil && last.Stage.To.Peak == power
}

// lastDated returns the newest entry that is published and no plan.
func (s *site) lastDated() *model.Entry {
	for i := len(s.Entries) - 1; i >= 0; i-- {
		if !s.Entries[i].Plan {
			return s.Entries[i]
		}
	}
	return nil
}

// find returns the number at a path, nil if there is none.
func find(numbers []*derive.Number, path string) *derive.Number {
	for _, n := range numbers {
		if n.Path == path {
			return n
		}
	}
	return nil
}
