// Package bench works out what an entry takes to the bench: what will be read and what that is held to, how each is set right, which tools it takes,
// and what to mind.
//
// A linked journal and an entry go in, a [Card] comes out. The one invariant: a card is of the moment of its entry. What it holds a reading to is
// what will judge it, and what it says was read last was read before; a plan's moment is now, as if it were carried out.
package bench

import (
	"slices"
	"sort"
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// Card is what one entry takes to the bench.
type Card struct {
	Entry     *model.Entry
	Readings  []*Job   // figures to be read, by what holds them
	Fasteners []*Job   // to be pulled down
	Marks     []*Job   // what must be seen, in words
	Drives    []string // sizes of spanners and keys, each once
}

// Tools returns the tools that the entry names, then those of all jobs, each once.
func (c *Card) Tools() []*model.Tool {
	var tools []*model.Tool
	for _, ref := range c.Entry.With {
		if ref.Tool != nil && !slices.Contains(tools, ref.Tool) {
			tools = append(tools, ref.Tool)
		}
	}
	for _, jobs := range [][]*Job{c.Marks, c.Fasteners, c.Readings} {
		for _, job := range jobs {
			for _, tool := range job.Tools {
				if !slices.Contains(tools, tool) {
					tools = append(tools, tool)
				}
			}
		}
	}
	return tools
}

// Job is what is read under one limit, or at one path without any.
type Job struct {
	Path   string       // of the limit; of the path itself where nothing limits it
	Limit  *model.Limit // in force as the entry ends; nil for none
	Before *model.Limit // in force when it is found, where that is another
	Spots  []Spot
	Tools  []*model.Tool      // that the entry names for it, else all that are for it, as far as their range holds what it aims for
	Picked bool               // there are more tools for it than those
	Short  bool               // there are tools for it, and the range of none holds that
	Goes   *quantity.Quantity // the leaf that must go, and the leaf that must not go freely, for the gap to be within the limit
	Stops  *quantity.Quantity
	Turn   *Turn    // how it is set, for a valve's lash
	Worked bool     // it is worked out, and never read
	Order  []string // in which the fasteners of a pattern are pulled, where the limit says it
}

// Spot is one position to be read.
type Spot struct {
	Path string
	Name string       // what tells it from the others of its job; empty where it is alone
	Last *model.Value // the newest reading there before the entry; nil for none
}

// Turn says how a valve's lash is set.
type Turn struct {
	Shim    bool
	Quarter float64 // what a quarter turn of the screw moves the gap by, in m; 0 where that can't be worked out
}

// View says what is published: a card holds nothing else.
type View struct {
	Value func(*model.Value) bool
	Limit func(*model.Limit) bool
	Path  func(string) bool
}

// Of returns the card of an entry.
func Of(j *model.Journal, e *model.Entry, view View) *Card {
	paths := Paths(e)
	d := &dealer{Journal: j, entry: e, view: view, seen: make(map[string]bool, len(paths))}
	c := &Card{Entry: e}
	for _, path := range paths {
		d.dealAll(path)
	}
	for _, job := range d.jobs {
		if len(job.Spots) == 1 {
			job.Path = job.Spots[0].Path
		} else {
			for i := range job.Spots {
				job.Spots[i].Name = job.place(job.Spots[i].Path)
			}
		}
		job.Worked = parse.IsNeverRead(job.Spots[0].Path)
		switch {
		case job.Limit != nil && len(job.Limit.Expect) > 0:
			c.Marks = append(c.Marks, job)
		case job.Path == "torque" || strings.HasPrefix(job.Path, "torque."):
			c.Fasteners = append(c.Fasteners, job)
		default:
			c.Readings = append(c.Readings, job)
		}
		if job.Limit != nil {
			if drive := job.Limit.Key("drive").Text; drive != "" && !slices.Contains(c.Drives, drive) {
				c.Drives = append(c.Drives, drive)
			}
		}
	}
	return c
}

// dealer deals positions out to jobs.
type dealer struct {
	*model.Journal
	entry *model.Entry
	view  View
	seen  map[string]bool // positions
	jobs  []*Job
}

// Paths returns the paths that an entry reads, expects, and that the parts which it fits ask for: in that order, which is that of the work.
func Paths(e *model.Entry) []string {
	paths := make([]string, 0, max(len(e.Values), len(e.Found)+len(e.Set)))
	add := func(path string) {
		if !slices.Contains(paths, path) && !isSetting(path) {
			paths = append(paths, path)
		}
	}
	for _, list := range [][]parse.Reading{e.Found, e.Set} {
		for i := range list {
			add(list[i].Path)
		}
	}
	for _, v := range e.Values { // of files of readings
		if v.Origin == model.Found || v.Origin == model.Set {
			add(v.Path)
		}
	}
	for _, name := range e.Fields.Names("expects") {
		add(name.Name)
	}
	for _, ref := range e.Fitted {
		if ref.Part != nil {
			for _, name := range ref.Part.Fields.Names("then") {
				add(name.Name)
			}
		}
	}
	return paths
}

// isSetting tells what the wrench is set to from what is read.
func isSetting(path string) bool { return strings.HasPrefix(path, "setting.") }

// dealAll deals out the positions at and below a path that are published; where none is, those of each cylinder, or else the path itself.
func (d *dealer) dealAll(path string) {
	if parse.IsOfMixture(path) && d.view.Path(path) {
		d.deal("fuelling") // one log reads all that is below
		return
	}
	told := false
	for _, position := range d.Spots(path) {
		if d.view.Path(position) {
			told = true
			d.deal(position)
		}
	}
	if told || !d.view.Path(path) {
		return
	}
	each := d.EachCylinder(path)
	for _, position := range each {
		d.deal(position)
	}
	if len(each) == 0 {
		d.deal(path)
	}
}

// deal puts a position to those that are held, read and set alike.
func (d *dealer) deal(position string) {
	if d.seen[position] {
		return
	}
	d.seen[position] = true
	job := d.jobAt(position)
	spot := Spot{Path: position, Last: d.last(position)}
	if job.Limit != nil {
		if !d.view.Limit(job.Limit) {
			return
		}
		for _, measured := range job.Limit.Of() { // a clearance is worked out from two sizes: those are read
			d.dealAll(measured)
		}
	}
	for _, other := range d.jobs {
		if other.isLike(&job) {
			other.Spots = append(other.Spots, spot)
			return
		}
	}
	if job.Limit != nil {
		job.Order = strings.Fields(strings.ReplaceAll(job.Limit.Key("order").Text, ",", " "))
	}
	job.Spots = []Spot{spot}
	kept := job
	d.leaves(&kept)
	d.jobs = append(d.jobs, &kept)
}

// jobAt is the job of one position, as far as two can be told apart by it.
func (d *dealer) jobAt(position string) Job {
	job := Job{Path: position, Limit: d.LimitAt(position, d.entry)}
	switch above := parse.Above(position); {
	case job.Limit != nil && job.Limit.Path == "lash": // the two sides are set apart
		job.Path = sideOf(position)
	case job.Limit != nil && job.Limit.Path != "torque": // fasteners that one figure holds for are still of different kinds
		job.Path = job.Limit.Path
	case job.Limit == nil && strings.Contains(above, "."):
		job.Path = above
	}
	if len(d.entry.Fitted)+len(d.entry.Removed) > 0 {
		if before := d.LimitBefore(position, d.entry); before != job.Limit && (before == nil || d.view.Limit(before)) {
			job.Before = before
		}
	}
	d.tools(&job, position)
	d.turn(&job, position)
	return job
}

// place returns what tells a position from the others of its job.
func (j *Job) place(position string) string {
	if j.Limit != nil && j.Limit.Path == j.Path {
		if place, ok := j.Limit.PlaceIn(position); ok {
			return place
		}
	}
	return strings.TrimPrefix(position, j.Path+".")
}

// sideOf returns the first two words of a path: `lash.intake`.
func sideOf(path string) string {
	words := strings.SplitN(path, ".", 3)
	return strings.Join(words[:min(2, len(words))], ".")
}

// isLike reports whether two jobs differ in their positions alone.
func (j *Job) isLike(other *Job) bool {
	alike := j.Turn == nil && other.Turn == nil || j.Turn != nil && other.Turn != nil && *j.Turn == *other.Turn
	return alike && j.Path == other.Path && j.Limit == other.Limit && j.Before == other.Before && j.Short == other.Short && slices.Equal(j.Tools, other.Tools)
}

// last returns the newest reading at a position before the entry.
func (d *dealer) last(position string) *model.Value {
	var newest *model.Value
	for _, deeper := range d.Positions.Below(position) {
		history := d.History(deeper) // in order of time
		if !d.entry.Plan {
			history = history[:sort.Search(len(history), func(i int) bool { e := history[i].Entry; return e != nil && e.Index >= d.entry.Index })]
		}
		for _, v := range slices.Backward(history) {
			if v.IsReading() && d.view.Value(v) && len(v.Path) <= len(position) {
				if newest == nil || v.Index > newest.Index {
					newest = v
				}
				break
			}
		}
	}
	return newest
}

// tools finds what the job is read or pulled with: what the entry names for it, else all there is, as far as it reaches all that is aimed for; where none
// does, what reaches some of it, as a step may be pulled with one wrench and the last with another.
func (d *dealer) tools(job *Job, path string) {
	all := d.entry.Tools(path)
	if len(all) == 0 {
		for _, tool := range d.Tools {
			if tool.Reads(path) {
				all = append(all, tool)
			}
		}
	}
	if len(all) == 0 {
		return
	}
	aims := aimsOf(job.Limit)
	reaches := func(tool *model.Tool) int {
		n := 0
		for _, aim := range aims {
			if tool.Holds(aim) {
				n++
			}
		}
		return n
	}
	for _, least := range []int{len(aims), 1} {
		for _, tool := range all {
			if len(job.Tools) < len(all) && reaches(tool) >= least && !slices.Contains(job.Tools, tool) {
				job.Tools = append(job.Tools, tool)
			}
		}
		if len(job.Tools) > 0 {
			break
		}
	}
	job.Picked = len(job.Tools) < len(all)
	job.Short = len(all) > 0 && slices.ContainsFunc(aims, func(aim quantity.Quantity) bool {
		return !slices.ContainsFunc(all, func(tool *model.Tool) bool { return tool.Holds(aim) })
	})
	if len(job.Tools) == 0 {
		job.Tools, job.Picked = all, false
	}
}

// aimsOf are the figures that a limit has one aim for: its steps, and its nominal, or the middle of its bounds.
func aimsOf(l *model.Limit) []quantity.Quantity {
	if l == nil || l.Unit == nil {
		return nil
	}
	aims := slices.Clone(l.Steps)
	switch {
	case l.Nominal != nil:
		aims = append(aims, *l.Nominal)
	case l.Low.Is && l.High.Is:
		aims = append(aims, quantity.Quantity{Kind: quantity.Figure, Unit: l.Unit, Value: l.Unit.FromSI((l.Low.SI + l.High.SI) / 2)})
	}
	return aims
}

// leaves finds which of the builder's leaves prove that a gap is within its limit.
func (d *dealer) leaves(job *Job) {
	l := job.Limit
	if l == nil || !l.Low.Is || !l.High.Is || l.Dimension != quantity.Length {
		return
	}
	for _, tool := range job.Tools {
		var si []float64
		for _, leaf := range tool.Leaves {
			si = append(si, leaf.SI())
		}
		goes, stops := calc.LeavesWithin(si, l.Low.SI, l.High.SI)
		if goes >= 0 && stops >= 0 {
			job.Goes, job.Stops = &tool.Leaves[goes], &tool.Leaves[stops]
			return
		}
	}
}

// turn says how a valve's lash is set.
func (d *dealer) turn(job *Job, path string) {
	side, ok := strings.CutPrefix(path, "lash.")
	if !ok || d.Build.Fields == nil {
		return
	}
	side, _, _ = strings.Cut(side, ".")
	adjuster := d.Build.Fields.Table("engine").Table("adjuster")
	switch adjuster.Text("kind").Text {
	case "shim":
		job.Turn = &Turn{Shim: true}
	case "screw":
		job.Turn = &Turn{}
		ratio, known := 1.0, true
		switch adjuster.Text("at").Text {
		case "cam":
			ratio, known = d.figure("engine.rocker-ratio." + side)
		case "":
			known = false
		}
		pitch, there := d.figure("engine.adjuster.pitch")
		if known && there {
			job.Turn.Quarter, _ = calc.LashByTurn(pitch, ratio, 0.25) // what it refuses stays 0
		}
	}
}

// figure returns what is in force at a path as the entry ends, in SI.
func (d *dealer) figure(path string) (float64, bool) {
	v := d.Current(path)
	if !d.entry.Plan {
		v = d.At(path, d.entry)
	}
	if v == nil || v.Quantity.Unit == nil || !d.view.Value(v) {
		return 0, false
	}
	return v.Quantity.SI(), true
}
