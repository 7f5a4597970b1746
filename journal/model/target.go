package model

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// Target is the mixture that the builder wants, by throttle and engine speed. Breakpoints rise.
type Target struct {
	Throttle []float64   // share of full throttle, a row each
	Speed    []float64   // rad/s, a column each
	Lambda   [][]float64 // by row, then column; NaN where nothing is wanted
	Cells    [][]parse.Cell

	Tolerance float64      // of lambda, either way
	SeenFor   float64      // s that a square must be seen to be judged
	SeenForAt source.Range // where that is written; nowhere where it isn't
}

// Names returns the breakpoints of a square as they are shown.
func (t *Target) Names(row, column int) (throttle, speed quantity.Shown) {
	return showPoint(t.Throttle[row], "%", 0.01), showPoint(t.Speed[column], "rpm", math.Pi/30)
}

// showPoint shows a breakpoint: whole, or a digit finer where it is not.
func showPoint(si float64, unit string, step float64) quantity.Shown {
	if x := si / step; math.Abs(x-math.Round(x)) > 1e-6 {
		step /= 10
	}
	return quantity.Show(si, parse.UnitSpelled(unit), step)
}

// leastThrottle is what the greatest opening of a target must be more than: common practice, no source.
const leastThrottle = 0.02

// What is taken where the journal doesn't say it: common practice, no source.
const (
	usualTolerance = 0.03 // of lambda
	UsualSeenFor   = 0.5  // s that a square must be seen
)

// fuelling takes in what the fuelling is held to.
func (l *linker) fuelling() {
	fields := l.sources.Build.Fields.Table("fuelling")
	l.journal.Fuel = fuelOf(fields.Text("fuel").Text)
	l.journal.FuelUnread = l.sources.Build.Fields == nil || l.sources.Build.Fields.IsBad("fuelling") || fields.IsBad("fuel")
	if name := fields.Text("fuel"); !name.IsZero() && l.journal.Fuel == nil && fields.Get("ratio") == nil {
		l.report("unknown-fuel", source.Warning, name.At, "fuel", fmt.Sprintf("`%s` is no fuel whose air-fuel ratio is known here", name.Text),
			"write petrol, E10 or another share of ethanol by volume, ethanol or methanol; for another fuel give its `ratio` too")
	}
	f := fields.Get("target")
	if f == nil || f.Grid == nil || fields.IsBad("target", "tolerance", "seen-for") {
		l.journal.TargetUnread = fields.IsBad("target", "tolerance", "seen-for") || l.journal.FuelUnread
		return
	}
	t := &Target{Tolerance: usualTolerance, SeenFor: UsualSeenFor}
	if q, ok := singleFigure(fields, "tolerance"); ok {
		t.Tolerance = q.SI()
	}
	if q, ok := singleFigure(fields, "seen-for"); ok {
		t.SeenFor, t.SeenForAt = q.SI(), fields.Value("seen-for").At
	}
	if !l.breakpoints(t, f.Grid) || !l.targets(t, f.Grid, fields) {
		l.journal.TargetUnread = true
		return
	}
	l.journal.Target = t
}

// singleFigure returns the figure of a key; it is not ok where there is none, or one that is an interval.
func singleFigure(fields *parse.Fields, key string) (quantity.Quantity, bool) {
	v := fields.Value(key)
	if v == nil {
		return quantity.Quantity{}, false
	}
	q, slip := v.Resolve(fields.Get(key).Key.Want())
	return q, slip == nil && q.Kind == quantity.Figure
}

// breakpoints reads the heads of the target grid, which must rise.
func (l *linker) breakpoints(t *Target, g *parse.Grid) bool {
	read := func(heads []parse.Cell, of string, factor, least, most float64) ([]float64, bool) {
		var points []float64
		for i, head := range heads {
			x, _ := strconv.ParseFloat(head.Text, 64)
			x *= factor
			switch {
			case x < 0 || x > most:
				l.report("bad-grid", source.Error, head.At, "target", fmt.Sprintf("`%s` can't be %s", head.Text, of), "rows are throttle in percent, columns engine speed in rpm")
				return nil, false
			case i > 0 && x <= points[i-1]:
				l.report("bad-grid", source.Error, head.At, "target", fmt.Sprintf("`%s` is no more than the head before it", head.Text), "write rows and columns in rising order: throttle downwards, engine speed to the right",
					source.Remark{At: heads[i-1].At, Message: "the one before"})
				return nil, false
			}
			points = append(points, x)
		}
		if last := points[len(points)-1]; last < least {
			l.report("bad-grid", source.Error, heads[len(heads)-1].At, "target", fmt.Sprintf("the greatest of these heads is `%s`: no engine is held to its mixture so far down alone", heads[len(heads)-1].Text), "rows are throttle in percent, not shares of one; columns engine speed in rpm, not thousands")
			return nil, false
		}
		return points, true
	}
	var rows, columns bool
	t.Throttle, rows = read(g.Rows, "a throttle opening in percent", 0.01, leastThrottle, 1)
	t.Speed, columns = read(g.Columns, "an engine speed in rpm", math.Pi/30, slowest, fastest)
	return rows && columns
}

// Lambda that an engine can be asked to run at. Petrol burns from about 0.6 to about 1.6: from memory.
var wantable = quantity.Span{Low: 0.6, High: 1.5}

// targets reads the cells of the target grid as lambda.
func (l *linker) targets(t *Target, g *parse.Grid, fields *parse.Fields) bool {
	ratio := 1.0
	if strings.EqualFold(g.Corner.Text, "AFR") {
		one, why := l.lambdaOne(fields)
		if why != "" {
			l.report("ratio-unknown", source.Warning, g.Corner.At, "target", "the target is in air-fuel ratios, and "+why, "add `ratio` to `[fuelling]`: the ratio that stands for lambda 1; or write the target as lambda")
			return false
		}
		ratio = one
	}
	t.Cells = g.Cells
	for _, row := range g.Cells {
		var lambdas []float64
		for _, cell := range row {
			x, err := strconv.ParseFloat(cell.Text, 64)
			if err != nil { // `-`
				lambdas = append(lambdas, math.NaN())
				continue
			}
			x /= ratio
			if !wantable.Holds(x) {
				l.report("bad-grid", source.Error, cell.At, "target", fmt.Sprintf("`%s` would be lambda %s, at which no engine is run", cell.Text, ShowLambda(x)), "see whether the corner says what the cells are: `lambda` or `AFR`")
				return false
			}
			lambdas = append(lambdas, x)
		}
		t.Lambda = append(t.Lambda, lambdas)
	}
	return true
}

// ShowLambda shows a lambda as fine as targets are written, or a digit finer where that would round it.
func ShowLambda(x float64) string {
	step := 0.01
	if math.Abs(x/step-math.Round(x/step)) > 1e-6 {
		step = 0.001
	}
	return quantity.Show(x, quantity.One(), step).Number
}

// ShowMean shows a mean of lambdas: a digit finer than meters do, so that it doesn't look as if it were inside its tolerance.
func ShowMean(x float64) string { return quantity.Show(x, quantity.One(), 0.001).Number }

// lambdaOne returns the air-fuel ratio that stands for lambda 1: the one that the first of some tables gives that has one, else that of the fuel.
func (l *linker) lambdaOne(tables ...*parse.Fields) (ratio float64, why string) {
	for _, fields := range tables {
		if fields.IsBad("ratio") {
			return 0, "the ratio that stands for lambda 1 can't be read"
		}
		if fields.Value("ratio") == nil {
			continue
		}
		q, ok := singleFigure(fields, "ratio")
		if !ok {
			return 0, "the ratio that stands for lambda 1 is no single figure"
		}
		return q.SI(), ""
	}
	switch {
	case l.journal.Fuel != nil:
		return l.journal.Fuel.Stoichiometric, ""
	case l.journal.FuelUnread:
		return 0, "the fuel can't be read"
	}
	return 0, "nothing says which of them is lambda 1 with this fuel"
}

// fuelOf returns the fuel of a name, nil for one that is not known.
func fuelOf(name string) *calc.Fuel {
	folded := parse.Fold(name)
	share := -1.0
	switch folded {
	case "petrol", "gasoline":
		share = 0
	case "ethanol":
		share = 1
	case "methanol":
		return &calc.Methanol
	}
	if percent, ok := strings.CutPrefix(folded, "e"); ok && len(percent) <= 3 {
		if n, err := strconv.ParseUint(percent, 10, 8); err == nil {
			share = float64(n) / 100
		}
	}
	fuel, err := calc.Blend(share)
	if err != nil {
		return nil
	}
	return &fuel
}
