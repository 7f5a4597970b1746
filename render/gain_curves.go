package render

import (
	"math"
	"slices"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/render/chart"
)

// gainCurvesUpTo are the gains over the engine speed that are told of an entry, nil is now: those of the stages that its own pulls end, or where there is none, of all up to then together.
// A stage of which anything is hidden is not told.
func (s *site) gainCurvesUpTo(until *model.Entry, total *derive.Number) chart.GainCurvesData {
	data := chart.GainCurvesData{Speed: parse.UnitSpelled("rpm"), Power: s.powerUnit(s.sessions(until))}
	stages, together := s.sums.GainsOver(until)
	if !together {
		for _, stage := range stages {
			if s.showsStage(stage) {
				data.Stages = append(data.Stages, gainOf(stage).drawn())
			}
		}
	} else if total != nil && len(stages) > 0 && s.showsStages(stages) {
		data.Stages = append(data.Stages, allGains(stages).drawn())
	}
	return data
}

// showsStage reports whether nothing that a stage rests on is hidden.
func (s *site) showsStage(stage *derive.Stage) bool { return s.current[stage.Path] != nil }

func (s *site) showsStages(stages []*derive.Stage) bool {
	return !slices.ContainsFunc(stages, func(stage *derive.Stage) bool { return !s.showsStage(stage) })
}

// gainOver is the gain of one stage over the engine speed, or of all stages together.
type gainOver struct {
	label   string
	isTotal bool
	*derive.GainCurve
}

func (g gainOver) drawn() chart.GainCurve {
	return chart.GainCurve{Label: g.label, IsTotal: g.isTotal, Points: drawnPoints(g.Points(), ""), Reason: g.Reason}
}

func gainOf(stage *derive.Stage) gainOver {
	return gainOver{label: stageName(stage), GainCurve: derive.GainOver([]*derive.Stage{stage})}
}

func allGains(stages []*derive.Stage) gainOver {
	label := "all stages together"
	if len(stages) == 1 {
		label = stageName(stages[0])
	}
	return gainOver{label, true, derive.GainOver(stages)}
}

// gainsOverNow are all stages over the engine speed, and after them all of them together.
func (s *site) gainsOverNow() []gainOver {
	var list []gainOver
	for _, stage := range s.sums.Stages {
		if s.showsStage(stage) {
			list = append(list, gainOf(stage))
		}
	}
	if len(list) > 1 && s.current["gain.total"] != nil {
		list = append(list, allGains(s.sums.Stages))
	}
	return list
}

// gainsOverSpeed draws gains over the engine speed, the newest that have room, and has a table of all of them at round speeds below.
func (p *page) gainsOverSpeed() {
	s := p.site
	list := s.gainsOverNow()
	earlier := max(0, len(list)-chart.MostGains)
	data := chart.GainCurvesData{Speed: parse.UnitSpelled("rpm"), Power: s.powerUnit(s.sessions(nil)), Earlier: earlier}
	for _, one := range list[earlier:] {
		data.Stages = append(data.Stages, one.drawn())
	}
	const id, title = "gain-over-speed", "Gain over engine speed"
	before := len(p.bytes)
	p.section(id, title)
	if !p.figureOf(func(dst []byte, size chart.Size) []byte { return chart.GainCurves(dst, data, size) }, "") {
		p.bytes = p.bytes[:before]
		p.dropSection()
		return
	}
	p.gainsAtSpeeds(list, data.Speed, data.Power)
	p.endSection()
}

// gainsAtSpeeds is the table of gains at round engine speeds that one of them covers at least.
func (p *page) gainsAtSpeeds(list []gainOver, rpm, power *quantity.Unit) {
	low, high := math.Inf(1), math.Inf(-1)
	for _, one := range list {
		if one.Reason == "" {
			from, to := one.Span()
			low, high = min(low, rpm.FromSI(from)), max(high, rpm.FromSI(to))
		}
	}
	if !(low < high) {
		return
	}
	step := 250.0
	for (high-low)/step > 7 {
		step *= 2
	}
	heads := []string{"Gain at"}
	var speeds []float64
	for at := math.Ceil(low/step-1e-9) * step; at <= high+1e-6; at += step {
		speeds = append(speeds, rpm.SI(at))
		heads = append(heads, quantity.Show(rpm.SI(at), rpm, rpm.SI(1)).String())
	}
	if len(speeds) == 0 {
		return
	}
	p.stack("Gain at round engine speeds", heads...)
	for _, one := range list {
		var cells []func()
		for _, at := range speeds {
			cells = append(cells, func() { p.gainAt(one, at, power) })
		}
		p.row(func() {
			p.text(one.label)
			if one.Reason != "" {
				p.aside("not told: ", func() { p.message(one.Reason) })
			}
		}, cells...)
	}
	p.endTable()
}

// gainAt writes a gain at one engine speed, with its interval where that is known; a dash where the pulls don't tell it.
func (p *page) gainAt(one gainOver, speed float64, power *quantity.Unit) {
	var gain quantity.Estimate
	is := one.Reason == ""
	if is {
		gain, is = one.At(speed)
	}
	if !is {
		p.put("–")
		return
	}
	if gain.Expanded() <= 0 {
		p.figure(quantity.Show(gain.Value, power, power.StepSI(0.01, 1)).Signed(gain.Value))
		return
	}
	value, spread := quantity.ShowEstimate(gain, power)
	value = value.Signed(gain.Value)
	p.figure(quantity.Shown{Number: value.Number + " ± " + spread.Number, Unit: spread.Unit})
}
