package model

import (
	"strconv"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// Origin says where a value comes from.
type Origin string

// The origins of a value.
const (
	FromSheet     Origin = "sheet"
	FromPart      Origin = "part"
	Found         Origin = "found"
	Set           Origin = "set"
	FromPulls     Origin = "pulls"
	FromDegreeing Origin = "degreeing"
	FromFuelling  Origin = "fuelling"
	FromLogs      Origin = "logs"
	FromWorked    Origin = "worked"
)

// Value is one value at a path: from the build sheet, a fitted part, a reading, pulls, or a degree wheel.
type Value struct {
	Path     string
	Origin   Origin
	Entry    *Entry // nil for the build sheet and what the machine came with
	Part     *Part  // of a brought value
	Index    int    // in Journal.Values
	Order    int    // place in time: entry and moment in it
	Written  *parse.Value
	Quantity quantity.Quantity   // of repeats the mean, as a Figure
	Repeats  []quantity.Quantity // of one measurement, where there are several
	Words    string              // the value, where it is words
	Estimate quantity.Estimate   // the figure with its uncertainty
	Tool     *Tool
	Temp     *quantity.Quantity // engine temperature while reading
	FoundAs  *Value             // of a value that was set: what the same entry found there; nil for nothing
	StaleBy  *Part              // the part whose fitting made it stale, where it is not read again

	Limit     *Limit
	Deviation float64 // from nominal, in SI

	// These stand together because there are very many values.
	Verdict  Verdict
	Side     int8 // of a figure that is not in: -1 below, 1 above
	Deviates bool // the limit has a nominal
	Unjudged Unjudged
	Counts   bool // it can be current, and settles what came before
	Current  bool
	Settled  bool
	taken    bool // of a brought value: its part has come out

	ways   *ways  // in which it came to its figure and verdict; nil for nearly all, which were read in one go and judged once
	pulls  *Pulls // of a peak: the session
	spot   *spot  // that it speaks for
	twin   int    // of values that are told twice in one place: which one, from the second
	pathAt [2]int32
}

// ways are how a value came to its figure where it wasn't read in one go, and to its verdict where several limits judge it.
type ways struct {
	steps     []quantity.Quantity
	setting   *Value
	why       string
	degreeing *Degreeing
	log       *Log
	worse     *Value      // of a log beside the value's own, of its entry and state: that one counts
	read      float64     // SI: the figure of which what a meter is off by is a share, where that isn't the value's own; else nought
	speed     float64     // of the engine, in rad/s, at which a figure of pulls was made; nought where nobody knows
	judged    []Judgement // by several limits
}

// Steps returns the steps before the figure, where the reading was written step by step.
func (v *Value) Steps() []quantity.Quantity {
	if v.ways == nil {
		return nil
	}
	return v.ways.steps
}

// Setting returns what the wrench was set to, where an adapter made the figure from it; nil where none did.
func (v *Value) Setting() *Value {
	if v.ways == nil {
		return nil
	}
	return v.ways.setting
}

// Why says why a figure can't be worked out from an adapter, of one that can't.
func (v *Value) Why() string {
	if v.ways == nil {
		return ""
	}
	return v.ways.why
}

// change gives the value ways of its own, as they were, to be changed.
func (v *Value) change() *ways {
	own := ways{}
	if v.ways != nil {
		own = *v.ways
	}
	v.ways = &own
	return v.ways
}

// At returns where the value stands; nowhere for one that was worked out.
func (v *Value) At() source.Range {
	if v.Written == nil {
		return source.Range{}
	}
	return v.Written.At
}

// PathAt returns where the last segment of the value's path stands.
func (v *Value) PathAt() source.Range { return v.At().File.At(int(v.pathAt[0]), int(v.pathAt[1])) }

// placed says where the value's path stands, in its own file.
func (v *Value) placed(at source.Range) *Value {
	v.pathAt = [2]int32{int32(at.Start), int32(at.End)}
	return v
}

// Unjudged says why a value gets no verdict though a limit may be there for it. Its zero value says nothing against one.
type Unjudged uint8

// The reasons for no verdict.
const (
	Judged             Unjudged = iota
	Planned                     // its entry is a plan
	Unclear                     // what decides it can't be read
	NoFigure                    // words, where a figure is due
	OtherDimension              // it measures something else than the limit above it is for
	ConditionUnwritten          // nobody wrote down the state that its limit asks for
	ConditionUnmet              // it was read in another state
	WrenchUnknown               // through an adapter, with a wrench of unknown length
	AdapterRefused              // through an adapter from which no torque can be worked out
)

// String says it as the site does.
func (u Unjudged) String() string {
	return [...]string{"", "planned", "unclear while something can't be read", "not measured", "not what the limit measures", "engine temperature not written", "read at another engine temperature",
		"the wrench's length isn't known", "the adapter gives no torque"}[u]
}

// ID returns the identity of the value: where it stands and its path. It holds no line, so it survives edits elsewhere.
func (v *Value) ID() string { return string(v.AppendID(append([]byte(v.Holder()), '/'))) }

// AppendID appends the value's identity but for its holder and the `/` after that.
func (v *Value) AppendID(id []byte) []byte {
	switch {
	case v.pulls != nil:
		id = append(id, v.pulls.id...)
	case v.IsLogged():
		id = append(id, v.log().id...)
	case v.Origin == FromPart:
		id = append(append(id, "part:"...), v.Part.Name...)
	default:
		id = append(id, v.Origin...)
	}
	id = append(append(id, '/'), v.Path...)
	if v.twin > 1 {
		id = strconv.AppendInt(append(id, '~'), int64(v.twin), 10)
	}
	return id
}

// IsReading reports whether the value was read in an entry.
func (v *Value) IsReading() bool { return v.Origin == Found || v.Origin == Set }

// log returns the log that the value is of, nil for none.
func (v *Value) log() *Log {
	if v.ways == nil {
		return nil
	}
	return v.ways.log
}

// IsLogged reports whether the value is of a log.
func (v *Value) IsLogged() bool { return v.log() != nil }

// isMeasured reports whether the value was read in an entry, logged, pulled, or degreed: it can take the place of an older one.
func (v *Value) isMeasured() bool {
	return v.IsReading() || v.IsLogged() || v.Origin == FromPulls || v.Origin == FromDegreeing
}

// Holder returns what the value's identity begins with: the entry's path, or `build`.
func (v *Value) Holder() string {
	if v.Entry != nil {
		return v.Entry.Path
	}
	return "build"
}
