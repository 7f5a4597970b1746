package calc_test

import (
	"testing"

	"example.org/locknut/journal/calc"
)

var driveFunctions = map[string]called{
	"ChainElongation":      {3, func(x []float64) (float64, error) { return calc.ChainElongation(x[0], x[1], x[2]) }},
	"EngineSpeed":          {3, func(x []float64) (float64, error) { return calc.EngineSpeed(x[0], x[1], x[2]) }},
	"OverallRatio":         {3, func(x []float64) (float64, error) { return calc.OverallRatio(x[0], x[1], x[2]) }},
	"RevDrop":              {3, func(x []float64) (float64, error) { return calc.RevDrop(x[0], x[1], x[2]) }},
	"RoadSpeed":            {3, func(x []float64) (float64, error) { return calc.RoadSpeed(x[0], x[1], x[2]) }},
	"RollingCircumference": {3, func(x []float64) (float64, error) { return calc.RollingCircumference(x[0], x[1], x[2]) }},
}

func TestDrivesThatCannotBe(t *testing.T) {
	refused(t, map[string]func() (float64, error){
		"a ratio of nought":          func() (float64, error) { return calc.OverallRatio(0, 1, 1) },
		"a ratio below zero":         func() (float64, error) { return calc.RoadSpeed(100, -2, 2) },
		"no circumference":           func() (float64, error) { return calc.EngineSpeed(10, 5, 0) },
		"a gear that is none":        func() (float64, error) { return calc.RevDrop(100, 2, 0) },
		"a rim of nought":            func() (float64, error) { return calc.RollingCircumference(0, 0.13, 0.8) },
		"a chain over no links":      func() (float64, error) { return calc.ChainElongation(0.5, 0, 0.0127) },
		"a pitch below zero":         func() (float64, error) { return calc.ChainElongation(0.5, 40, -0.0127) },
		"more than a float can hold": func() (float64, error) { return calc.OverallRatio(1e300, 1e300, 1) },
		"less than a float can hold": func() (float64, error) { return calc.OverallRatio(1e-300, 1e-300, 1) },
	})
}
