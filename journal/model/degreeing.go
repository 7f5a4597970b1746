package model

import (
	"fmt"
	"math"
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// Degreeing is a cam that was measured with a degree wheel and a dial. What it gives holds as its entry left the engine.
type Degreeing struct {
	Entry    *Entry
	Of       string // `cam.intake` or `cam.exhaust`
	File     *source.File
	Curve    *calc.LiftCurve // the lift as it was read, over rad of the crank after the top dead centre of overlap
	AtCam    bool            // the lift was read at the cam, not at the valve
	At       *Value          // the checking lift at the cam at which events are told; nil where none is in force
	Ratio    *Value          // valve movement over cam movement, of a lift read at the valve; nil where none is known
	Name     parse.Text      // of the file, as the entry names it
	ByStop   bool            // the wheel's nought comes from the stop of its entry
	zeroSaid bool            // the entry says where it is
	name     source.Range
	lash     quantity.Estimate // that was in while a lift at the valve was read, in m; nought where it was taken up, and where nothing says so
	mayLash  *Value            // that may have been in: the greatest in force, where nothing says; nil where something does, and where there is none
	heights  *quantity.Unit    // that the lift was read in
	zero     []quantity.Share  // what the wheel's nought may be off by
}

// Degreeing returns the measurement with a degree wheel that the value comes from; nil for none.
func (v *Value) Degreeing() *Degreeing {
	if v.ways == nil {
		return nil
	}
	return v.ways.degreeing
}

// degreedWords are the last words of the paths that a degree-wheel file gives values at.
var degreedWords = [...]string{"opens", "closes", "centre", "lift", "area"}

// degreedPaths returns the paths that a degree-wheel file of an entry gives values at.
func degreedPaths(e *Entry) []string {
	var paths []string
	for _, table := range e.Fields.Tables("degreeing") {
		if of := table.Name("of").Name; isLobe(of) {
			for _, what := range degreedWords {
				paths = append(paths, of+"."+what)
			}
		}
	}
	return paths
}

func isLobe(path string) bool { return path == "cam.intake" || path == "cam.exhaust" }

// degreed takes in the cams that an entry measured with a degree wheel. Of what can't be had from a file nothing is concluded.
func (l *linker) degreed(e *Entry) {
	nothing := func() {
		for _, of := range []string{"cam.intake", "cam.exhaust"} {
			for _, what := range degreedWords {
				l.unread(of+"."+what, orderOf(e.Index, momentDegreed))
			}
		}
	}
	l.stopped(e)
	if e.Fields.IsBad("degreeing") {
		nothing()
	}
	for i := range e.Fields.Tables("degreeing") {
		table := &e.Fields.Tables("degreeing")[i]
		of := table.Name("of")
		if of.IsZero() { // a finding already
			nothing()
			continue
		}
		if !isLobe(of.Name) {
			nothing()
			l.report("unknown-word", source.Error, of.At, of.Name, fmt.Sprintf("`%s` is no lobe that is measured with a degree wheel", of.Typed), "write `cam.intake` or `cam.exhaust`")
			continue
		}
		unread, untold := l.measured(e, table)
		for _, path := range unread {
			l.unread(path, orderOf(e.Index, momentDegreed))
		}
		for _, path := range untold {
			l.untoldAt(path, orderOf(e.Index, momentDegreed))
		}
	}
	l.misplaced(e)
	l.zeroUntold(e)
}

// measured takes in one file. It returns the paths at which it should have given a figure: those for which something can't be read, and those of which a file that is good tells
// nothing.
func (l *linker) measured(e *Entry, table *parse.Fields) (unread, untold []string) {
	d := &Degreeing{Entry: e, Of: table.Name("of").Name, Name: table.Text("data"), AtCam: table.Text("at").Text == "cam", ByStop: FoldWords(table.Text("zero").Text) == "stop", zeroSaid: !table.Text("zero").IsZero(), name: table.Text("data").At}
	var all []string
	for _, what := range degreedWords {
		all = append(all, d.Of+"."+what)
	}
	if table.IsBad("at", "zero", "columns", "lash") || !l.lashRead(d, table) || !l.curve(d, table) {
		return all, nil
	}
	order := orderOf(e.Index, momentDegreed)
	d.At = figureOf(l.journal.at(d.Of+".at", order))
	if !d.AtCam {
		d.Ratio = l.journal.at("engine.rocker-ratio."+d.Of[len("cam."):], order)
	}
	e.Degreeings = append(e.Degreeings, d)
	middle, err := d.Curve.Middle()
	if err != nil {
		l.notDegreed(d, err.Error(), "measure on, from before the valve opens until it has closed")
		return all, nil
	}
	if middle.Spread < 1e-9 {
		middle.Spread = 0 // what a float leaves of flanks that are alike
	}
	centre := l.wheelEstimate(d, all[2], middle.Angle, quantity.Share{Cause: l.cause(d, all[2]) + "/spread", Std: middle.Spread})
	l.tell(d, all[2], centre)
	if !l.knowsCam(d) {
		return l.without(d, "engine.rocker-ratio."+d.Of[len("cam."):], []string{all[0], all[1], all[3], all[4]})
	}
	if d.At != nil && !(d.checking() < d.Curve.Peak()) && l.neverReached(d) {
		return []string{all[0], all[1], all[3], all[4]}, nil // of another unit, its lifts are no lifts
	}
	if d.mayLash != nil && RockerRatios.Holds(d.Ratio.Estimate.Value) { // else the slip is told at the ratio
		l.lashUntold(d)
	}
	l.peakLift(d, all[3])
	if d.At == nil {
		if !l.isUnclearAt(d.Of+".at", e) {
			l.untold(d, fmt.Sprintf("no checking lift is in force at `%s.at`: the file gives the lobe's middle, and no events", d.Of), "write it, as the cam's card gives it, in `[set]` or with what the part brings")
		}
		return l.without(d, d.Of+".at", append(slices.Clip(all[:2]), all[4]))
	}
	if d.isBelowLash() {
		l.untold(d, fmt.Sprintf("the events are told at %s at the cam, and there the lash of %s was not taken up yet: the dial showed nothing of it", d.At.Quantity.Shown(), d.shown(d.lash.Value)),
			"write a checking lift at which the valve is off its seat, or read the wheel with the lash taken up")
		return nil, append(slices.Clip(all[:2]), all[4])
	}
	return l.degreedEvents(d, all), nil
}

// degreedEvents tells when the valve opens and closes by one file, and the area between, at its paths. It returns those that should have had a figure and have none.
func (l *linker) degreedEvents(d *Degreeing, all []string) (unread []string) {
	var events [2]quantity.Estimate
	for i, cross := range []func(float64) (calc.LiftEvent, error){d.Curve.Opens, d.Curve.Closes} {
		event, err := cross(d.checking())
		if err != nil {
			if d.checking() < d.Curve.Peak() {
				l.notDegreed(d, fmt.Sprintf("%s: %s, where the greatest is %s", err, d.shown(d.checking()), d.shown(d.Curve.Peak())), "measure on, from before the valve opens until it has closed")
			}
			return append(slices.Clip(all[i:2]), all[4])
		}
		events[i] = l.eventEstimate(d, all[i], event)
		l.tell(d, all[i], events[i])
	}
	if area, err := d.Curve.Area(d.checking()); err == nil { // what it refuses was reported with the events
		l.tell(d, all[4], l.areaEstimate(d, all[4], area, events))
	}
	return nil
}

// without says whether paths are unread or untold for want of a figure that the file doesn't hold: that one may stand somewhere and not be readable.
func (l *linker) without(d *Degreeing, needs string, paths []string) (unread, untold []string) {
	if l.isUnclearAt(needs, d.Entry) {
		return paths, nil
	}
	return nil, paths
}

// mostChecking is more, in m, than any lift that events are told at: cards give them at a twentieth of a millimetre to two. Common practice, no source.
const mostChecking = 2.5e-3

// neverReached reports that the lobe never reaches the checking lift, where the slip is: at that lift, where no card tells events at one so high, else where the file is named. It reports whether
// it was the file, or the rocker ratio that it is told by.
func (l *linker) neverReached(d *Degreeing) bool {
	message := fmt.Sprintf("the lobe never reaches the lift that its events are told at: %s, where the greatest is %s", d.shown(d.checking()), d.shown(d.Curve.Peak()))
	if d.At.Estimate.Value > mostChecking && d.Curve.Peak() > mostChecking {
		l.report("bad-degreeing", source.Error, d.At.At(), d.At.Path, message, "write the lift that the cam's card tells its events at: a millimetre or so", source.Remark{At: d.name, Message: "the file"}).Entry = d.Entry.Path
		return false
	}
	if d.Ratio != nil && !RockerRatios.Holds(d.Ratio.Estimate.Value) {
		return true // the slip is told at the ratio
	}
	l.notDegreed(d, message, "check the unit in the file's head, the lift at which the events are told, where the lift was read, and that the file holds the whole lobe")
	return true
}

// knowsCam reports whether the lift at the cam is known: it was read there, or the rocker ratio says it.
func (l *linker) knowsCam(d *Degreeing) bool {
	side := d.Of[len("cam."):]
	if d.AtCam || d.Ratio != nil {
		return true
	}
	if !l.isUnclearAt("engine.rocker-ratio."+side, d.Entry) {
		l.untold(d, fmt.Sprintf("the lift was read at the valve, and nothing says what that is at the cam: not given: engine.rocker-ratio.%s", side),
			"write the rocker ratio, 1 where the cam bears on the valve itself; or `at = \"cam\"` where the lift was read there")
	}
	return false
}

// isUnclearAt reports whether something stands at a path, or may, that can't be read.
func (l *linker) isUnclearAt(path string, e *Entry) bool {
	j := l.journal
	return l.fitUnclear || j.IsUnread(path) || j.IsWithheld("parts") || slices.ContainsFunc(j.Fitted, func(p *Part) bool { return p.Fields.IsBad("brings") })
}

// notDegreed reports why a file can't be what the entry says it is, where the entry names it.
func (l *linker) notDegreed(d *Degreeing, message, do string) {
	l.report("bad-degreeing", source.Error, d.name, d.Of, message, do)
}

// untold reports that a file is good, and what its events take that isn't known.
func (l *linker) untold(d *Degreeing, message, do string) {
	l.report("events-untold", source.Warning, d.name, d.Of, message, do)
}

// checking returns what the dial shows at the checking lift, in m.
func (d *Degreeing) checking() float64 {
	if d.Ratio != nil {
		return d.At.Estimate.Value*d.Ratio.Estimate.Value - d.lash.Value
	}
	return d.At.Estimate.Value
}

// shown shows a lift as fine as a dial tells it.
func (d *Degreeing) shown(lift float64) quantity.Shown {
	return quantity.Show(lift, d.heights, dialStep)
}

// dialStep is how fine a lift from a dial is told, in m.
const dialStep = 1e-5

// areaStep is how fine an area under a lift is told, in m·rad: a tenth of a millimetre degree.
const areaStep = 1e-4 * math.Pi / 180

// peakLift tells the greatest lift at the cam.
func (l *linker) peakLift(d *Degreeing, path string) {
	read := l.dialEstimate(d, path, d.Curve.Peak())
	terms := []quantity.Term{{Partial: 1, Of: read}}
	if d.Ratio != nil {
		ratio, lash := d.Ratio.Estimate, d.mostLash()
		read.Value += lash.Value
		terms = []quantity.Term{{Partial: 1 / ratio.Value, Of: read}, {Partial: 1 / ratio.Value, Of: lash}, {Partial: -read.Value / ratio.Value / ratio.Value, Of: ratio}}
		read.Value /= ratio.Value
	}
	l.tell(d, path, quantity.Combine(read.Value, quantity.Length, terms...))
}

// cause names what is particular to one figure of a file, for its uncertainty.
func (l *linker) cause(d *Degreeing, path string) string {
	return (&Value{Path: path, Origin: FromDegreeing, Entry: d.Entry}).ID() + "/" + d.Name.Text
}

// dialEstimate returns a lift with what the dial may be off by.
func (l *linker) dialEstimate(d *Degreeing, path string, lift float64) quantity.Estimate {
	return l.toolEstimate(d, path, d.Of+".lift", quantity.Quantity{Kind: quantity.Figure, Unit: d.heights, Value: d.heights.FromSI(lift)})
}

// wheelEstimate returns an angle with what the wheel may be off by, and a share of its own.
func (l *linker) wheelEstimate(d *Degreeing, path string, angle float64, own quantity.Share) quantity.Estimate {
	unit := l.journal.Units.Leading(quantity.Angle)
	e := l.toolEstimate(d, path, path, quantity.Quantity{Kind: quantity.Figure, Unit: unit, Value: unit.FromSI(angle)})
	return quantity.Combine(e.Value, quantity.Angle, quantity.Term{Partial: 1, Of: e}, quantity.Term{Partial: 1, Of: quantity.Estimate{Shares: append(slices.Clip(d.zero), own)}})
}

// toolEstimate returns a figure with the uncertainty of the entry's only tool that is for a path and measures such figures.
func (l *linker) toolEstimate(d *Degreeing, path, measures string, q quantity.Quantity) quantity.Estimate {
	v := &Value{Path: path, Origin: FromDegreeing, Entry: d.Entry, Quantity: q}
	for _, tool := range d.Entry.Tools(measures) {
		if !tool.tells(q.Unit.Dimension) {
			continue
		}
		if v.Tool != nil {
			v.Tool = nil
			break
		}
		v.Tool = tool
	}
	v.estimate()
	return v.Estimate
}

// tells reports whether something that is said of how far off the tool may be is a figure of that dimension.
func (t *Tool) tells(d quantity.Dimension) bool {
	return slices.ContainsFunc([]*quantity.Quantity{t.Resolution, t.Error, t.Uncertainty, t.Repeatability, t.Range}, func(q *quantity.Quantity) bool {
		return q != nil && q.Unit != nil && q.Unit.Dimension == d
	})
}

// eventEstimate returns where an event is, with what wheel, dial, lash, rocker ratio and the way between two points may put it elsewhere: a dial that shows more lets the valve
// open earlier and close later.
func (l *linker) eventEstimate(d *Degreeing, path string, event calc.LiftEvent) quantity.Estimate {
	angle := l.wheelEstimate(d, path, event.Angle, quantity.Share{Cause: l.cause(d, path) + "/between", Std: event.Doubt / math.Sqrt(3)})
	terms := []quantity.Term{{Partial: 1, Of: angle}}
	if slope := event.Slope; slope != 0 {
		ratio := 1.0
		if d.Ratio != nil {
			ratio = d.Ratio.Estimate.Value
			terms = append(terms, quantity.Term{Partial: d.At.Estimate.Value / slope, Of: d.Ratio.Estimate}, quantity.Term{Partial: -1 / slope, Of: d.lash})
		}
		terms = append(terms, quantity.Term{Partial: -1 / slope, Of: l.dialEstimate(d, path, d.checking())}, quantity.Term{Partial: ratio / slope, Of: d.At.Estimate})
	}
	return quantity.Combine(event.Angle, quantity.Angle, terms...)
}

// areaEstimate returns an area under the lift (m·rad), told at the cam, from that under what the dial showed, with what dial, lash, rocker ratio and the two events may add to it or take off.
func (l *linker) areaEstimate(d *Degreeing, path string, area float64, events [2]quantity.Estimate) quantity.Estimate {
	ratio, open := 1.0, events[1].Value-events[0].Value
	var terms []quantity.Term
	area += d.lash.Value * open
	if d.Ratio != nil {
		ratio = d.Ratio.Estimate.Value
		terms = append(terms, quantity.Term{Partial: -area / ratio / ratio, Of: d.Ratio.Estimate}, quantity.Term{Partial: open / ratio, Of: d.lash})
	}
	lift := d.At.Estimate.Value
	terms = append(terms, quantity.Term{Partial: open / ratio, Of: l.dialEstimate(d, path, d.checking())},
		quantity.Term{Partial: -lift, Of: events[0]}, quantity.Term{Partial: lift, Of: events[1]})
	return quantity.Combine(area/ratio, quantity.LiftArea, terms...)
}

// tell tells one figure of a file: an angle is counted from the top dead centre of overlap.
func (l *linker) tell(d *Degreeing, path string, e quantity.Estimate) {
	v := (&Value{Path: path, Origin: FromDegreeing, Entry: d.Entry, Order: orderOf(d.Entry.Index, momentDegreed), Counts: true, Temp: d.Entry.EngineTemp}).placed(d.name)
	v.Written = &parse.Value{At: d.name}
	v.change().degreeing = d
	switch e.Dimension {
	case quantity.Length:
		v.Quantity = quantity.Quantity{Kind: quantity.Figure, Unit: d.heights, Value: d.heights.FromSI(e.Value), Step: d.heights.StepFromSI(dialStep, 0)}
	case quantity.LiftArea:
		unit := l.journal.Units.Leading(quantity.LiftArea)
		v.Quantity = quantity.Quantity{Kind: quantity.Figure, Unit: unit, Value: unit.FromSI(e.Value), Step: unit.StepFromSI(areaStep, 0)}
	default:
		v.Quantity = l.eventAt(path, e.Value)
		e.Value = v.Quantity.SI()
	}
	v.Estimate = calc.Covered(e)
	v.judgeIn(l.governing(path))
	l.happens(v)
}
