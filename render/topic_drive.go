package render

import (
	"strings"

	"example.org/locknut/journal/quantity"
	"example.org/locknut/render/chart"
)

// gearRows list the gears, from the lowest on: what each is, how fast it goes, and what the engine falls by when it takes over.
func gearRows(s *site) []listRow {
	const title = "By gear"
	heads := []string{"Gear", "Engine over wheel", "At the redline", "Engine at cruising speed", "Falls by, from the gear before"}
	if v := s.inForce("drive.cruise"); v != nil && v.Quantity.Unit != nil {
		heads[3] = "Engine at " + v.Quantity.Shown().Printed()
	}
	var rows []listRow
	for _, gear := range s.gears() {
		rows = append(rows, listRow{section: "gears", title: title, label: title, heads: heads, class: fitTable, write: func(p *page) {
			p.row(func() { p.text(gear) }, func() { p.numberIf("drive.ratio." + gear) }, func() { p.numberIf("drive.speed." + gear) }, func() { p.numberIf("drive.rpm." + gear) },
				func() { p.numberIf(s.dropInto(gear)) })
		}})
	}
	return rows
}

// gears returns the names of the gears whose ratio is worked out, from the lowest on.
func (s *site) gears() []string {
	var gears []string
	for _, n := range s.inFamily("drive-ratio") {
		if gear, ok := strings.CutPrefix(n.Path, "drive.ratio."); ok {
			gears = append(gears, gear)
		}
	}
	return gears
}

// dropInto returns the path of the fall of the engine speed where a gear takes over from the one before.
func (s *site) dropInto(gear string) string {
	for _, n := range s.inFamily("rev-drop") {
		if strings.HasSuffix(n.Path, "-"+gear) {
			return n.Path
		}
	}
	return ""
}

// numberIf writes the worked-out number at a path, linked to how it is worked out; nothing where there is none.
func (p *page) numberIf(path string) {
	if n := p.site.current[path]; n != nil {
		p.numberLinked(n)
	}
}

// gearChart draws the road speed by engine speed, gear by gear.
func gearChart(p *page) {
	s := p.site
	data := chart.GearsData{Rotation: quantity.UnitShown("rpm")}
	if v := s.inForce("engine.redline"); v != nil {
		data.Redline = readingOf(v, data.Rotation)
	}
	for _, gear := range s.gears() {
		speed := s.current["drive.speed."+gear]
		if speed == nil || speed.Reason != "" {
			continue
		}
		data.Speed = speed.Unit
		data.Gears = append(data.Gears, chart.Gear{Name: gear, AtRedline: s.drawnNumber("drive.speed." + gear), Drop: s.drawnNumber(s.dropInto(gear))})
	}
	p.drawnSection("speeds", "Speed by gear", func(dst []byte, size chart.Size) []byte { return chart.GearSpeeds(dst, data, size) })
}

// drawnNumber is the worked-out number at a path as charts draw it, in its own unit; nothing where there is none.
func (s *site) drawnNumber(path string) chart.Reading {
	n := s.current[path]
	if n == nil || n.Reason != "" {
		return chart.Reading{}
	}
	x, shown := n.Estimate.Value, n.Shown()
	if u := n.Estimate.Expanded(); n.IsUnsure() { // a label without ± stops at the first figure that is uncertain
		shown = quantity.Show(x, n.Unit, 10*quantity.TwoFigures(u))
	}
	return chart.Reading{Is: true, Low: x, High: x, Expanded: n.Estimate.Expanded(), Shown: shown}
}
