package render

import (
	"slices"
	"strings"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/render/chart"
)

// compressionChart draws the cranking pressure of each cylinder beside what is expected and the least that is allowed.
func compressionChart(p *page) {
	s := p.site
	var read []*model.Value
	for _, position := range s.Positions("compression") {
		if v := s.inForce(position); v != nil && v.IsReading() && !slices.Contains(read, v) {
			read = append(read, v)
		}
	}
	if len(read) == 0 {
		return
	}
	data := chart.CompressionData{Unit: read[0].Quantity.Unit}
	strongest := 0.0
	for _, v := range read {
		name := strings.TrimPrefix(strings.TrimPrefix(v.Path, "compression"), ".")
		if name == "" {
			name = "all"
		}
		bar := chart.Cylinder{Name: name, Reading: readingOf(v, data.Unit), Verdict: v.Verdict}
		if v.Unjudged != model.Judged {
			bar.Reason = v.Unjudged.String()
		}
		data.Cylinders = append(data.Cylinders, bar)
		strongest = max(strongest, v.Estimate.Value)
	}
	if n := s.current["engine.cranking-pressure"]; n != nil && n.Reason == "" && !n.AtMost {
		at, u := n.Estimate.Value, n.Estimate.Expanded()
		data.Expected = chart.Limit{Low: chart.Bound{Is: true, SI: at - u}, High: chart.Bound{Is: true, SI: at + u}, Step: n.Step()}
	}
	if n := s.current["spread.compression"]; n != nil && n.Reason == "" && n.Limit == nil {
		least := derive.LeastSpread * strongest
		data.Lowest = chart.Reading{Is: true, Low: least, High: least, Shown: quantity.Show(least, data.Unit, read[0].Quantity.StepSI())}
		data.Rule = "75 % of the strongest, TM 5-4210-230-14&P-1"
	}
	p.drawnSection("pressure", "Cranking pressure", func(dst []byte, size chart.Size) []byte { return chart.Compression(dst, data, size) })
}
