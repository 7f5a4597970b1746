package render

import (
	"strings"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/render/chart"
)

// lashRows list the lash of each valve, how far it is from what it should be, and how it is set right.
func lashRows(s *site) []listRow {
	const title = "Lash by valve"
	heads := []string{"Valve", "Lash", "Verdict", "Limit", "Off by", "To set it right"}
	var rows []listRow
	for _, path := range s.topicPaths[0] {
		below, isLash := strings.CutPrefix(path, "lash.")
		if !isLash {
			continue
		}
		v := s.inForce(path)
		off, turn, shim := s.current["deviation."+below], s.current["adjust."+below], s.current["shim-to-fit."+below]
		rows = append(rows, listRow{section: "lash", title: title, label: title, heads: heads, class: tightTable, write: func(p *page) {
			p.row(func() { p.pathTo(s.pathPlace(path), below) }, func() { p.valueLink(v) }, func() {
				if v.Limit != nil {
					p.beside(s.stripOf(v))
					p.judgedThere(v)
				}
			}, func() { p.limitOf(v) }, func() {
				if off != nil {
					p.numberLink(off)
				}
			}, func() {
				if shim != nil && shim.Reason == "" {
					p.put("a shim of ")
				}
				for _, n := range []*derive.Number{turn, shim} {
					if n != nil {
						p.numberLinked(n)
					}
				}
			})
		}})
	}
	return rows
}

// isLash reports whether a path has a row in the table of lash.
func isLash(_ *site, path string) bool { return strings.HasPrefix(path, "lash.") }

// valveCharts draws when valves and ports open and close, and how far.
func valveCharts(p *page) {
	s := p.site
	angle := quantity.UnitOf("°", quantity.Angle)
	valves := chart.ValveData{Unit: angle, Now: s.valves((*site).inForce), Card: s.cardValves()}
	p.drawnSection("timing", "Valve timing", func(dst []byte, size chart.Size) []byte { return chart.ValveTiming(dst, valves, size) })
	ports := chart.PortData{Unit: angle, Now: chart.Ports{Exhaust: s.port("exhaust"), Transfer: s.port("transfer"), Intake: s.port("intake"), Blowdown: s.drawnNumber("port.blowdown")}}
	p.drawnSection("ports", "Port timing", func(dst []byte, size chart.Size) []byte { return chart.PortTiming(dst, ports, size) })
	lift := chart.LiftData{Angle: angle, Lift: quantity.UnitShown("mm"), Now: chart.Lobes{Exhaust: s.lobe("exhaust"), Intake: s.lobe("intake")}}
	p.drawnSection("lift", "Lift of the cam, by degree wheel", func(dst []byte, size chart.Size) []byte { return chart.LiftCurves(dst, lift, size) })
}

// cardValves are the events that a fitted part brings, where something else is in force; nothing is worked out from them.
func (s *site) cardValves() chart.Valves {
	card := s.valves((*site).onCard)
	card.Overlap, card.Exhaust.Duration, card.Intake.Duration = chart.Reading{}, chart.Reading{}, chart.Reading{}
	return card
}

// valves are the events that a look-up of values gives.
func (s *site) valves(at func(*site, string) *model.Value) chart.Valves {
	var lift string
	for _, path := range []string{"cam.intake.opens", "cam.intake.closes", "cam.exhaust.opens", "cam.exhaust.closes"} {
		event := at(s, path)
		if event == nil {
			continue
		}
		v := s.journal.CheckingLift(event)
		if v == nil || !s.ShowsValue(v) || lift != "" && lift != plainValue(v) {
			lift = "" // not one for all
			break
		}
		lift = plainValue(v)
	}
	return chart.Valves{Exhaust: s.opening("cam.exhaust", at), Intake: s.opening("cam.intake", at), Lift: lift, Overlap: s.drawnNumber("cam.overlap")}
}

// opening is from when to when something is open.
func (s *site) opening(path string, at func(*site, string) *model.Value) chart.Opening {
	angle := quantity.UnitOf("°", quantity.Angle)
	event := func(path string) chart.Reading {
		if v := at(s, path); v != nil {
			return readingOf(v, angle)
		}
		return chart.Reading{}
	}
	return chart.Opening{Opens: event(path + ".opens"), Closes: event(path + ".closes"), Centre: event(path + ".centre"), Duration: s.drawnNumber(path + ".duration")}
}

func (s *site) port(name string) chart.Opening { return s.opening("port."+name, (*site).inForce) }

// onCard returns what a fitted part brings to a path, where something else is in force there; nil for nothing.
func (s *site) onCard(path string) *model.Value {
	if v := s.brought(path); v != s.inForce(path) {
		return v
	}
	return nil
}

// brought returns what a fitted part brings to a path, nil for nothing.
func (s *site) brought(path string) *model.Value {
	for _, v := range s.histories[path] { // the newest first
		if v.Origin == model.FromPart && v.Part != nil && v.Part.IsFitted() {
			return v
		}
	}
	return nil
}

// tracedPoints are as many as a curve is drawn with.
const tracedPoints = 120

// lobe is the newest published measurement of a lobe with a degree wheel, as long as what it gave is in force.
func (s *site) lobe(side string) chart.Lobe {
	path := "cam." + side
	lobe := chart.Lobe{Opening: s.opening(path, (*site).inForce)}
	lift := s.inForce(path + ".lift")
	if lift == nil || lift.Degreeing() == nil {
		return chart.Lobe{}
	}
	d := lift.Degreeing()
	for _, point := range d.Curve.Traced(tracedPoints) {
		lobe.Points = append(lobe.Points, chart.LiftPoint{Angle: point.Angle, Lift: d.CamLift(point.Lift)})
	}
	unit := quantity.UnitShown("mm")
	lobe.Peak = readingOf(lift, unit)
	if d.At != nil && s.ShowsValue(d.At) {
		lobe.At = readingOf(d.At, unit)
	}
	return lobe
}

// numberLinked writes a number with its words, linked to how it is worked out.
func (p *page) numberLinked(n *derive.Number) {
	link := p.open(p.site.numberPlace(n))
	p.numberWords(n)
	if link {
		p.put("</a>")
	}
}
