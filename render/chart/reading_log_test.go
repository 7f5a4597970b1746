package chart

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// What is read off the drawings of logs. Places of squares are read by the heads that the drawing itself shows, figures of a course by its own ticks.

// wordsOf returns the words of a drawing with their places. A text of several places has one for each of its letters; a tspan stands at the height of the text that it is in.
func wordsOf(t *testing.T, svg []byte) []word {
	t.Helper()
	number := func(text string) float64 {
		x, err := strconv.ParseFloat(text, 64)
		if err != nil {
			t.Fatalf("a word stands at %q", text)
		}
		return x
	}
	var list []word
	height := 0.0
	for _, e := range read(t, svg) {
		places := strings.Fields(e.attrs["x"])
		switch {
		case e.name == "text":
			height = number(e.attrs["y"])
		case e.name != "tspan":
			continue
		}
		letters := []string{e.text}
		if len(places) > 1 {
			letters = strings.Split(e.text, "")
		}
		if len(letters) != len(places) && e.text != "" {
			t.Fatalf("`%s` has the places %q", e.text, places)
		}
		for i, x := range places {
			list = append(list, word{number(x), height, letters[i]})
		}
	}
	return list
}

// map16 is a map of sixteen rows and columns in which every square is of a state.
func map16(state func(row, column int) model.SquareState) MixtureData { return mapOf(16, state) }

// mapOf is a map of so many rows and columns.
func mapOf(size int, state func(row, column int) model.SquareState) MixtureData {
	data := MixtureData{Unit: "rpm"}
	for i := range size {
		data.Throttle = append(data.Throttle, strconv.Itoa((i+1)*100/size)+"%")
		data.Speed = append(data.Speed, strconv.Itoa(1000+700*i*16/size))
		var squares []MixtureSquare
		for k := range size {
			one := MixtureSquare{Mean: 0.8 + float64(i)/1000 + float64(k)/100, Target: 0.875, Tolerance: 0.03, State: state(i, k), Seen: "12.8\u202fs", Load: (i+k)%3 > 0}
			if one.State == model.Unvisited {
				one.Mean, one.Seen = 0, ""
			}
			squares = append(squares, one)
		}
		data.Squares = append(data.Squares, squares)
	}
	return data
}

// A map of sixteen by sixteen, and a larger one, stays below 30 kB in a page, which holds both sizes, whatever was found in it.
func TestALargeMapStaysSmall(t *testing.T) {
	for name, state := range map[string]func(row, column int) model.SquareState{
		"all lean":  func(_, _ int) model.SquareState { return model.Lean },
		"all rich":  func(_, _ int) model.SquareState { return model.Rich },
		"all short": func(_, _ int) model.SquareState { return model.Glimpsed },
		"all well":  func(_, _ int) model.SquareState { return model.OnTarget },
		"chequered": func(row, column int) model.SquareState { return model.Lean + model.SquareState((row+column)%2) },
		// of all patterns of up to three squares in turn the one that takes most: each a heavy edge or a sign, in two looks
		"edge, R, S": func(row, column int) model.SquareState {
			return []model.SquareState{model.Glimpsed, model.Lean, model.Rich}[(row+column)%3]
		},
		"a bit of it": func(row, column int) model.SquareState { return model.SquareState((row*3 + column*5) % 5) },
	} {
		for _, size := range []int{16, 17, 24} {
			wide, narrow := MixtureSquares(nil, mapOf(size, state), Wide), MixtureSquares(nil, mapOf(size, state), Narrow)
			read(t, wide)
			read(t, narrow)
			t.Logf("%s, %d by %d: %d and %d bytes, %d in all", name, size, size, len(wide), len(narrow), len(wide)+len(narrow))
			if len(wide)+len(narrow) > 30_000 {
				t.Errorf("%s, %d by %d: %d bytes in both sizes", name, size, size, len(wide)+len(narrow))
			}
		}
	}
}

// Every square of a map stands above the head of its column and level with that of its row, once, in whichever block; full throttle is on top. A mean tells the column, and then the row.
func TestSquaresStandAtTheirHeads(t *testing.T) {
	for _, c := range []struct {
		rows, columns, wide, narrow int // and blocks
	}{{1, 1, 1, 1}, {3, 4, 1, 1}, {2, 7, 1, 1}, {2, 8, 1, 2}, {16, 16, 1, 2}, {5, 20, 2, 3}, {6, 20, 2, 3}, {8, 32, 2, 4}} {
		for _, size := range []Size{Wide, Narrow} {
			for _, isRow := range []bool{false, true} {
				data := MixtureData{Unit: "rpm"}
				for i := range c.rows {
					data.Throttle, data.Squares = append(data.Throttle, fmt.Sprintf("%d%%", 100-c.rows+i+1)), append(data.Squares, nil)
					for k := range c.columns {
						mean := map[bool]int{true: i, false: k}[isRow]
						data.Squares[i] = append(data.Squares[i], MixtureSquare{Mean: 1 + float64(mean)/100, State: model.OnTarget, Target: math.NaN()})
					}
				}
				for k := range c.columns {
					data.Speed = append(data.Speed, strconv.Itoa(4000+100*k))
				}
				name := fmt.Sprintf("%d by %d, %s", c.rows, c.columns, size.class())
				words := wordsOf(t, MixtureSquares(nil, data, size))
				blocks, figures := 0, map[int]int{}
				for _, w := range words {
					mean, err := strconv.ParseFloat(w.text, 64)
					if w.text == "throttle" {
						blocks++
					}
					if err != nil || mean > 100 {
						continue
					}
					at := int(math.Round(mean*100)) - 100
					figures[at]++
					stands := func(v word) bool {
						if isRow {
							return v.y == w.y && v.x < 60 && v.text == data.Throttle[at]
						}
						return v.y > w.y && math.Abs(v.x-w.x) < 0.1 && v.text == data.Speed[at]
					}
					if !slices.ContainsFunc(words, stands) {
						t.Errorf("%s: a figure of %d stands at %v, %v", name, at, w.x, w.y)
					}
				}
				for at, n := range figures {
					if want := map[bool]int{true: c.columns, false: c.rows}[isRow]; n != want {
						t.Errorf("%s: %d figures of %d, want %d", name, n, at, want)
					}
				}
				top, foot := data.Throttle[c.rows-1], data.Throttle[0]
				isUpright := slices.IndexFunc(words, func(w word) bool { return w.text == top }) >= 0
				for _, a := range words {
					for _, b := range words {
						isUpright = isUpright && !(a.text == top && b.text == foot && blocks == 1 && a.y > b.y)
					}
				}
				if want := map[Size]int{Wide: c.wide, Narrow: c.narrow}[size]; blocks != want || !isUpright || len(figures) != map[bool]int{true: c.rows, false: c.columns}[isRow] {
					t.Errorf("%s: %d blocks, want %d; full throttle on top: %v; figures of %d", name, blocks, want, isUpright, len(figures))
				}
			}
		}
	}
}

// No words of one height meet, and none leaves the drawing, by the measure that all charts set words by.
func TestWordsOfSquaresKeepApart(t *testing.T) {
	for columns := 1; columns <= 20; columns++ {
		data := map16(func(row, column int) model.SquareState { return model.SquareState((row + column) % 5) })
		for i := range data.Squares {
			data.Squares[i] = slices.Concat(data.Squares[i], data.Squares[i])[:columns]
		}
		data.Speed = slices.Concat(data.Speed, data.Speed)[:columns]
		for _, size := range []Size{Wide, Narrow} {
			width := map[Size]float64{Wide: 640, Narrow: 320}[size]
			lines := map[float64][]word{}
			for _, w := range wordsOf(t, MixtureSquares(nil, data, size)) {
				if w.x > 60 {
					lines[w.y] = append(lines[w.y], w)
				}
			}
			for _, line := range lines {
				slices.SortFunc(line, func(a, b word) int { return int(math.Copysign(1, a.x-b.x)) })
				to := 0.0
				for _, w := range line {
					half := widthOf(w.text) / 2
					if w.x-half < to-0.1 || w.x+half > width+0.1 {
						t.Errorf("%d columns, %s: `%s` from %.1f to %.1f meets what ends at %.1f, or leaves the drawing", columns, size.class(), w.text, w.x-half, w.x+half, to)
					}
					to = w.x + half
				}
			}
		}
	}
}

// Squares differ with all colour taken away: in what is drawn around them, and in their words.
func TestStatesOfSquaresDiffer(t *testing.T) {
	looks := map[string]string{}
	for name, one := range map[string]MixtureSquare{
		"lean under load": {State: model.Lean, Load: true}, "lean": {State: model.Lean}, "rich": {State: model.Rich}, "on target": {State: model.OnTarget}, "too short": {State: model.Glimpsed}, "not visited": {},
	} {
		one.Mean, one.Target, one.Tolerance = 0.921, 0.89, 0.03
		data := MixtureData{[]string{"50%", "100%"}, []string{"8000"}, "rpm", [][]MixtureSquare{{{Mean: 1, Target: 1, State: model.OnTarget}}, {one}}}
		look := ""
		for _, e := range read(t, MixtureSquares(nil, data, Wide)) {
			if strings.HasPrefix(e.class, "c-lean") || e.class == "c-rich" {
				look += e.class + e.attrs["d"]
			}
		}
		if slices.Contains([]string{"lean under load", "lean", "rich"}, name) != (look != "") {
			t.Errorf("%s: the mark is %q", name, look)
		}
		for _, w := range wordsOf(t, MixtureSquares(nil, data, Wide)) {
			if w.text == "short" || w.text == "lean" || w.text == "rich" || w.text == "0.921" || w.text == "–" {
				look += " " + w.text
			}
		}
		if other, twice := looks[look]; twice {
			t.Errorf("%s and %s look alike: %s", name, other, look)
		}
		looks[look] = name
	}
}

func TestTitlesOfSquares(t *testing.T) {
	well := func(mean, target float64) MixtureSquare {
		return MixtureSquare{Mean: mean, Target: target, Tolerance: 0.03, State: model.OnTarget}
	}
	off := func(mean, target float64, state model.SquareState, load bool) MixtureSquare {
		return MixtureSquare{Mean: mean, Target: target, Tolerance: 0.03, State: state, Load: load}
	}
	none := MixtureSquare{Target: 0.9}
	for _, c := range []struct {
		squares [][]MixtureSquare
		want    string
	}{
		{[][]MixtureSquare{{off(0.8, 0.95, model.Rich, false), off(1.2, 1, model.Lean, false)}, {off(0.91, 0.87, model.Lean, true), off(0.922, 0.87, model.Lean, true)}},
			"lean under load at 100% and 8000 rpm: 0.922 where 0.87 is wanted; lean in 3 squares, rich in 1"},
		{[][]MixtureSquare{{off(1.2, 1, model.Lean, false), none}, {well(0.9, 0.9), none}}, "lean at 50% and 6000 rpm: 1.200 where 1.00 is wanted"},
		{[][]MixtureSquare{{off(0.9, 1, model.Rich, false), off(0.8, 0.95, model.Rich, false)}}, "rich at 50% and 8000 rpm: 0.800 where 0.95 is wanted; rich in 2 squares"},
		{[][]MixtureSquare{{off(1.1, math.NaN(), model.Lean, false)}}, "lean at 50% and 6000 rpm: 1.100"},
		{[][]MixtureSquare{{well(1, 1), well(1, 1)}, {well(0.9, 0.9), well(0.9, 0.9)}}, "on target in all 4 squares"},
		{[][]MixtureSquare{{well(1, 1), none}, {well(0.9, 0.9), none}}, "on target in all 2 squares that were seen; 2 not visited"},
		{[][]MixtureSquare{{well(1, 1), off(1, 1, model.Glimpsed, false)}, {well(0.9, 0.9), none}}, "on target in all 2 squares that were seen for long enough; 1 seen too shortly, 1 not visited"},
		{[][]MixtureSquare{{off(1, 1, model.Glimpsed, false), none}}, "no square seen for long enough; 1 seen too shortly, 1 not visited"},
		{[][]MixtureSquare{{well(1, 1)}}, "on target in its 1 square"},
		{[][]MixtureSquare{{well(1, 1), {Target: math.NaN()}}, {well(0.9, 0.9), none}}, "on target in all 2 squares that were seen; 1 not visited"}, // nothing is wanted of the fourth
		{[][]MixtureSquare{{well(1, 1), none}}, "on target in the 1 square that was seen; 1 not visited"},
	} {
		all := read(t, MixtureSquares(nil, MixtureData{[]string{"50%", "100%"}, []string{"6000", "8000"}, "rpm", c.squares}, Narrow))
		if all[1].text != c.want {
			t.Errorf("got  %s\nwant %s", all[1].text, c.want)
		}
	}
}

// A head that is written from right to left, or is long, is told whole to those who don't see the drawing.
func TestHeadsOfSquaresAreToldWhole(t *testing.T) {
	for _, head := range []string{"סיבובים", "قليل", strings.Repeat("long ", 30) + "end"} {
		svg := MixtureSquares(nil, MixtureData{[]string{head}, []string{head}, head, [][]MixtureSquare{{{Mean: 0.95, Target: 0.9, Tolerance: 0.03, State: model.Lean}}}}, Narrow)
		all := read(t, svg)
		if all[0].name != "svg" || !strings.Contains(all[2].text, head+": lean at "+head+" "+head) {
			t.Errorf("%q is told as %q", head, all[2].text)
		}
		for _, w := range wordsOf(t, svg) {
			if widthOf(w.text) > 320 {
				t.Errorf("%q is wider than the drawing", w.text)
			}
		}
	}
}

// longCourse is a course of as many stretches as a trace has at most, with one peak of a single stretch and one trough.
func longCourse(seed uint64) (data CourseData, peak, trough int) {
	r := rand.New(rand.NewPCG(seed, 9))
	peak, trough = 1+r.IntN(calc.MostStretches-2), 1+r.IntN(calc.MostStretches-2)
	for trough == peak {
		trough = 1 + r.IntN(calc.MostStretches-2)
	}
	data = CourseData{About: "oil.pressure", Unit: quantity.UnitShown("kPa"), Time: quantity.UnitShown("s"), End: calc.MostStretches * 0.7, Verdict: model.Out}
	for i := range calc.MostStretches {
		s := calc.Stretch{Begin: float64(i) * 0.7, Least: 350e3 + 9e3*r.Float64(), Greatest: 360e3 + 40e3*r.Float64()}
		switch i {
		case peak:
			s.Greatest = 612e3
		case trough:
			s.Least = 141e3
		}
		data.Stretches = append(data.Stretches, s)
	}
	data.Worst, data.WorstAt = figureReading(141e3), float64(trough)*0.7+0.3
	return data, peak, trough
}

// Of a long course the peak and the trough are drawn at their heights and where their stretches begin; their places are read by the ticks.
func TestACourseKeepsItsPeaks(t *testing.T) {
	for seed := range uint64(20) {
		data, peak, trough := longCourse(seed)
		for _, size := range []Size{Wide, Narrow} {
			svg := Course(nil, data, size)
			if len(svg) > 30_000 {
				t.Errorf("%d bytes", len(svg))
			}
			all := read(t, svg)
			time, pressure := courseAxes(t, all)
			shape := of(all, "c-envelope")
			if len(shape) != 1 {
				t.Fatalf("%d shapes", len(shape))
			}
			high, low := extremesOf(shape[0])
			for _, c := range []struct {
				name      string
				at        [2]float64
				time, kPa float64
			}{{"peak", high, float64(peak) * 0.7, 612}, {"trough", low, float64(trough) * 0.7, 141}} {
				if x, y := time(c.at[0]), pressure(c.at[1]); math.Abs(x-c.time) > 0.3 || math.Abs(y-c.kPa) > 0.5 {
					t.Errorf("%s, %d: the %s stands at %.2f s and %.1f kPa, want %.2f and %v", size.class(), seed, c.name, x, y, c.time, c.kPa)
				}
			}
			dots := of(all, "c-out")
			if len(dots) != 2 || math.Abs(time(dots[0].numbers[0])-data.WorstAt) > 0.3 || math.Abs(pressure(dots[0].numbers[1])-141) > 0.5 {
				t.Errorf("%s, %d: the worst is drawn as %v", size.class(), seed, dots)
			}
		}
	}
}

// courseAxes reads the two axes of a course by their ticks and the labels at them.
func courseAxes(t *testing.T, all []element) (along, up func(px float64) float64) {
	t.Helper()
	var xs, ys [][2]float64 // px and figure
	for _, e := range of(all, "c-figure") {
		v, err := strconv.ParseFloat(strings.ReplaceAll(e.text, "\u202f", ""), 64)
		if err != nil {
			t.Fatal(err)
		}
		x, _ := strconv.ParseFloat(e.attrs["x"], 64)
		y, _ := strconv.ParseFloat(e.attrs["y"], 64)
		if e.attrs["text-anchor"] == "middle" {
			xs = append(xs, [2]float64{x, v})
		} else {
			ys = append(ys, [2]float64{y - 4.5, v})
		}
	}
	if len(xs) < 2 || len(ys) < 2 {
		t.Fatalf("%d and %d ticks", len(xs), len(ys))
	}
	reader := func(ticks [][2]float64) func(float64) float64 {
		a, b := ticks[0], ticks[len(ticks)-1]
		return func(px float64) float64 { return a[1] + (px-a[0])/(b[0]-a[0])*(b[1]-a[1]) }
	}
	return reader(xs), reader(ys)
}

// extremesOf returns the highest and the lowest point of a path.
func extremesOf(e element) (high, low [2]float64) {
	high, low = [2]float64{0, math.Inf(1)}, [2]float64{0, math.Inf(-1)}
	for _, m := range pathStep.FindAllStringSubmatch(e.attrs["d"], -1) {
		n := svgNumber.FindAllString(m[2], -1)
		if len(n) != 2 {
			continue
		}
		x, _ := strconv.ParseFloat(n[0], 64)
		y, _ := strconv.ParseFloat(n[1], 64)
		if y < high[1] {
			high = [2]float64{x, y}
		}
		if y > low[1] {
			low = [2]float64{x, y}
		}
	}
	return high, low
}

// A course of single figures goes and comes on one line; the last lasts until the log ends.
func TestACourseOfSingleFiguresIsALine(t *testing.T) {
	data := CourseData{Unit: quantity.UnitShown("kPa"), Stretches: []calc.Stretch{{Begin: 0, Least: 1e5, Greatest: 1e5}, {Begin: 2, Least: 3e5, Greatest: 3e5}, {Begin: 3, Least: 2e5, Greatest: 2e5}}, End: 4}
	all := read(t, Course(nil, data, Narrow))
	xs := along(of(all, "c-envelope")[0])
	back := slices.Clone(xs)
	slices.Reverse(back)
	if want := []float64{46, 160, 217, 274, 217, 160, 46}; !slices.Equal(xs[:3], want[:3]) || xs[3] != 274 || !slices.Equal(back[:3], want[:3]) {
		t.Errorf("the shape goes over %v, want %v", xs, want)
	}
	if got, want := all[1].text, "100 to 300\u202fkPa"; got != want {
		t.Errorf("the title is %q, want %q", got, want)
	}
}

// Stretches that begin at one time, as in a log that tells whole seconds, are one: none of their figures is averaged away.
func TestStretchesOfOneTimeKeepTheirPeak(t *testing.T) {
	kPa := quantity.UnitShown("kPa")
	data := CourseData{About: "oil.pressure", Unit: kPa, Time: quantity.UnitShown("s"), End: 3, Worst: figureReading(9e5), WorstAt: 1, Verdict: model.Worn,
		Stretches: []calc.Stretch{{Begin: 1, Least: 4e5, Greatest: 4e5}, {Begin: 0, Least: 1e5, Greatest: 2e5}, {Begin: 1, Least: 9e5, Greatest: 9e5}, {Begin: 2, Least: 2e5, Greatest: 3e5}}}
	all := read(t, Course(nil, data, Wide))
	_, up := courseAxes(t, all)
	high, low := extremesOf(of(all, "c-envelope")[0])
	if math.Abs(up(high[1])-900) > 2 || math.Abs(up(low[1])-100) > 2 {
		t.Errorf("the shape goes from %.0f to %.0f kPa, want 100 to 900", up(low[1]), up(high[1]))
	}
	if got, want := all[1].text, "oil.pressure: 900\u202fkPa at 1.00\u202fs, worn"; got != want {
		t.Errorf("the title is %q, want %q", got, want)
	}
	const told = "100 to 200\u202fkPa until 1.00\u202fs; 400 to 900\u202fkPa until 2.00\u202fs; 200 to 300\u202fkPa until 3.00\u202fs"
	if all[2].text != told {
		t.Errorf("the drawing tells %q, want %q", all[2].text, told)
	}
}

// A log that counts rows has ticks at whole rows only, as its words have: nobody logs a tenth of one.
func TestACourseOfRowsCountsWholeRows(t *testing.T) {
	one := func(rows int) CourseData {
		data := CourseData{About: "oil.temp", Unit: quantity.UnitShown("°C"), End: float64(rows), Worst: figureReading(353.15), WorstAt: 1}
		for i := range rows {
			data.Stretches = append(data.Stretches, calc.Stretch{Begin: float64(i), Least: 353.15, Greatest: 353.15})
		}
		return data
	}
	for rows, want := range map[int]string{1: "80\u202f°C until 1 row", 2: "80\u202f°C until 2 rows", 3: "80\u202f°C until 3 rows", 14: "80\u202f°C until 14 rows"} {
		for _, size := range []Size{Wide, Narrow} {
			all := read(t, Course(nil, one(rows), size))
			if all[2].text != want {
				t.Errorf("%d rows, %s: told as %q, want %q", rows, size.class(), all[2].text, want)
			}
			ticks := 0
			for _, e := range of(all, "c-figure") {
				if e.attrs["text-anchor"] != "middle" {
					continue
				}
				ticks++
				if _, err := strconv.Atoi(e.text); err != nil {
					t.Errorf("%d rows, %s: a tick at %q rows", rows, size.class(), e.text)
				}
			}
			if ticks < 2 {
				t.Errorf("%d rows, %s: %d ticks", rows, size.class(), ticks)
			}
		}
	}
	if got, want := read(t, Course(nil, one(3), Wide))[1].text, "oil.temp: 80\u202f°C after 1 row"; got != want {
		t.Errorf("the title is %q, want %q", got, want)
	}
}
