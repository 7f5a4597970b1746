package derive

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// pulled are the paths that what a torque does comes from.
var pulled = []string{"torque", "setting"}

// Fastener is what a limit says of a bolt, screw or nut, made ready to reckon with.
type Fastener struct {
	Limit      *model.Limit
	Thread     parse.Thread
	Class      string     // a property class; empty where none is given, or another grade
	Friction   [2]float64 // least and most, in the thread and under the head alike
	FrictionBy string     // who says so
	Reason     string     // why there is no preload from a torque; nothing of the above is then certain

	isUnread bool   // the reason is that something of it can't be read
	threaded bool   // it names a thread
	classWhy string // why nothing is known of its strength, where a grade is given
	short    shortForm
	bearing  float64 // effective diameter under the head, in m
	hole     hole
}

// shortForm is a nut factor that is published for a state of the threads.
type shortForm struct {
	factor float64 // 0: none
	source string
}

// hole is what the thread is screwed into.
type hole struct {
	into              string // the material as written; empty where none is given
	isTold            bool   // it is said how deep the screw is in, or what the material bears
	shear, engagement float64
	reason            string // why its strength isn't known
}

// states are the coefficients of friction by state of the threads, and the nut factor that is published for it. They stand for what is usual, so each
// says whose they are; `thread-friction` replaces them.
var states = map[string]struct {
	friction [2]float64
	source   string
	short    shortForm
}{
	"dry": {[2]float64{0.136, 0.24}, "zinc plated to black steel, MIL-HDBK-60, table II, and Shigley, table 8-15",
		shortForm{0.20, "NASA TM-106943, unlubricated"}},
	"oiled": {[2]float64{0.12, 0.18}, "machine oil, 0.15 ± 20 %, MIL-HDBK-60, table II", shortForm{0.18, "Shigley, table 8-15, lubricated"}},
	"greased": {[2]float64{0.056, 0.132}, "graphite to molybdenum disulphide grease, MIL-HDBK-60, table II",
		shortForm{0.12, "Shigley, table 8-15, with an anti-seize compound"}},
	"locked": {friction: [2]float64{0.12, 0.18}, source: "taken to be as with oil while the compound is wet: common practice, no source"},
}

// fastenersOf makes the fasteners of all limits of torques ready; none where nothing can be worked out from any.
func fastenersOf(j *model.Journal) map[*model.Limit]*Fastener {
	all := map[*model.Limit]*Fastener{}
	tells := slices.ContainsFunc(j.Values, func(v *model.Value) bool { return v.Setting() != nil })
	for _, l := range j.Limits {
		if l.Path == "torque" || strings.HasPrefix(l.Path, "torque.") {
			all[l] = fastenerOf(l)
			tells = tells || all[l].threaded || l.Running() != nil
		}
	}
	if !tells {
		return nil
	}
	return all
}

// Fastener returns the fastener of a limit of torques that names a thread; nil for another.
func (s *Sums) Fastener(l *model.Limit) *Fastener {
	if f := s.fasteners[l]; f != nil && f.threaded {
		return f
	}
	return nil
}

func fastenerOf(l *model.Limit) *Fastener {
	f := &Fastener{Limit: l, threaded: true}
	if l.Key("thread").IsZero() && !l.IsKeyUnread("thread") {
		f.Reason, f.threaded = "not given: thread", false
		return f
	}
	if l.IsKeyUnread("thread") || l.IsKeyUnread("running-torque") {
		f.unread("its thread, or what it takes to run, can't be read")
		f.grade()
		f.screwedInto()
		return f
	}
	f.Thread, _ = parse.ParseThread(l.Key("thread").Text) // it was reported when it was decoded
	if f.Thread.Form == parse.OtherThread {
		f.Reason = f.Thread.Why
		return f
	}
	f.bearing, _ = calc.BearingDiameter(f.Thread.Diameter)
	f.grade()
	f.state()
	f.screwedInto()
	return f
}

// unread says that nothing can be worked out while something of the fastener can't be read.
func (f *Fastener) unread(reason string) { f.Reason, f.isUnread = reason, true }

// grade takes the class.
func (f *Fastener) grade() {
	if f.Limit.IsKeyUnread("class") {
		f.classWhy = "its class can't be read"
		return
	}
	text := f.Limit.Key("class").Text
	if text == "" {
		return
	}
	class, _ := parse.ParseClass(text)
	f.Class, f.classWhy = class.Label, class.Why
	if f.Class != "" && f.Thread.Form == parse.UnifiedThread {
		f.Class, f.classWhy = "", fmt.Sprintf("`%s` is a class of metric bolts, and the thread is none", text)
	}
}

// state takes the friction: the limit's own, else that of the state of its threads.
func (f *Fastener) state() {
	state := f.Limit.Key("threads").Text
	usual, known := states[state]
	switch values := f.Limit.Figures("thread-friction"); {
	case f.Limit.IsKeyUnread("thread-friction") || f.Limit.IsKeyUnread("threads"):
		f.unread("the state of its threads can't be read")
	case len(values) > 0:
		f.ownFriction(&values[0])
	case known:
		f.Friction, f.FrictionBy, f.short = usual.friction, usual.source, usual.short
	default:
		f.Reason = "not given: threads (dry, oiled, greased, locked), or thread-friction"
	}
}

// ownFriction takes the friction that the limit gives.
func (f *Fastener) ownFriction(v *parse.Value) {
	q, slip := v.Resolve(quantity.Want{Dimensions: []quantity.Dimension{quantity.Pure}, Bare: quantity.One()})
	if slip != nil || q.IsOpenEnded() {
		f.Reason = "its friction has no two ends"
		return
	}
	f.Friction = [2]float64{q.LowSI(), q.HighSI()}
	if q.HasSpread {
		f.Friction = [2]float64{q.SI() - q.SpreadSI(), q.SI() + q.SpreadSI()}
	}
	f.FrictionBy = "the limit's own"
	if !(f.Friction[0] > 0) || !(f.Friction[1] < 1) {
		f.Reason = "its friction is none that there is"
	}
}

// screwedInto takes what it is screwed into.
func (f *Fastener) screwedInto() {
	l := f.Limit
	f.hole.into = l.Key("into").Text
	if l.IsKeyUnread("engagement") || l.IsKeyUnread("into-shear") || l.IsKeyUnread("into") {
		f.hole.isTold = true
		f.hole.reason = "what it is screwed into can't be read"
		return
	}
	f.hole.engagement = firstOf(l, "engagement", quantity.Length)
	f.hole.shear = firstOf(l, "into-shear", quantity.Pressure)
	f.hole.isTold = f.hole.engagement > 0 || f.hole.shear > 0
	var missing []string
	if f.hole.into == "" {
		missing = append(missing, "into")
	}
	if f.hole.engagement == 0 {
		missing = append(missing, "engagement")
	}
	if f.hole.shear == 0 {
		missing = append(missing, "into-shear, the shear strength of the "+cmp.Or(f.hole.into, "part"))
	}
	f.hole.reason = notGiven(missing)
	if f.hole.engagement > 0 && f.hole.shear == 0 && f.Thread.Diameter > 0 {
		f.hole.reason += "; engaged are " + quantity.Show(f.hole.engagement/f.Thread.Diameter, quantity.One(), 0.1).String() + " diameters"
	}
}

// firstOf returns the first figure of a key that limits inherit, its low end of an interval; 0 for none.
func firstOf(l *model.Limit, key string, d quantity.Dimension) float64 {
	values := l.Figures(key)
	if len(values) == 0 {
		return 0
	}
	q, slip := values[0].Resolve(quantity.Want{Dimensions: []quantity.Dimension{d}})
	if slip != nil || math.IsInf(q.LowSI(), 0) {
		return 0
	}
	return q.LowSI()
}

// preload returns the preload that a torque makes at a friction.
func (f *Fastener) preload(torque, friction float64) (float64, error) {
	factor, err := calc.NutFactor(f.Thread.Diameter, f.Thread.Pitch, f.bearing, friction, friction)
	if err != nil {
		return 0, err
	}
	return calc.Preload(torque, factor, f.Thread.Diameter)
}

// Preloads returns the least and the most preload, in N, that a net torque (N·m) makes over the range of friction; an error where none can be worked out.
func (f *Fastener) Preloads(torque float64) (least, most float64, err error) {
	if f.Reason != "" {
		return 0, 0, calc.Refusal(f.Reason)
	}
	if least, err = f.preload(torque, f.Friction[1]); err != nil {
		return 0, 0, err
	}
	most, err = f.preload(torque, f.Friction[0])
	return least, most, err
}

// ProofLoad returns the bolt's proof load, in N; an error where it isn't known.
func (f *Fastener) ProofLoad() (float64, error) {
	if f.Class == "" {
		why := f.classWhy
		if why == "" {
			why = "not given: class"
		}
		return 0, calc.Refusal(why)
	}
	return calc.ProofLoad(f.Class, f.Thread.Diameter, f.Thread.Pitch)
}

// StripLoad returns the pull, in N, at which the thread strips, and whether that is the thread of the hole; an error where it isn't known. The bolt's own thread is
// reckoned with where its class is given, at 1/√3 of its tensile strength: the yield rule of distortion energy, common practice, no source.
func (f *Fastener) StripLoad() (load float64, ofHole bool, err error) {
	switch {
	case f.hole.reason != "":
		return 0, false, calc.Refusal(f.hole.reason)
	case f.Thread.Form != parse.MetricThread:
		return 0, false, calc.Refusal("the limits of size of unified threads aren't known here")
	}
	limits, err := calc.LeastMaterial(f.Thread.Diameter, f.Thread.Pitch)
	if err != nil {
		return 0, false, err
	}
	area, err := calc.InternalShearArea(f.hole.engagement, f.Thread.Pitch, limits.ScrewMajor, limits.HolePitch)
	if err != nil {
		return 0, false, err
	}
	load = area * f.hole.shear
	strength, err := calc.StrengthOf(f.Class, f.Thread.Diameter)
	if err != nil {
		return load, true, nil // the bolt is no softer than what nobody says of it
	}
	area, err = calc.ExternalShearArea(f.hole.engagement, f.Thread.Pitch, limits.HoleMinor, limits.ScrewPitch)
	if err != nil {
		return 0, false, err
	}
	if own := area * strength.Tensile / math.Sqrt(3); own < load {
		return own, false, nil
	}
	return load, true, nil
}

// bolt is a fastener that a torque is in force at.
type bolt struct {
	*Fastener
	below   string       // the path below `torque`
	value   *model.Value // nil where nothing was set, or can be told of it
	isTold  bool         // its numbers are told at this moment: elsewhere only their figures are asked for
	preload *Number      // once it is worked out
}

// bolts returns the fasteners of the moment: those that have a torque, and those that take some torque to run.
func (m *Moment) bolts() []*bolt {
	if m.bolted {
		return m.boltsThen
	}
	m.bolted = true
	if len(m.fasteners) == 0 {
		return nil
	}
	for _, position := range m.Journal.Positions.Below("torque") {
		below, ok := strings.CutPrefix(position, "torque.")
		if !ok {
			continue
		}
		f := m.fasteners[m.Journal.LimitAt(position, m.Entry)]
		if f == nil {
			continue
		}
		if v := m.value(position); v != nil || f.Limit.Running() != nil {
			m.boltsThen = append(m.boltsThen, &bolt{Fastener: f, below: below, value: v, isTold: v != nil && (m.Entry == nil || v.Entry == m.Entry)})
		}
	}
	return m.boltsThen
}

// threeFigures shows a figure to three figures.
func threeFigures(si float64, u *quantity.Unit) string {
	return quantity.Show(si, u, quantity.TwoFigures(u.FromSI(si))/10*u.Factor).String()
}

// spanned shows two figures of one unit to three figures each: `13.9 to 19.8 kN`.
func spanned(low, high float64, u *quantity.Unit) string {
	return quantity.Show(low, u, quantity.TwoFigures(u.FromSI(low))/10*u.Factor).Number + " to " + threeFigures(high, u)
}

// forceUnit is the unit that pulls are shown in: the builder's, else kN.
func (m *Moment) forceUnit() *quantity.Unit {
	if u := m.Journal.Units.Lead[quantity.Force]; u != nil {
		return u
	}
	return quantity.UnitShown("kN")
}
