package rule

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// What a bore of the sheet and those that were measured may differ by: the greater of a length and a share. Common practice, no source.
const (
	mostBoreWear   = 0.2e-3 // m: service limits end some 0.1 mm beyond standard
	mostWearShare  = 0.003
	mostOversize   = 2e-3 // m: the largest piston that is sold for a bore of that name
	mostOversizeOf = 0.03
)

// agreement is what a figure of the sheet and the same one measured may differ by: the greater of a length, or volume, and a share. Common practice, no source.
type agreement struct {
	path         string
	least, share float64
}

// agreements are those of the figures of one path: what makers, burettes and callipers leave open, and what is taken off without another part.
var agreements = []agreement{
	{"engine.stroke", 0.5e-3, 0},
	{"engine.rod", 1e-3, 0},
	{"engine.chamber", 0.5e-6, 0.2}, // skimmed or ported
	{"engine.dome", 0.5e-6, 0.3},
	{"engine.dish", 0.5e-6, 0.3},
	{"engine.deck", 0.5e-3, 0}, // the side that the piston leans to, and a skim
	{"engine.gasket.bore", 2e-3, 0},
	{"engine.gasket.thickness", 0.4e-3, 0}, // not pulled down yet
	{"engine.valve.intake", 1e-3, 0},
	{"engine.valve.exhaust", 1e-3, 0},
}

// sheetDisagrees reports a figure of the build sheet, or one that a part brings, that isn't what was measured of the same thing, or what the limit of it says.
func sheetDisagrees(c *Context) { c.tellCauses() }

// bores are what the bore of the sheet is held against.
type bores struct {
	low, high float64         // m: what it may be, but for wear
	words     string          // how that is told
	at        []source.Remark // where it stands
	read      []*model.Value  // in order of size; none where it is the limits
}

// off returns by how much a bore is more than what it is held against, in m; less than nought where it is less.
func (b *bores) off(bore float64) float64 { return max(bore-b.high, 0) + min(bore-b.low, 0) }

// boreApart finds the bore of the engine that is not what was measured, or what its limit says.
func (c *Context) boreApart() []*cause {
	v := c.size("engine.bore")
	if v == nil || v.IsReading() || v.Verdict == model.Out || c.isDoubted(v) || c.Journal.IsFitUnclear() {
		return nil
	}
	b := c.boresMeasured(v)
	if b == nil || b.agrees(v, v.Estimate.Value) {
		return nil
	}
	isOversize := quantity.Compare(math.Abs(b.off(v.Estimate.Value)), max(mostOversize, mostOversizeOf*b.high), b.high) <= 0
	sheetGoes, measuredGoes := c.goWithOtherSizes(v, b)
	if !isOversize && b.isAlone() && sheetGoes && !measuredGoes {
		return b.readingApart(v)
	}
	message := fmt.Sprintf("`engine.bore` is %s, and %s", v.Quantity.Shown(), b.words)
	if stroke := c.size("engine.stroke"); stroke != nil && !stroke.IsReading() && b.agrees(v, stroke.Estimate.Value) {
		message += fmt.Sprintf("; `engine.stroke`, %s, would agree", stroke.Quantity.Shown())
		return b.told(v, source.Error, message, "bore and stroke exchanged? if so exchange them; if not, look both up again", v, stroke)
	}
	if meant, ok := quantity.TheOne(v.Quantity.OtherReadings(slipOfPen|quantity.SwappedDigits), func(q quantity.Quantity) bool { return b.agrees(v, q.SI()) }); ok {
		if there, either := b.misread(v); either && sheetGoes {
			return b.told(v, source.Error, message, fmt.Sprintf("%s? look which it was: here %s, or there %s", meant.Why, meant.Shown(), there.Shown()), v, b.read[0])
		}
		text := meant.Shown().String()
		k := b.told(v, source.Error, message, fmt.Sprintf("%s? if so write `%s`; if not, look whether it is another bore", meant.Why, text), v)
		k[0].report.Fixes = writeInstead(v, text)
		return k
	}
	switch {
	case !isOversize:
		return b.told(v, source.Error, message, "look both up again: a digit, the unit, or whether it is another bore", v)
	case len(b.read) == 0:
		return b.told(v, source.Note, message, "bored out? then the limit is to be that of the oversize, and the sheet too")
	case b.off(v.Estimate.Value) < 0:
		return b.told(v, source.Note, message, "bored out? then bring the sheet up to date: displacement and compression ratio rest on it")
	}
	return b.told(v, source.Note, message, "bored out since it was measured? then measure again; if not, mend the sheet: displacement and compression ratio rest on it")
}

// agrees reports whether a bore, in m, would be what the sheet's is held against, but for wear and the last digit of the sheet's.
func (b *bores) agrees(sheet *model.Value, bore float64) bool {
	wear := max(mostBoreWear, mostWearShare*b.high)
	return quantity.Compare(math.Abs(b.off(bore)), wear+sheet.Quantity.StepSI()/2, b.high) <= 0
}

// told is what is told of the sheet's bore, and what is held against it.
func (b *bores) told(sheet *model.Value, severity source.Severity, message, do string, against ...*model.Value) []*cause {
	r := reportAbout(sheet, severity, message, do, b.at...)
	for _, w := range against {
		note := source.Remark{At: w.At(), Message: fmt.Sprintf("`%s`", w.Path)}
		if w != sheet && !slices.ContainsFunc(r.Notes, func(other source.Remark) bool { return other.At == note.At }) {
			r.Notes = append(r.Notes, note)
		}
	}
	return []*cause{{report: r, against: against, weight: suspect}}
}

// isAlone reports whether one or two bores were measured, and no limit speaks for them.
func (b *bores) isAlone() bool {
	n := len(b.read)
	return n > 0 && n < leastCrowd && !slices.ContainsFunc(b.read, func(v *model.Value) bool { return v.Verdict != model.NoLimit })
}

// misread returns what the one bore that was measured, and that no limit speaks for, may have been misread or mistyped for, which the sheet's agrees with; false where that isn't plain, or there are more.
func (b *bores) misread(sheet *model.Value) (quantity.OtherReading, bool) {
	if len(b.read) != 1 || !b.isAlone() {
		return quantity.OtherReading{}, false
	}
	return quantity.TheOne(b.read[0].Quantity.OtherReadings(slipOfPen|quantity.SwappedDigits), func(q quantity.Quantity) bool {
		other := bores{low: q.SI(), high: q.SI()}
		return other.agrees(sheet, sheet.Estimate.Value)
	})
}

// boresMeasured returns what the bore of the sheet is held against: the middle of what was measured while it held, else the limits; nil for nothing, and where those have findings of their own.
func (c *Context) boresMeasured(sheet *model.Value) *bores {
	j := c.Journal
	b := &bores{low: math.Inf(1), high: math.Inf(-1)}
	hasFindings := false
	for _, position := range j.Positions.Below("bore") {
		v := j.Current(position)
		if v == nil || !v.IsReading() || v.Order < sheet.Order || v.Quantity.Unit == nil || v.Quantity.Unit.Dimension != quantity.Length || v.Quantity.IsOpenEnded() || slices.Contains(b.read, v) {
			continue
		}
		if c.isUnsound(v) {
			hasFindings = true
			continue
		}
		b.read = append(b.read, v)
	}
	switch {
	case len(b.read) == 0 && hasFindings:
		return nil
	case len(b.read) == 0:
		return b.byLimits(c)
	}
	slices.SortStableFunc(b.read, func(v, w *model.Value) int { return cmp.Compare(v.Estimate.Value, w.Estimate.Value) })
	n := len(b.read)
	first := b.read[n/2]
	middle := (first.Estimate.Value + b.read[(n-1)/2].Estimate.Value) / 2
	b.low, b.high = middle, middle
	b.words = fmt.Sprintf("the middle of the %d that were measured is %s", n, quantity.Show(middle, first.Quantity.Unit, first.Quantity.StepSI()))
	if n == 1 {
		b.words = fmt.Sprintf("`%s` was measured as %s", first.Path, first.Quantity.Shown())
	}
	b.at = []source.Remark{{At: first.At(), Message: "measured here"}}
	return b
}

// byLimits takes the limits of bores that are in force: from the least of all to the most, what they may wear to included. It returns nil where there are none, or one is doubted.
func (b *bores) byLimits(c *Context) *bores {
	var first *model.Limit
	for _, position := range c.Journal.Positions.Below("bore") {
		l := c.Journal.LimitAt(position, nil)
		if l == nil || !l.IsFigures() || l.Unit == nil || l.Unit.Dimension != quantity.Length || !l.Low.Is || !l.High.Is || c.isLimitUnsure(l) {
			continue
		}
		b.low, b.high = min(b.low, l.Low.SI), max(b.high, l.High.SI)
		if l.Worn[1].Is {
			b.high = max(b.high, l.Worn[1].SI)
		}
		if first == nil {
			first = l
			b.words, b.at = fmt.Sprintf("the limit at `%s` is %s", l.Path, l.BoundsText()), limitNote(l)
		}
	}
	if first == nil {
		return nil
	}
	return b
}

// readingApart is what is told where the sheet is right.
func (b *bores) readingApart(sheet *model.Value) []*cause {
	v := b.read[0]
	r := reportAbout(v, source.Error, fmt.Sprintf("`%s` is %s, and `engine.bore` %s, which goes with the other sizes of the engine", v.Path, v.Quantity.Shown(), sheet.Quantity.Shown()),
		"look at its digits and its unit again; if they are right, measure again", source.Remark{At: sheet.At(), Message: "`engine.bore`"})
	return []*cause{{report: r, against: slices.Clone(b.read), weight: suspect}}
}

// goWithOtherSizes reports whether the sheet's bore goes with the other sizes of the engine, and what was measured would in its place. Both do where there are none.
func (c *Context) goWithOtherSizes(sheet *model.Value, b *bores) (sheetGoes, measuredGoes bool) {
	sheetGoes, measuredGoes = true, true
	for _, t := range c.traits() {
		if slices.Contains(t.inputs, sheet) {
			sheetGoes = sheetGoes && !t.isBad()
			measuredGoes = measuredGoes && t.isMended(sheet, b.high/sheet.Estimate.Value)
		}
	}
	return sheetGoes, measuredGoes
}

// figuresApart finds figures of the sheet, and those that parts bring, that are not what was found at their own path before anything was set or fitted there.
func (c *Context) figuresApart() []*cause {
	var found []*cause
	for _, a := range agreements {
		for _, v := range c.Journal.History(a.path) {
			if v.IsReading() || v.Verdict == model.Out || v.Quantity.Unit == nil || v.Quantity.IsOpenEnded() || c.isDoubted(v) {
				continue
			}
			w := c.lastFound(v)
			if w == nil || w.Verdict == model.Out || w.Quantity.Unit == nil || w.Quantity.Unit.Dimension != v.Quantity.Unit.Dimension || w.Quantity.IsOpenEnded() || c.isDoubted(w) {
				continue
			}
			if k := a.apart(v, w); k != nil {
				found = append(found, k)
			}
		}
	}
	return found
}

// lastFound returns the last of what was found where a figure stood, with nothing set or fitted in between; nil for none.
func (c *Context) lastFound(v *model.Value) *model.Value {
	var last *model.Value
	for {
		next := c.Journal.ReadNext(v)
		if len(next) != 1 {
			return last
		}
		last, v = next[0], next[0]
	}
}

// apart returns what is told of a figure that is not what was measured; nil where the two agree. Where two digits swapped make them agree to an eighth of what they may differ by, they needn't be so far apart.
func (a agreement) apart(v, w *model.Value) *cause {
	may := func(x float64) float64 {
		return max(a.least, a.share*math.Abs(x)) + (v.Quantity.StepSI()+w.Quantity.StepSI())/2
	}
	off := math.Abs(v.Estimate.Value - w.Estimate.Value)
	most := may(min(math.Abs(v.Estimate.Value), math.Abs(w.Estimate.Value)))
	hint := func(at, other *model.Value, ways quantity.Misreading, within float64) (quantity.OtherReading, bool) {
		return quantity.TheOne(at.Quantity.OtherReadings(ways), func(q quantity.Quantity) bool {
			return math.Abs(q.SI()-other.Estimate.Value) <= within*may(other.Estimate.Value)
		})
	}
	ways, within := slipOfPen|quantity.SwappedDigits, 1.0
	isFar := quantity.Compare(off, most, most) > 0
	if !isFar {
		if quantity.Compare(off, most/2, most) <= 0 {
			return nil
		}
		ways, within = quantity.SwappedDigits, 0.125
	}
	at, other := v, w
	meant, ok := hint(v, w, ways, within)
	if !ok {
		if meant, ok = hint(w, v, ways, within); ok {
			at, other = w, v
		}
	}
	if !isFar && !ok {
		return nil
	}
	where := "by the sheet"
	if v.Origin == model.FromPart {
		where = fmt.Sprintf("by what `%s` brings", v.Part.Name)
	}
	r := reportAbout(at, source.Warning, fmt.Sprintf("`%s` is %s %s, and was measured as %s", v.Path, v.Quantity.Shown(), where, w.Quantity.Shown()),
		"look both up again; the one that was measured counts, and if it is right the other is to be mended", source.Remark{At: other.At(), Message: fmt.Sprintf("`%s`", other.Path)})
	r.State = source.Open // whichever is wrong stands there
	if ok {
		text := meant.Shown().String()
		r.Do = fmt.Sprintf("%s? if so write `%s`; if not, look both up again", meant.Why, text)
		r.Fixes = writeInstead(at, text)
	}
	if !isFar {
		r.Severity = source.Note
		return &cause{report: r} // either may be right
	}
	return &cause{report: r, against: []*model.Value{at}, weight: suspect}
}
