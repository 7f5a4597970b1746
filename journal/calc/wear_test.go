package calc_test

import (
	"math"
	"testing"

	"example.org/locknut/journal/calc"
)

var wearFunctions = map[string]called{
	"GapForBore": {2, func(x []float64) (float64, error) { return calc.GapForBore(x[0], x[1]) }},
	"LoadLoss":   {2, func(x []float64) (float64, error) { return calc.LoadLoss(x[0], x[1]) }},
	"OutOfRound": {6, func(x []float64) (float64, error) { // of three depths in two directions
		d, err := calc.OutOfRound([][]float64{x[0:2], x[2:4], x[4:6]})
		return d.Size, err
	}},
	"SpringRate": {4, func(x []float64) (float64, error) { return calc.SpringRate(x[0], x[1], x[2], x[3]) }},
	"Taper": {6, func(x []float64) (float64, error) {
		d, err := calc.Taper([][]float64{x[0:2], x[2:4], x[4:6]})
		return d.Size, err
	}},
}

// Out-of-round is taken at one depth and taper along one direction: the two places that differ most in the whole grid share neither.
func TestTaperAndOutOfRoundTellTheirPlaces(t *testing.T) {
	none := math.NaN()
	grid := [][]float64{{53.011, 53.013}, {53.008, none}, {53.006, 53.007}}
	round, err := calc.OutOfRound(grid)
	if err != nil || round.Large != [2]int{0, 1} || round.Small != [2]int{0, 0} || math.Abs(round.Size-0.002) > 1e-9 {
		t.Errorf("out of round: %+v, %v", round, err)
	}
	taper, err := calc.Taper(grid)
	if err != nil || taper.Large != [2]int{0, 1} || taper.Small != [2]int{2, 1} || math.Abs(taper.Size-0.006) > 1e-9 {
		t.Errorf("taper: %+v, %v", taper, err)
	}
	ragged, err := calc.Taper([][]float64{{53.011}, {53.008, 53.002}, {53.006}})
	if err != nil || math.Abs(ragged.Size-0.005) > 1e-9 || ragged.Small != [2]int{2, 0} {
		t.Errorf("taper of a grid with short rows: %+v, %v", ragged, err)
	}
}

func TestWearThatCannotBe(t *testing.T) {
	none := math.NaN()
	grid := func(f func([][]float64) (calc.Difference, error), sizes ...[]float64) func() (float64, error) {
		return func() (float64, error) { d, err := f(sizes); return d.Size, err }
	}
	refused(t, map[string]func() (float64, error){
		"one direction a depth":   grid(calc.OutOfRound, []float64{53, none}, []float64{none, 53}),
		"nothing measured":        grid(calc.OutOfRound, []float64{none, none}),
		"no grid":                 grid(calc.OutOfRound),
		"a depth without sizes":   grid(calc.Taper, []float64{}, []float64{}),
		"one depth":               grid(calc.Taper, []float64{53, 53.1}),
		"one depth a direction":   grid(calc.Taper, []float64{53, none}, []float64{none, 53}),
		"a size of nought":        grid(calc.OutOfRound, []float64{53, 0}),
		"a size below zero":       grid(calc.Taper, []float64{53}, []float64{-53}),
		"two loads at one length": func() (float64, error) { return calc.SpringRate(100, 0.04, 200, 0.04) },
		"a spring that gives way": func() (float64, error) { return calc.SpringRate(200, 0.04, 100, 0.03) },
		"a spring of no length":   func() (float64, error) { return calc.SpringRate(100, 0.04, 200, 0) },
		"no load when new":        func() (float64, error) { return calc.LoadLoss(0, 100) },
		"no load":                 func() (float64, error) { return calc.LoadLoss(100, 0) },
		"a gap below zero":        func() (float64, error) { return calc.GapForBore(-0.0001, 0.053) },
		"no bore":                 func() (float64, error) { return calc.GapForBore(0.0002, 0) },
	})
}
