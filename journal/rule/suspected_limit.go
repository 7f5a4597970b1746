package rule

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// fewReadings are too few to tell that the limit is wrong, and not they.
const fewReadings = 3

// limitSlip is why a limit is held to be wrong, and not the readings under it.
type limitSlip struct {
	limit    *model.Limit
	readings []*model.Value // current ones, that are all out
	meant    string         // what its figures were meant to be, in words; empty for those of the other side
	other    *limitSlip     // that of the other side of the engine, whose figures it has
}

// suspectedLimit reports limits that all of their readings are out of, where one slip in the limit explains all.
func suspectedLimit(c *Context) {
	slips := c.doubts().limits
	if len(slips) == 0 {
		return
	}
	for _, l := range c.Journal.Limits {
		s := slips[l]
		if s == nil || s.other != nil && standsBefore(s.other.limit, l) {
			continue // none, or told with the other side
		}
		f := source.Finding{Severity: source.Error, At: l.PathAt, Subject: l.Path, Origin: string(model.FromSheet)}
		if l.Part != nil {
			f.Origin = string(model.FromPart)
		}
		if s.other != nil {
			o := s.other
			f.Message = fmt.Sprintf("all %d readings at `%s` are outside %s and inside the limit at `%s`, and all %d there are outside %s and inside this one: the two limits are swapped, by the looks of it",
				len(s.readings), l.Path, l.BoundsText(), o.limit.Path, len(o.readings), o.limit.BoundsText())
			f.Do = "look both limits up again and exchange them; if they are right, the readings stand under each other's names"
			f.Notes = append(f.Notes, source.Remark{At: o.limit.PathAt, Message: "the other limit"}, source.Remark{At: o.readings[0].At(), Message: "read there"})
		} else {
			f.Message = fmt.Sprintf("all %d readings at `%s` are far outside %s, and would all be inside %s", len(s.readings), l.Path, l.BoundsText(), s.meant)
			f.Do = "look the limit up again, its unit and its point; if it is right, the readings are all wrong alike"
		}
		f.Notes = append(f.Notes, source.Remark{At: s.readings[0].At(), Message: "read here"})
		c.report(f, -1)
	}
}

// standsBefore reports whether a limit stands before another in their file; of two files, in the one that is named first.
func standsBefore(a, b *model.Limit) bool {
	if a.PathAt.File != b.PathAt.File {
		return a.PathAt.File.Name < b.PathAt.File.Name
	}
	return a.PathAt.Start < b.PathAt.Start
}

// limitSlips finds the limits that are wrong by the looks of the readings under them: three or more that are current, all of them out, and all inside by one slip in the limit; unless most of
// what was read before is inside as the limit stands.
func (c *Context) limitSlips() map[*model.Limit]*limitSlip {
	slips := map[*model.Limit]*limitSlip{}
	for _, v := range c.Journal.Values {
		if v.Verdict == model.Out && v.Current && couldSlip(v) {
			s := slips[v.Limit]
			if s == nil {
				s = &limitSlip{limit: v.Limit}
				slips[v.Limit] = s
			}
			s.readings = append(s.readings, v)
		}
	}
	if len(slips) == 0 {
		return nil
	}
	balance := map[*model.Limit]int{} // of older readings: those that are in less those that are out
	for _, v := range c.Journal.Values {
		s := slips[v.Limit]
		switch {
		case s == nil || !v.IsReading() || v.Verdict == model.NoLimit:
		case v.Current && (v.Verdict != model.Out || !couldSlip(v)):
			delete(slips, v.Limit) // it is good for this one
		case !v.Current && v.Verdict == model.Out:
			balance[v.Limit]--
		case !v.Current:
			balance[v.Limit]++
		}
	}
	found := map[*model.Limit]*limitSlip{}
	for l, s := range slips {
		if len(s.readings) < fewReadings || balance[l] > 0 {
			continue
		}
		other := slips[c.otherLimit(l)]
		switch {
		case other != nil && balance[other.limit] <= 0 && s.allIn(other.limit) && other.allIn(l):
			s.other, other.other = other, s
			found[l], found[other.limit] = s, other
		case s.other == nil:
			if s.meant = s.otherwise(); s.meant != "" {
				found[l] = s
			}
		}
	}
	return found
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
	if l.Unit == nil || slices.ContainsFunc(s.readings, func(v *model.Value) bool { return !farOff(v) }) {
		return ""
	}
	one := quantity.Quantity{Kind: quantity.Figure, Unit: l.Unit, Value: 1}
	var factors []float64
	meant := ""
	for _, way := range otherReadings(one) {
		factor := way.meant.SI() / one.SI()
		other := *l
		other.Low.SI, other.High.SI, other.Size = l.Low.SI*factor, l.High.SI*factor, l.Size*factor
		if l.Unit.Offset != 0 || !s.allIn(&other) || slices.ContainsFunc(factors, func(f float64) bool { return quantity.Compare(f, factor, 0) == 0 }) {
			continue
		}
		factors = append(factors, factor)
		other.Unit, other.Step = way.meant.Unit, l.Step*factor
		meant = other.BoundsText()
	}
	if len(factors) != 1 {
		return ""
	}
	return meant
}
