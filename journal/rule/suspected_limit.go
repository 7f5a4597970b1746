package rule

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// fewReadings are too few to tell that the limit is wrong, and not they. Common practice, no source.
const fewReadings = 3

// fewSwapped is how many readings each of two sides must have, all inside the other's limit, before the two limits are taken for swapped. Common practice, no source.
const fewSwapped = 2

// suspectedLimit reports limits that all of their readings are out of, where one slip in the limit explains all.
func suspectedLimit(c *Context) { c.tellCauses() }

// limitSlip is why a limit is held to be wrong, and not the readings under it.
type limitSlip struct {
	limit    *model.Limit
	readings []*model.Value // current ones, that are all out
	older    []*model.Value // that are out too
	likewise int            // how many of those are inside what was meant
	meant    string         // what its figures were meant to be, in words; empty for those of the other side
	most     bool           // two thirds of all readings will do, which needn't be as many as fewReadings
	other    *limitSlip     // that of the other side of the engine, whose figures it has
}

// cause is what is told of it.
func (s *limitSlip) cause() *cause {
	l := s.limit
	f := source.Finding{Severity: source.Error, At: l.PathAt, Subject: l.Path, Origin: string(model.FromSheet)}
	if l.Part != nil {
		f.Origin = string(model.FromPart)
	}
	k := &cause{limits: []*model.Limit{l}}
	if o := s.other; o != nil {
		k.limits = append(k.limits, o.limit)
		f.Message = fmt.Sprintf("%s readings at `%s` are outside %s and inside the limit at `%s`, and %s there are outside %s and inside this one: the two limits are swapped, by the looks of it",
			allOf(len(s.readings)), l.Path, l.BoundsText(), o.limit.Path, allOf(len(o.readings)), o.limit.BoundsText())
		f.Do = "look both limits up again and exchange them; if they are right, the readings stand under each other's names"
		f.Notes = append(f.Notes, source.Remark{At: o.limit.PathAt, Message: "the other limit"}, source.Remark{At: o.readings[0].At(), Message: "read there"})
	} else {
		f.Message = fmt.Sprintf("%s readings at `%s` are far outside %s, and would all be inside %s", s.counted(), l.Path, l.BoundsText(), s.meant)
		f.Do = "look the limit up again, its unit and its point; if it is right, the readings are all wrong alike"
	}
	f.Notes = append(f.Notes, source.Remark{At: s.readings[0].At(), Message: "read here"})
	k.report = report{f, -1}
	return k
}

// allOf counts readings, of which there are several.
func allOf(n int) string {
	if n == 2 {
		return "both"
	}
	return fmt.Sprintf("all %d", n)
}

// counted says how many readings speak for what was meant.
func (s *limitSlip) counted() string {
	if s.likewise == len(s.older) {
		return allOf(len(s.readings) + len(s.older))
	}
	return fmt.Sprintf("%d of %d", len(s.readings)+s.likewise, len(s.readings)+len(s.older))
}

// standsBefore reports whether a limit stands before another in their file; of two files, in the one that is named first.
func standsBefore(a, b *model.Limit) bool {
	if a.PathAt.File != b.PathAt.File {
		return a.PathAt.File.Name < b.PathAt.File.Name
	}
	return a.PathAt.Start < b.PathAt.Start
}

// limitSlips finds the limits that are wrong by the looks of the readings under them.
func (c *Context) limitSlips() []*cause {
	slips := c.outWhere(func(v *model.Value) bool { return v.Current })
	balance := c.balance(slips)
	var found []*cause
	for _, l := range c.Journal.Limits {
		s := slips[l]
		if s == nil || s.other != nil || len(s.readings) < fewSwapped || balance[l] > 0 || c.isLimitSuspect(l) {
			continue // none, or told already
		}
		other := slips[c.otherLimit(l)]
		switch {
		case other != nil && len(other.readings) >= fewSwapped && balance[other.limit] <= 0 && s.allIn(other.limit) && other.allIn(l):
			s.other, other.other = other, s
			if standsBefore(other.limit, l) {
				s = other
			}
			found = append(found, s.cause())
		default:
			if s.meant = s.otherwise(); s.meant != "" {
				found = append(found, s.cause())
			}
		}
	}
	return found
}

// outWhere returns the limits that readings of which something holds are out of, with those.
func (c *Context) outWhere(holds func(*model.Value) bool) map[*model.Limit]*limitSlip {
	slips := map[*model.Limit]*limitSlip{}
	for _, v := range c.Journal.Values {
		if v.Verdict == model.Out && holds(v) && couldSlip(v) {
			s := slips[v.Limit]
			if s == nil {
				s = &limitSlip{limit: v.Limit}
				slips[v.Limit] = s
			}
			s.readings = append(s.readings, v)
		}
	}
	return slips
}

// balance returns, of each limit, how many more of the older readings under it are in than out: where most of what was read before is inside as it stands, it is not wrong. Those that are good for
// one that is current it takes out.
func (c *Context) balance(slips map[*model.Limit]*limitSlip) map[*model.Limit]int {
	if len(slips) == 0 {
		return nil
	}
	balance := map[*model.Limit]int{}
	for _, v := range c.Journal.Values {
		switch {
		case slips[v.Limit] == nil || !isJudgedReading(v):
		case v.Current && (v.Verdict != model.Out || !couldSlip(v)):
			delete(slips, v.Limit)
		case !v.Current && v.Verdict == model.Out:
			balance[v.Limit]--
			slips[v.Limit].older = append(slips[v.Limit].older, v)
		case !v.Current:
			balance[v.Limit]++
		}
	}
	return balance
}

// isJudgedReading reports whether a value was read and is held to a limit.
func isJudgedReading(v *model.Value) bool {
	return v.Limit != nil && v.IsReading() && v.Verdict != model.NoLimit
}

// couldSlip reports whether a value is a single figure that was read and is held to bounds.
func couldSlip(v *model.Value) bool {
	l := v.Limit
	return v.IsReading() && l != nil && l.IsFigures() && v.Quantity.Unit != nil && !v.Quantity.IsOpenEnded() && len(v.Repeats) == 0 && v.Setting() == nil && v.Side != 0
}

// otherLimit returns the limit in force on the other side of the engine at the path of one; nil for none.
func (c *Context) otherLimit(l *model.Limit) *model.Limit {
	path := otherSide(l.Path)
	if path == "" {
		return nil
	}
	if other := c.Journal.LimitAt(path, nil); other != nil && other.Path == path {
		return other
	}
	return nil
}

// allIn reports whether the readings are all inside another limit.
func (s *limitSlip) allIn(l *model.Limit) bool {
	return !slices.ContainsFunc(s.readings, func(v *model.Value) bool { return !holdsIn(l, v.Quantity) })
}

// otherwise returns what else the limit's figures can mean that has all readings inside, in words; empty where that isn't plain, or where a reading isn't far off.
func (s *limitSlip) otherwise() string {
	l := s.limit
	if l.Unit == nil || slices.ContainsFunc(s.readings, func(v *model.Value) bool { return !farOff(v) && !isFarBelow(v) }) {
		return ""
	}
	one := quantity.Quantity{Kind: quantity.Figure, Unit: l.Unit, Value: 1}
	if l.Unit.Offset != 0 {
		return ""
	}
	times := func(of quantity.Quantity) *model.Limit { // the limit, with its figures read so
		factor := of.SI() / one.SI()
		other := *l
		other.Low.SI, other.High.SI, other.Size, other.Unit, other.Step = l.Low.SI*factor, l.High.SI*factor, l.Size*factor, of.Unit, l.Step*factor
		return &other
	}
	around := func(of quantity.Quantity) *model.Limit { // the limit, its tolerance as it is, around such a nominal
		other := *l
		by := of.SI() - l.Nominal.SI()
		other.Low.SI, other.High.SI, other.Size = l.Low.SI+by, l.High.SI+by, of.SI()
		return &other
	}
	aims := l.Nominal != nil && l.Low.Is && l.High.Is
	if aims {
		fits := func(q quantity.Quantity) bool { // and is a tolerance that such a figure can have
			o := around(q)
			return (o.Low.SI > 0 || !(l.Low.SI > 0)) && s.speaksFor(o)
		}
		if meant, ok := quantity.TheOne(l.Nominal.OtherReadings(slipOfPen&^quantity.AnotherUnit), fits); ok {
			return s.meantBy(around(meant.Quantity))
		}
	}
	if meant, ok := quantity.TheOne(one.OtherReadings(slipOfPen), func(q quantity.Quantity) bool { return s.speaksFor(times(q)) }); ok {
		return s.meantBy(times(meant.Quantity))
	}
	if !aims {
		return ""
	}
	if meant, ok := quantity.TheOne(l.Nominal.OtherReadings(slipOfPen), func(q quantity.Quantity) bool { return s.speaksFor(around(q)) }); ok {
		return s.meantBy(around(meant.Quantity))
	}
	return ""
}

// isFarBelow reports whether a figure is a small share of the low bound: of a limit in another unit, as wide beside its figures as it was, none is bands off.
func isFarBelow(v *model.Value) bool {
	return v.Side < 0 && v.Limit.Low.SI > 0 && quantity.Compare(v.Quantity.HighSI(), lowShare*v.Limit.Low.SI, v.Limit.Size) < 0
}

// speaksFor reports whether the readings are all inside another limit, and with older ones enough of them.
func (s *limitSlip) speaksFor(l *model.Limit) bool {
	in := len(s.readings) + s.olderIn(l)
	return s.allIn(l) && (in >= fewReadings || s.most && 3*in >= 2*(len(s.readings)+len(s.older)))
}

// meantBy says the bounds of what was meant, and counts the older readings inside.
func (s *limitSlip) meantBy(l *model.Limit) string {
	s.likewise = s.olderIn(l)
	return l.BoundsText()
}

func (s *limitSlip) olderIn(l *model.Limit) int {
	n := 0
	for _, v := range s.older {
		if v.Quantity.Unit != nil && holdsIn(l, v.Quantity) {
			n++
		}
	}
	return n
}
