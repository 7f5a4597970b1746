package chart

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

func unitNamed(t *testing.T, symbol string) *quantity.Unit {
	t.Helper()
	if symbol == "" {
		return nil
	}
	u := quantity.UnitShown(symbol)
	if u == nil {
		t.Fatalf("no unit `%s`", symbol)
	}
	return u
}

// typed reads a figure as a journal has it.
func typed(t *testing.T, text string) quantity.Quantity {
	t.Helper()
	w, slip := quantity.Parse(text)
	if slip != nil {
		t.Fatalf("`%s`: %s", text, slip.Message)
	}
	q, slip := w.Resolve(quantity.Want{})
	if slip != nil {
		t.Fatalf("`%s`: %s", text, slip.Message)
	}
	return q
}

// reading reads a reading, none from an empty text.
func reading(t *testing.T, text, unit string) Reading {
	t.Helper()
	if text == "" {
		return Reading{}
	}
	q := typed(t, text)
	return Read(&q, q.SpreadSI(), unitNamed(t, unit))
}

func bound(t *testing.T, text string) Bound {
	t.Helper()
	if text == "" {
		return Bound{}
	}
	return Bound{true, typed(t, text).SI()}
}

func worked(t *testing.T, text string) Figure {
	t.Helper()
	if text == "" {
		return Figure{}
	}
	q := typed(t, text)
	return Figure{true, q.SI(), q.SpreadSI()}
}

func (l sheetLimit) limit(t *testing.T) Limit {
	t.Helper()
	limit := Limit{Low: bound(t, l.Low), High: bound(t, l.High), ServiceLow: bound(t, l.ServiceLow), ServiceHigh: bound(t, l.ServiceHigh), Nominal: bound(t, l.Nominal)}
	if l.Step != "" {
		q := typed(t, l.Step)
		limit.Step = q.Unit.StepSI(q.Value, 1)
	}
	return limit
}

func verdict(t *testing.T, word string) model.Verdict {
	t.Helper()
	for _, v := range []model.Verdict{model.In, model.Worn, model.Undecided, model.Out} {
		if v.String() == word {
			return v
		}
	}
	if word != "" {
		t.Fatalf("no verdict `%s`", word)
	}
	return model.NoLimit
}

func drawStrip(t *testing.T, x *example, s sheet) []byte {
	return Strip(nil, StripData{About: s.About, Gauge: NewGauge(s.limit(t), unitNamed(t, s.Unit)), Reading: reading(t, s.Reading, s.Unit), Found: reading(t, s.Found, s.Unit), Verdict: verdict(t, s.Verdict)}, x.size)
}

func day(d time.Time) float64 { return Day(d.Year(), int(d.Month()), d.Day()) }

func drawHistory(t *testing.T, x *example, s sheet) []byte {
	data := HistoryData{About: s.About, Unit: unitNamed(t, s.Unit)}
	for _, l := range s.Limit {
		from := math.Inf(-1)
		if !l.From.IsZero() {
			from = day(l.From)
		}
		data.Limits = append(data.Limits, LimitFrom{from, l.limit(t)})
	}
	for _, f := range s.Fitted {
		data.Fitted = append(data.Fitted, Fitted{day(f.On), f.Part})
	}
	for _, r := range s.Read {
		data.Points = append(data.Points, HistoryPoint{At: day(r.On), Reading: reading(t, r.Found+r.Set, s.Unit), Found: r.Found != "", Stale: r.Stale, Verdict: verdict(t, r.Verdict)})
	}
	return History(nil, data, x.size)
}

func drawGains(t *testing.T, x *example, s sheet) []byte {
	data := GainData{Unit: unitNamed(t, s.Unit), Baseline: worked(t, s.Baseline), Now: worked(t, s.Now), Total: worked(t, s.Total), Reason: s.Reason}
	for _, stage := range s.Stage {
		data.Stages = append(data.Stages, GainStage{stage.Parts, worked(t, stage.Gain), stage.Reason})
	}
	return GainSteps(nil, data, x.size)
}

func drawCurves(t *testing.T, x *example, s sheet) []byte {
	data := CurvesData{Speed: unitNamed(t, s.Speed), Power: unitNamed(t, s.Power), Torque: unitNamed(t, s.Torque)}
	for _, one := range s.Session {
		session := Session{Label: one.Label, Role: map[string]Role{"baseline": Baseline, "current": Current}[one.Role], PeakPower: worked(t, one.PeakPower), PeakTorque: worked(t, one.PeakTorque)}
		session.Power, session.Torque = pointsOf(t, one.Mean, data.Speed, data.Power), pointsOf(t, one.MeanTorque, data.Speed, data.Torque)
		session.Lambda = pointsOf(t, one.MeanLambda, data.Speed, quantity.One())
		data.Sessions = append(data.Sessions, session)
	}
	for _, w := range s.Wanted {
		data.Wanted = append(data.Wanted, Wanted{data.Speed.SI(w.From), data.Speed.SI(w.To), w.Lambda, w.Tolerance})
	}
	return Curves(nil, data, x.size)
}

func drawGainCurves(t *testing.T, x *example, s sheet) []byte {
	data := GainCurvesData{Speed: unitNamed(t, s.Speed), Power: unitNamed(t, s.Power), Earlier: s.Earlier}
	for _, stage := range s.Stage {
		data.Stages = append(data.Stages, GainCurve{stage.Parts, stage.All, pointsOf(t, stage.Curve, data.Speed, data.Power), stage.Reason})
	}
	return GainCurves(nil, data, x.size)
}

// pointsOf reads a curve: on each line a speed, a figure, and perhaps half of its interval.
func pointsOf(t *testing.T, curve string, speed, unit *quantity.Unit) []CurvePoint {
	t.Helper()
	var points []CurvePoint
	for line := range strings.Lines(curve) {
		row := []float64{0, 0, 0}
		for i, word := range strings.Fields(line) {
			x, err := strconv.ParseFloat(word, 64)
			if err != nil {
				t.Fatal(err)
			}
			row[i] = x
		}
		points = append(points, CurvePoint{speed.SI(row[0]), unit.SI(row[1]), unit.StepSI(row[2], 1)})
	}
	return points
}

func drawCompression(t *testing.T, x *example, s sheet) []byte {
	data := CompressionData{Unit: unitNamed(t, s.Unit), Expected: s.limit(t), Lowest: reading(t, s.Lowest, s.Unit), Rule: s.Rule}
	for _, c := range s.Cylinder {
		data.Cylinders = append(data.Cylinders, Cylinder{c.Name, reading(t, c.Reading, s.Unit), verdict(t, c.Verdict), c.Reason})
	}
	return Compression(nil, data, x.size)
}

func drawGears(t *testing.T, x *example, s sheet) []byte {
	data := GearsData{Rotation: unitNamed(t, s.Speed), Speed: unitNamed(t, s.Road), Redline: reading(t, s.Redline, s.Speed)}
	for _, one := range s.Gear {
		data.Gears = append(data.Gears, Gear{one.Name, reading(t, one.AtRedline, s.Road), reading(t, one.Drop, s.Speed)})
	}
	return GearSpeeds(nil, data, x.size)
}

func (o sheetOpening) opening(t *testing.T, unit string) Opening {
	return Opening{Opens: reading(t, o.Opens, unit), Closes: reading(t, o.Closes, unit), Centre: reading(t, o.Centre, unit), Duration: reading(t, o.Duration, unit)}
}

// opening is what a page gives of a side in a state.
func (s sheet) opening(t *testing.T, of, state string) Opening {
	for _, o := range s.Opening {
		if o.Of == of && o.State == state {
			return o.opening(t, s.Unit)
		}
	}
	return Opening{}
}

func drawTiming(t *testing.T, x *example, s sheet) []byte {
	unit := unitNamed(t, s.Unit)
	if s.Cycle == "two-stroke" {
		ports := func(state string) Ports {
			return Ports{Exhaust: s.opening(t, "exhaust", state), Transfer: s.opening(t, "transfer", state), Intake: s.opening(t, "intake", state)}
		}
		data := PortData{Unit: unit, Now: ports("now"), Card: ports("card")}
		data.Now.Blowdown = reading(t, s.Blowdown, s.Unit)
		return PortTiming(nil, data, x.size)
	}
	valves := func(state, lift string) Valves {
		return Valves{Exhaust: s.opening(t, "exhaust", state), Intake: s.opening(t, "intake", state), Lift: lift}
	}
	data := ValveData{Unit: unit, Now: valves("now", s.Lift), Card: valves("card", s.CardLift)}
	data.Now.Overlap = reading(t, s.Overlap, s.Unit)
	return ValveTiming(nil, data, x.size)
}

func drawLifts(t *testing.T, x *example, s sheet) []byte {
	data := LiftData{Angle: unitNamed(t, "°"), Lift: unitNamed(t, s.Unit)}
	data.Before.Label = s.Before
	for _, o := range s.Opening {
		one := Lobe{Points: liftPoints(t, o.Points, data), Opening: o.opening(t, "°"), Peak: reading(t, o.Peak, s.Unit), At: reading(t, o.At, s.Unit)}
		state := &data.Now
		if o.State == "before" {
			state = &data.Before
		}
		if o.Of == "exhaust" {
			state.Exhaust = one
		} else {
			state.Intake = one
		}
	}
	return LiftCurves(nil, data, x.size)
}

// liftPoints reads a degree wheel's list: on each line a crank angle after the top dead centre of overlap, and a lift.
func liftPoints(t *testing.T, text string, data LiftData) []LiftPoint {
	t.Helper()
	var points []LiftPoint
	for line := range strings.Lines(text) {
		words := strings.Fields(line)
		angle, err := strconv.ParseFloat(words[0], 64)
		if err != nil {
			t.Fatal(err)
		}
		lift, err := strconv.ParseFloat(words[1], 64)
		if err != nil {
			t.Fatal(err)
		}
		points = append(points, LiftPoint{data.Angle.SI(angle), data.Lift.SI(lift)})
	}
	return points
}

var squareText = regexp.MustCompile(`^(not visited|too short|on target|lean|rich)( under load)?(?: ([0-9.]+))? of ([0-9.]+)(?: in (.+))?$|^not wanted$`)

// square reads a square of a page.
func square(t *testing.T, text string, tolerance float64) MixtureSquare {
	t.Helper()
	m := squareText.FindStringSubmatch(text)
	if m == nil {
		t.Fatalf("no square `%s`", text)
	}
	one := MixtureSquare{Load: m[2] != "", Seen: m[5], Tolerance: tolerance}
	for state := model.Unvisited; state <= model.Rich; state++ {
		if state.String() == m[1] {
			one.State = state
		}
	}
	one.Mean, _ = strconv.ParseFloat(m[3], 64)
	if one.Target, _ = strconv.ParseFloat(m[4], 64); m[1] == "" {
		one.Target = math.NaN()
	}
	return one
}

func drawSquares(t *testing.T, x *example, s sheet) []byte {
	data := MixtureData{Speed: s.Speeds, Unit: s.Unit}
	for _, row := range s.Row {
		data.Throttle = append(data.Throttle, row.Throttle)
		var squares []MixtureSquare
		for _, text := range row.Squares {
			squares = append(squares, square(t, text, 0.03))
		}
		data.Squares = append(data.Squares, squares)
	}
	return MixtureSquares(nil, data, x.size)
}

// drawCourse draws stretches that a page gives line by line: when each begins, its least and its greatest figure, which is left out where it is the same.
func drawCourse(t *testing.T, x *example, s sheet) []byte {
	data := CourseData{About: s.About, Unit: unitNamed(t, s.Unit), Time: unitNamed(t, s.Time), Limit: s.limit(t), Worst: reading(t, s.Reading, s.Unit), Verdict: verdict(t, s.Verdict)}
	clock := quantity.One()
	if data.Time != nil {
		clock = data.Time
	}
	data.End, data.WorstAt = clock.SI(s.End), clock.SI(s.At)
	for line := range strings.Lines(s.Stretches) {
		var figures []float64
		for _, word := range strings.Fields(line) {
			x, err := strconv.ParseFloat(word, 64)
			if err != nil {
				t.Fatal(err)
			}
			figures = append(figures, x)
		}
		data.Stretches = append(data.Stretches, calc.Stretch{Begin: clock.SI(figures[0]), Least: data.Unit.SI(figures[1]), Greatest: data.Unit.SI(figures[len(figures)-1])})
	}
	return Course(nil, data, x.size)
}
