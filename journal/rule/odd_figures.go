package rule

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// What single figures of a build are like, whatever is beside them. All of it is common practice, no source.
const (
	mostDiameters  = 3    // of a screw that are engaged
	mostLightShear = 4e8  // of aluminium and magnesium, Pa
	mostShear      = 10e8 // of steel and of all else, Pa
)

var (
	adjusterPitches = quantity.Span{Low: 0.35e-3, High: 1.5e-3} // m
	camSprockets    = quantity.Span{Low: 20, High: 60}          // teeth, of chains and belts
	camWheels       = quantity.Span{Low: 20, High: 120}         // of trains of gears too
)

// isoPitches are the pitches of ISO 261 in that span, in mm, and inchPitches the threads per inch of ASME B1.1 and of the British and cycle threads: the latter from memory.
var (
	isoPitches  = []float64{0.35, 0.4, 0.45, 0.5, 0.6, 0.7, 0.75, 0.8, 1, 1.25, 1.5}
	inchPitches = []float64{18, 20, 22, 24, 26, 28, 32, 36, 40, 44, 48, 56, 64, 72}
)

// oddFigures finds figures that alone are none that there is.
func (c *Context) oddFigures() []*cause {
	return slices.Concat(c.oddScrews(), c.oddPitch(), c.oddSprocket(), c.oddLeaves(), c.oddTools(), c.oddGoals(), c.oddTemperatures(), c.oddRanges(), c.oddWrenches(), c.oddDrives(), c.oddHumidities(), c.oddInjectors())
}

// oddScrews finds lengths of thread and strengths of material that no screw has, each once where several limits have them from above.
func (c *Context) oddScrews() []*cause {
	var found []*cause
	said := map[source.Range]bool{}
	add := func(l *model.Limit, v *parse.Value, message, do string) {
		if !said[v.At] {
			said[v.At] = true
			found = append(found, &cause{report: report{source.Finding{Severity: source.Warning, At: v.At, Subject: l.Path, Message: message, Do: do}, -1}})
		}
	}
	for _, l := range c.Journal.Limits {
		f := c.Sums.Fastener(l)
		if f == nil || c.isLimitUnsure(l) { // its thread may be mistyped
			continue
		}
		if v, q := figureOf(l, "engagement", quantity.Length); v != nil && f.Thread.Diameter > 0 && q.SI() > mostDiameters*f.Thread.Diameter*(1+1e-9) {
			add(l, v, fmt.Sprintf("%s engaged are %.3g diameters of %s: more than %d nobody screws in", q.Shown(), q.SI()/f.Thread.Diameter, l.Key("thread").Text, mostDiameters),
				"look at its point and its unit: it is how much thread holds, not how long the screw is")
		}
		into := strings.ToLower(l.Key("into").Text)
		most, what := float64(mostShear), "no material has"
		if strings.Contains(into, "alumin") || strings.Contains(into, "magnes") {
			most, what = mostLightShear, "no light alloy has"
		}
		if v, q := figureOf(l, "into-shear", quantity.Pressure); v != nil && quantity.Compare(q.SI(), most, 0) > 0 {
			add(l, v, fmt.Sprintf("a shear strength of %s: %s more than %s", q.Shown(), what, quantity.Show(most, q.Unit, 0)), "look the figure up again, its point and its unit; shear strength is some 0.6 of tensile strength")
		}
	}
	return found
}

// figureOf returns the single figure of a key that limits inherit; nil for none.
func figureOf(l *model.Limit, key string, d quantity.Dimension) (*parse.Value, quantity.Quantity) {
	values := l.Figures(key)
	if len(values) == 0 {
		return nil, quantity.Quantity{}
	}
	q, slip := values[0].Resolve(quantity.Want{Dimensions: []quantity.Dimension{d}})
	if slip != nil || q.Unit == nil || q.Kind == quantity.Interval {
		return nil, quantity.Quantity{}
	}
	return &values[0], q
}

// oddPitch finds the pitch of a valve adjuster that no thread has.
func (c *Context) oddPitch() []*cause {
	v := c.size("engine.adjuster.pitch")
	if v == nil {
		return nil
	}
	message := ""
	switch pitch := v.Quantity.SI(); {
	case quantity.Compare(pitch, adjusterPitches.Low, 0) < 0 || quantity.Compare(pitch, adjusterPitches.High, 0) > 0:
		u := quantity.UnitShown("mm")
		message = fmt.Sprintf("`%s` is %s: adjusters have %s to %s", v.Path, v.Quantity.Shown(), quantity.Show(adjusterPitches.Low, u, 0), quantity.Show(adjusterPitches.High, u, 0))
	case !isPitch(v.Quantity):
		message = fmt.Sprintf("`%s` is %s, which is no pitch of ISO 261, and no number of threads to the inch", v.Path, v.Quantity.Shown())
	default:
		return nil
	}
	return []*cause{{report: reportAbout(v, source.Warning, message, "look at its digits again, or measure over ten threads"), against: []*model.Value{v}, weight: suspect}}
}

// isPitch reports whether a length is a standard pitch to half of its last digit.
func isPitch(q quantity.Quantity) bool {
	slack := max(q.StepSI()/2, 1e-6*q.SI())
	isNear := func(mm float64) bool { return math.Abs(mm*1e-3-q.SI()) <= slack*(1+1e-9) }
	return slices.ContainsFunc(isoPitches, isNear) || slices.ContainsFunc(inchPitches, func(threads float64) bool { return isNear(25.4 / threads) })
}

// oddSprocket finds a number of teeth that no cam sprocket has.
func (c *Context) oddSprocket() []*cause {
	v := c.figureNow("engine.cam-sprocket")
	if v == nil || camSprockets.Holds(v.Estimate.Value) {
		return nil
	}
	k := &cause{report: reportAbout(v, source.Warning, fmt.Sprintf("`%s` is %s: cam sprockets have %g to %g teeth", v.Path, v.Quantity.Shown(), camSprockets.Low, camSprockets.High), "count the teeth again"),
		against: []*model.Value{v}, weight: suspect}
	if camWheels.Holds(v.Estimate.Value) {
		k.report.Severity, k.report.Do, k.weight = source.Note, "count the teeth again; if it is the wheel of a gear train, accept it", doubted
	}
	return []*cause{k}
}

// oddLeaves finds leaves of feeler gauges whose point is one place to the right: each between two fellows, or after the last, that a tenth of it fits.
func (c *Context) oddLeaves() []*cause {
	var found []*cause
	for _, t := range c.Journal.Tools {
		written := t.Fields.Values("leaves")
		if len(written) != len(t.Leaves) || len(written) < 3 {
			continue
		}
		for i, leaf := range t.Leaves {
			before, after := 0.0, leaf.SI()/4 // after the last a leap of more than four times
			if i > 0 {
				before = t.Leaves[i-1].SI()
			}
			if i+1 < len(t.Leaves) {
				after = t.Leaves[i+1].SI()
			}
			tenth := leaf.SI() / 10
			isLeap := i+1 < len(t.Leaves) || before < after
			if !isLeap || !(before < tenth && tenth < leaf.SI() && leaf.SI() > after) || i+1 < len(t.Leaves) && tenth >= after {
				continue
			}
			found = append(found, &cause{report: report{source.Finding{Severity: source.Warning, At: written[i].At, Subject: t.Name,
				Message: fmt.Sprintf("the leaf %s is far thicker than those beside it: %s would fit among them", leaf.Shown(), quantity.Show(tenth, leaf.Unit, leaf.StepSI()/10)), Do: "look at its point again"}, -1}})
		}
	}
	return found
}

// senselessTool is the share of a tool's ratio to all limits that it reads at below which it is not the tool that is coarse, but its figure that is mistyped.
const senselessTool = 0.2

// oddTools finds tools whose uncertainty is many times what all limits leave open that it is read at.
func (c *Context) oddTools() []*cause {
	best := map[*model.Tool]*coarse{}
	for _, v := range c.Journal.Values {
		if !c.restsOnTool(v) || c.isLimitSuspect(v.Limit) {
			continue
		}
		if ratio, ok := v.Tool.Ratio(v.Limit); ok && (best[v.Tool] == nil || ratio > best[v.Tool].ratio) {
			best[v.Tool] = &coarse{value: v, ratio: ratio}
		}
	}
	var found []*cause
	for _, t := range c.Journal.Tools {
		use := best[t]
		if use == nil || quantity.Compare(use.ratio, senselessTool, 0) >= 0 {
			continue
		}
		keys := []string{"uncertainty", "error", "resolution"}
		i := slices.IndexFunc(keys, func(key string) bool { return t.Fields.Value(key) != nil })
		if i < 0 {
			continue
		}
		v := t.Fields.Value(keys[i])
		found = append(found, &cause{tool: t, report: report{source.Finding{Severity: source.Warning, At: v.At, Subject: t.Name,
			Message: fmt.Sprintf("the %s of `%s` is %s, many times what is left open at anything that it read: `%s` leaves the most, %s", keys[i], t.Name, v.Text, use.value.Limit.Path, use.value.Limit.BoundsText()),
			Do:      "look at its point and its unit again; if it is right, nothing can be judged by it", Notes: limitNote(use.value.Limit)}, -1}})
	}
	return found
}
