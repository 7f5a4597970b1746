// Package derive works numbers out of a journal: which values feed which calculation, at which moment.
//
// A linked journal goes in; numbers with their inputs, formulas and uncertainties come out. The arithmetic itself is package calc's.
// The one invariant: a number is either a figure with all that went into it, or a reason why it can't be had; never both, never a NaN.
package derive

import (
	"embed"
	"math"
	"slices"
	"sort"
	"strings"
	"sync"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// Number is one number that was worked out.
type Number struct {
	Family   *Family
	Path     string
	Title    string
	Entry    *model.Entry // as which entry left it, or found it; nil for now
	Found    bool         // as that entry found it
	Estimate quantity.Estimate
	Unit     *quantity.Unit // that it is shown in
	Event    quantity.Event // the dead centre that it is counted from, before it less than zero; none for nearly all
	Formula  string
	Inputs   []Input
	Earlier  int            // how many inputs more there are, before those listed
	Words    string         // what to do with it, where it is an adjustment
	Reason   string         // why it can't be had; there is no figure then
	Stage    *Stage         // of a stage's gain
	Claim    *Claim         // of what a part gave beside what was claimed for it
	Told     []*model.Value // those that it rests on beside the inputs: of those before, and what Reason and Words tell of
	AtMost   bool           // there is less of it than this, and nobody knows by how much
	Fault    string         // what makes no sense in the figures that it is worked out from; empty for nothing

	Limit     *model.Limit
	Verdict   model.Verdict
	Deviation float64
	Deviates  bool

	by     func([]float64) (float64, error) // what it is worked out by, of nearly all that are
	judged *model.Value                     // the number as a value, of one that there is
	step   float64                          // in SI, how fine it is told where its inputs don't say it, or not so finely; 0: six figures
	coarse float64                          // in SI, what it is never told finer than: nobody knows the inputs so well in use
}

// Judged returns the number as a value at its path that was judged by the limit there; nil where there is no figure.
func (n *Number) Judged() *model.Value { return n.judged }

// With returns what the number would be, in SI, if one of its inputs were so many times as large. It refuses what makes no sense, and a number that is not worked out by its inputs alone.
func (n *Number) With(input int, times float64) (float64, error) {
	if n.by == nil || input < 0 || input >= len(n.Inputs) {
		return 0, uncarried
	}
	at := make([]float64, len(n.Inputs))
	for i, in := range n.Inputs {
		at[i] = in.of().Value
	}
	at[input] *= times
	return n.by(at)
}

// Input is a value, or another number, that went into a number.
type Input struct {
	Symbol string // as in the formula
	Value  *model.Value
	Number *Number
	Curves *model.Pulls // whose curves went in, and not the value: that is a peak of theirs, and stands for where they are
}

// ID is the identity of the number: its holder, `worked`, and its path; before the path `found` where it is as the holder found the engine.
func (n *Number) ID() string {
	holder := "build"
	if n.Entry != nil {
		holder = n.Entry.Path
	}
	if n.Found {
		return holder + "/" + string(model.FromWorked) + "/" + string(model.Found) + "/" + n.Path
	}
	return holder + "/" + string(model.FromWorked) + "/" + n.Path
}

// Family works out the numbers of one kind.
type Family struct {
	Name string // of its page
	Work func(*Moment)
	// Of are the paths that its numbers come from: what stands at, above and below them feeds it.
	Of []string
	// EveryEntry: the page of every entry shows its numbers, for they tell of the work, or an adjuster is turned by them. Of the others it shows only those that rest on a value of the entry,
	// or every page would hold all of them.
	EveryEntry bool
	// AsFound: its numbers are worked out as an entry found the engine, too, where it found and replaced what they rest on. What else goes into them, as a sheet's pitch, is what was in force then.
	AsFound bool
	// Needs are the families whose numbers go into its own and that may come from other paths.
	Needs []string
}

// Concerns reports whether the page of an entry shows the number.
func (n *Number) Concerns(e *model.Entry) bool { return n.Family.EveryEntry || n.restsOn(e) }

// restsOn reports whether a value of an entry went into the number, or into one that it is worked out from.
func (n *Number) restsOn(e *model.Entry) bool {
	return slices.ContainsFunc(n.Inputs, func(in Input) bool {
		return in.Value != nil && in.Value.Entry == e || in.Number != nil && in.Number.restsOn(e)
	})
}

// Sums works numbers out of one journal, at any moment in it. It may be used from several goroutines at once.
type Sums struct {
	Journal *model.Journal
	Stages  []*Stage // of the whole journal, in order of time
	Aside   []Aside  // sessions that no stage has, for they can't be compared: likewise

	sessions  map[*model.Pulls]*Session
	fasteners map[*model.Limit]*Fastener
	found     func() foundNumbers
	byWord    map[string]familySet // the families that may rest on a value, by the first word of its path
}

// familySet has a bit for each family, by its place in All.
type familySet uint64

// familiesByWord finds out, for each first word of a path, which families may rest on a value there, and which those need. Under "" stand those that every entry may concern.
func familiesByWord() map[string]familySet {
	at := map[string]int{}
	of := map[string]familySet{}
	for i := range All {
		f := &All[i]
		at[f.Name] = i
		set := familySet(1) << i
		for _, name := range f.Needs {
			set |= 1 << at[name] // it stands before
		}
		if f.EveryEntry {
			of[""] |= set
			continue
		}
		for _, path := range f.Of {
			word, _, _ := strings.Cut(path, ".")
			of[word] |= set
		}
	}
	return of
}

// Of prepares to work numbers out of a journal.
func Of(j *model.Journal) *Sums {
	sessions := sessionsOf(j)
	steps, aside := stages(j, sessions)
	s := &Sums{Journal: j, Stages: steps, Aside: aside, sessions: sessions, fasteners: fastenersOf(j), byWord: familiesByWord()}
	s.found = sync.OnceValue(s.findAll)
	return s
}

// Moment is the moment for which numbers are worked out: now, or as an entry left the engine.
type Moment struct {
	Journal *model.Journal
	Entry   *model.Entry // nil: now
	Numbers []*Number

	family   *Family
	sessions map[*model.Pulls]*Session
	stages   []*Stage  // up to the moment
	gains    []*Number // of those stages

	fasteners map[*model.Limit]*Fastener
	bolted    bool // the next is made
	boltsThen []*bolt
}

// All lists the families of numbers, each after those that it needs.
var All = []Family{
	{Name: "clearance", Work: clearance, Of: []string{"bore", "piston", "journal", "bearing", "pin"}, EveryEntry: true, AsFound: true},
	{Name: "displacement", Work: displacement, Of: []string{"engine.bore", "engine.stroke", "bore"}, EveryEntry: true},
	{Name: "compression-ratio", Work: compressionRatio, Of: []string{"engine.bore", "engine.stroke", "engine.chamber", "engine.deck", "engine.gasket", "engine.dome", "engine.dish"}, EveryEntry: true},
	{Name: "trapped-compression", Work: trappedCompression, Of: squeezed},
	{Name: "cranking-pressure", Work: crankingPressure, Of: append([]string{"compression", "air.pressure"}, squeezed...), Needs: []string{"trapped-compression"}},
	{Name: "squish", Work: squish, Of: []string{"engine.deck", "engine.gasket.thickness"}},
	{Name: "rod-ratio", Work: rodRatio, Of: cranked},
	{Name: "piston-speed", Work: pistonSpeed, Of: cranked},
	{Name: "compression-spread", Work: compressionSpread, Of: []string{"compression"}, AsFound: true},
	{Name: "bore-shape", Work: boreShape, Of: []string{"bore"}, AsFound: true},
	{Name: "ring-share", Work: ringShare, Of: []string{"gap.ring", "bore", "engine.bore"}, AsFound: true},
	{Name: "spring-rate", Work: springRate, Of: []string{"spring"}, AsFound: true},
	{Name: "load-loss", Work: loadLoss, Of: []string{"spring"}, AsFound: true},
	{Name: "drive-ratio", Work: driveRatio, Of: driven},
	{Name: "rolling-circumference", Work: rollingCircumference, Of: driven},
	{Name: "road-speed", Work: roadSpeed, Of: driven},
	{Name: "engine-speed", Work: engineSpeed, Of: driven},
	{Name: "rev-drop", Work: revDrop, Of: driven},
	{Name: "chain-elongation", Work: chainElongation, Of: []string{"chain.length", "chain.links", "drive.chain-pitch"}, AsFound: true},
	{Name: "lash-deviation", Work: lashDeviation, Of: []string{"lash"}, EveryEntry: true, AsFound: true},
	{Name: "adjuster-turn", Work: adjusterTurn, Of: []string{"lash", "engine.rocker-ratio"}, EveryEntry: true},
	{Name: "shim-to-fit", Work: shimToFit, Of: []string{"lash", "shim", "engine.rocker-ratio"}, EveryEntry: true},
	{Name: "cam-duration", Work: camDuration, Of: []string{"cam"}},
	{Name: "lobe-centre", Work: lobeCentre, Of: []string{"cam"}},
	{Name: "lobe-separation", Work: lobeSeparation, Of: []string{"cam"}},
	{Name: "cam-advance", Work: camAdvance, Of: []string{"cam"}},
	{Name: "valve-overlap", Work: valveOverlap, Of: []string{"cam"}},
	{Name: "dead-centre", Work: deadCentre, Of: []string{"timing.stop"}},
	{Name: "cam-tooth", Work: camTooth, Of: []string{"engine.cam-sprocket"}},
	{Name: "valve-lift", Work: valveLift, Of: lifted},
	{Name: "curtain-area", Work: curtainArea, Of: append([]string{"engine.valve"}, lifted...), Needs: []string{"valve-lift"}},
	{Name: "spring-margin", Work: springMargin, Of: append([]string{"spring", "clearance.retainer"}, lifted...), Needs: []string{"valve-lift"}},
	{Name: "port-duration", Work: portDuration, Of: []string{"port", "engine.stroke", "engine.rod"}},
	{Name: "port-blowdown", Work: portBlowdown, Of: []string{"port", "engine.stroke", "engine.rod"}},
	{Name: "ignition-timing", Work: ignitionTiming, Of: []string{"ignition", "engine.stroke", "engine.rod"}},
	{Name: "preload", Work: preload, Of: pulled},
	{Name: "proof-share", Work: proofShare, Of: pulled},
	{Name: "thread-share", Work: threadShare, Of: pulled},
	{Name: "wrench-setting", Work: wrenchSetting, Of: pulled},
	{Name: "dry-pressure", Work: dryPressure, Of: []string{"power", "air"}},
	{Name: "air-density", Work: airDensity, Of: []string{"power", "air"}},
	{Name: "density-altitude", Work: densityAltitude, Of: []string{"power", "air"}},
	{Name: "correction-factor", Work: correctionFactor, Of: []string{"power", "air"}},
	{Name: "corrected-power", Work: correctedPower, Of: []string{"power", "air"}},
	{Name: "stage-gain", Work: stageGain, Of: []string{"power.peak"}, EveryEntry: true},
	{Name: "cumulative-gain", Work: cumulativeGain, Of: []string{"power.peak"}, EveryEntry: true},
	{Name: "part-gain", Work: partGain, Of: []string{"power.peak"}, EveryEntry: true},
	{Name: "band-gain", Work: bandGain, Of: []string{"power"}},
	{Name: "claim", Work: claims, Of: []string{"power"}},
	{Name: "fuel-ratio", Work: fuelRatio, Of: []string{"fuelling"}},
	{Name: "injector-flow", Work: injectorFlow, Of: injected},
	{Name: "injector-duty", Work: injectorDuty, Of: injected},
}

//go:embed *.md
var pages embed.FS

// Title returns the first line of the page of a family, "# `name`: clause", without reading the rest; "" if there is none of that name.
func Title(name string) string { return source.FirstLine(pages, pageFile(name)) }

func pageFile(name string) string { return strings.ReplaceAll(name, "-", "_") + ".md" }

// Page returns the page of a family, in Markdown; "" if there is none of that name.
func Page(name string) string {
	text, err := pages.ReadFile(pageFile(name))
	if err != nil {
		return ""
	}
	return string(text)
}

// Now works out the numbers as they are now.
func (s *Sums) Now() []*Number { return s.work(nil, s.Stages, ^familySet(0)) }

// AsLeft works out the numbers as an entry left the engine.
func (s *Sums) AsLeft(e *model.Entry) []*Number { return s.work(e, s.until(e), ^familySet(0)) }

// ChangedBy works out the numbers as an entry left the engine that its page shows.
func (s *Sums) ChangedBy(e *model.Entry) []*Number {
	set := s.byWord[""]
	for _, v := range e.Values {
		word, _, _ := strings.Cut(v.Path, ".")
		set |= s.byWord[word]
	}
	return slices.DeleteFunc(s.work(e, s.until(e), set), func(n *Number) bool { return !n.Concerns(e) })
}

// until returns the stages up to the end of an entry.
func (s *Sums) until(e *model.Entry) []*Stage {
	end := s.Journal.EndOf(e)
	return s.Stages[:sort.Search(len(s.Stages), func(i int) bool { return s.Stages[i].To.Order > end })]
}

func (s *Sums) work(e *model.Entry, stages []*Stage, families familySet) []*Number {
	m := &Moment{Journal: s.Journal, Entry: e, sessions: s.sessions, stages: stages, fasteners: s.fasteners}
	for i := range All {
		if families&(1<<i) != 0 {
			m.family = &All[i]
			m.family.Work(m)
		}
	}
	slices.SortStableFunc(m.Numbers, func(a, b *Number) int { return strings.Compare(a.Path, b.Path) })
	return m.Numbers
}

// value returns the value in force at a path, nil if there is none, or if what stands there can't be read.
func (m *Moment) value(path string) *model.Value {
	v := m.inForce(path)
	if v == nil || v.Quantity.Unit == nil || m.Journal.IsUnreadSince(path, v, m.Entry) {
		return nil
	}
	return v
}

// add adds a number, judged by the limit at its path if there is one.
func (m *Moment) add(n *Number) *Number {
	n.Family, n.Entry = m.family, m.Entry
	if n.Reason == "" && (math.IsNaN(n.Estimate.Value) || math.IsInf(n.Estimate.Value, 0)) {
		n.Reason = "its inputs give no figure"
	}
	if n.Reason != "" {
		n.Estimate = quantity.Estimate{Dimension: n.Estimate.Dimension}
	}
	if n.Unit == nil {
		n.Unit = m.Journal.Units.Leading(n.Estimate.Dimension)
	}
	if n.Reason == "" {
		m.judge(n)
	}
	m.Numbers = append(m.Numbers, n)
	return n
}

func (m *Moment) judge(n *Number) {
	v := &model.Value{Path: n.Path, Estimate: n.Estimate, Quantity: n.figure()}
	m.Journal.Judge(v, m.Entry)
	n.Limit, n.Verdict, n.Deviation, n.Deviates, n.judged = v.Limit, v.Verdict, v.Deviation, v.Deviates, v
}

// stated returns the sheet's table of a name.
func (m *Moment) stated(name string) *parse.Fields { return m.Journal.Build.Fields.Table(name) }

// worked returns the number that was worked out at a path at this moment; nil if there is none.
func (m *Moment) worked(path string) *Number {
	for _, n := range m.Numbers {
		if n.Path == path {
			return n
		}
	}
	return nil
}

// worksOut returns the numbers that were worked out at and below a path at this moment.
func (m *Moment) worksOut(path string) []*Number {
	var list []*Number
	for _, n := range m.Numbers {
		if parse.IsAtOrBelow(n.Path, path) {
			list = append(list, n)
		}
	}
	return list
}

// gather looks the inputs of a formula up: a symbol and a path each. It says which are missing.
func (m *Moment) gather(pairs ...[2]string) (inputs []Input, missing []string) {
	for _, pair := range pairs {
		v := m.value(pair[1])
		if v == nil {
			missing = append(missing, pair[1])
			continue
		}
		inputs = append(inputs, Input{Symbol: pair[0], Value: v})
	}
	return inputs, missing
}

// of returns the figure of an input.
func (in Input) of() quantity.Estimate {
	if in.Number != nil {
		return in.Number.Estimate
	}
	return in.Value.Estimate
}
