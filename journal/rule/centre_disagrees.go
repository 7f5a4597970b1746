package rule

import (
	"math"
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// What a cam's figures may be off by before one of them is wrong, in rad. Common practice, no source.
const (
	unlikeFlanks = math.Pi / 36     // 5°: a lobe's middle from that between its events, because its flanks differ
	sameEvent    = math.Pi / 18     // 10°: an event as it was measured from the card's, at one lift
	otherEvent   = 5 * math.Pi / 36 // 25°: what moves one event by that and leaves the other is no chain
	noChain      = 7 * math.Pi / 18 // 70°: as far out as no chain is, where nobody says how many teeth its sprocket has
	nearMiddle   = math.Pi / 3      // 60°: as far as a lobe's middle is from where it usually is
	oddMiddle    = math.Pi / 6      // 30°: from there on it is looked at whether an event is mistyped
	usedMiddle   = math.Pi / 9      // 20°: as far as nearly all are
	workedMiddle = math.Pi / 180    // 1°: a middle that was worked out from the events, as cards have it
	sameOpen     = math.Pi / 18     // 10°: as a lobe was measured to be open from what its card says, at one lift
	otherOpen    = math.Pi / 30     // 6°: from there on it is looked at whether two digits are swapped
)

// camSlip is a figure of a cam that others contradict.
type camSlip struct {
	at          *model.Value   // where the slip is
	about       []*model.Value // all that contradict each other
	all         bool           // all of them are wrong, not that one alone
	message, do string
	notes       []source.Remark
}

// centreDisagrees reports figures of a cam that contradict each other: in one list of one entry, or by one part; and those of a part that contradict what was measured.
func centreDisagrees(c *Context) { c.tellCauses() }

// camSlips finds them, those that contradict each other first.
func (c *Context) camSlips() []*cause {
	var slips []*camSlip
	for _, told := range c.camsTold() {
		if s := swappedCam(told); s != nil {
			slips = append(slips, s)
			continue
		}
		for i, side := range parse.Sides {
			told[i].open = c.measuredOpen(told[i])
			if s := told[i].slip(side); s != nil {
				slips = append(slips, s)
			}
		}
	}
	for _, side := range parse.Sides {
		if s := c.cardSlip(side); s != nil && !slices.ContainsFunc(slips, func(other *camSlip) bool { return slices.Contains(other.about, s.at) }) {
			slips = append(slips, s)
		}
	}
	var found []*cause
	for _, s := range slips {
		found = append(found, c.camCause(s))
	}
	return found
}

// camCause is what is told of one of them.
func (c *Context) camCause(s *camSlip) *cause {
	severity := source.Warning
	if s.at.Verdict == model.Out { // it stands for that finding
		severity = source.Error
	}
	k := &cause{report: reportAbout(s.at, severity, s.message, s.do, s.notes...), instead: []*model.Value{s.at}, against: s.about, weight: suspect}
	if s.all {
		k.instead = append(k.instead, s.about...)
	}
	if s.at.Origin == model.FromPart && c.broughtNow(s.at.Path) == s.at { // what was measured takes its place, and doesn't mend the card
		k.report.State = source.Open
	}
	return k
}

// lobeTold is what one list of one entry, or one part, tells of a lobe; nil for nothing.
type lobeTold struct {
	opens, closes, centre, lift *model.Value

	open float64 // rad of the crank: for how long it was measured to be open, at the same lift; 0 where it wasn't
}

// camsTold returns what was told of both lobes, by whoever told it at once, in order of what was told first.
func (c *Context) camsTold() []*[2]lobeTold {
	type teller struct {
		origin model.Origin
		order  int
		part   *model.Part
	}
	by := map[teller]*[2]lobeTold{}
	var all []*[2]lobeTold
	for i, side := range parse.Sides {
		for _, what := range []string{"opens", "closes", "centre", "lift"} {
			path := "cam." + side + "." + what
			for _, v := range c.Journal.History(path) {
				if v.Path != path || v.Origin == model.FromDegreeing || v.Quantity.Unit == nil {
					continue
				}
				who := teller{v.Origin, v.Order, v.Part}
				if by[who] == nil {
					by[who] = &[2]lobeTold{}
					all = append(all, by[who])
				}
				*by[who][i].field(what) = v
			}
		}
	}
	return all
}

func (l *lobeTold) field(what string) **model.Value {
	switch what {
	case "opens":
		return &l.opens
	case "closes":
		return &l.closes
	case "centre":
		return &l.centre
	}
	return &l.lift
}

// values are those that were told.
func (l lobeTold) values() []*model.Value {
	return slices.DeleteFunc([]*model.Value{l.opens, l.closes, l.centre, l.lift}, func(v *model.Value) bool { return v == nil })
}

// lobeAngles are those of a lobe, in rad after the top dead centre of overlap.
type lobeAngles struct {
	opens, closes, centre float64
	middled               bool    // the centre is told too
	may                   float64 // that centre and events may be apart
}

// angles returns where the events stand, were they those of a side; false where they aren't both told, or one is counted from nowhere.
func (l lobeTold) angles(side string) (a lobeAngles, ok bool) {
	if l.opens == nil || l.closes == nil {
		return a, false
	}
	opens, first := model.OverlapAngle("cam."+side+".opens", l.opens.Quantity)
	closes, second := model.OverlapAngle("cam."+side+".closes", l.closes.Quantity)
	a = lobeAngles{opens: opens, closes: closes, may: unlikeFlanks + (l.opens.Estimate.Expanded()+l.closes.Estimate.Expanded())/2}
	if l.centre != nil {
		a.centre, a.middled = model.OverlapAngle("cam."+side+".centre", l.centre.Quantity)
		a.may += l.centre.Estimate.Expanded()
	}
	return a, first && second
}

// agrees reports whether the centre, where it is told, is the middle between the events.
func (a lobeAngles) agrees() bool {
	return !a.middled || math.Abs(a.centre-(a.opens+a.closes)/2) <= a.may
}

// isLobe reports whether a lobe of a side can be so.
func (a lobeAngles) isLobe(side string) bool {
	return a.agrees() && lobesOpen.Holds(a.closes-a.opens) && math.Abs((a.opens+a.closes)/2-model.UsualMiddle(side)) <= nearMiddle
}

// shownEvent shows an angle after the top dead centre of overlap.
func shownEvent(angle float64) quantity.Shown {
	event := quantity.ATDC
	if angle < 0 {
		event = quantity.BTDC
	}
	degrees := quantity.UnitOf("°", quantity.Angle)
	return quantity.Quantity{Kind: quantity.Figure, Unit: degrees, Value: degrees.FromSI(angle), Step: 0.1, Event: event}.Shown()
}

// usualEvents returns how a card counts an event.
func usualEvents(side, what string) []quantity.Event {
	switch {
	case what == "centre" && side == "intake":
		return []quantity.Event{quantity.ATDC}
	case what == "centre":
		return []quantity.Event{quantity.BTDC}
	case (what == "opens") == (side == "intake"):
		return []quantity.Event{quantity.BTDC, quantity.ATDC}
	}
	return []quantity.Event{quantity.BBDC, quantity.ABDC}
}

// otherwiseTold returns what the digits of an event may have been meant for: counted otherwise as cards count it, with the point elsewhere, or with two digits swapped.
func otherwiseTold(q quantity.Quantity, side, what string, ways quantity.Misreading) []quantity.OtherReading {
	if q.Kind == quantity.Interval {
		return nil
	}
	return slices.DeleteFunc(q.OtherReadings(ways), func(r quantity.OtherReading) bool {
		return r.Way == quantity.AnotherCentre && !slices.Contains(usualEvents(side, what), r.Event)
	})
}
