package chart

import (
	"strings"
	"testing"

	"example.org/locknut/journal/quantity"
)

// Each of several sessions between the first and the last has a line of its own kind, and the line that leads to its name is of that kind too; a single one needs none.
func TestLinesBetweenAreToldApart(t *testing.T) {
	for n, want := range map[int]map[string]int{1: {"c-dashed": 0, "c-dotted": 0, "c-mixed": 0}, 3: {"c-dashed": 1, "c-dotted": 1, "c-mixed": 0}, 5: {"c-dashed": 1, "c-dotted": 1, "c-mixed": 1}} {
		data := CurvesData{Speed: quantity.UnitShown("rpm"), Power: quantity.UnitShown("kW")}
		for i := range n + 2 {
			one := Session{Label: string(rune('a' + i)), Power: []CurvePoint{{Speed: 500, Value: 1000 * float64(i+1)}, {Speed: 900, Value: 2000 * float64(i+1)}}}
			switch i {
			case 0:
				one.Role = Baseline
			case n + 1:
				one.Role = Current
			}
			data.Sessions = append(data.Sessions, one)
		}
		for _, size := range []Size{Wide, Narrow} {
			svg := string(Curves(nil, data, size))
			for class, times := range want {
				for _, line := range []string{"c-earlier c-run " + class + `"`, "c-leader " + class + `"`} {
					if got := strings.Count(svg, line); got != times {
						t.Errorf("%d between, %s: %d of %s, want %d", n, size.class(), got, line, times)
					}
				}
			}
		}
	}
}

// However many sessions hold lambda, and however fine the target, both sizes stay below 30 kB together.
func TestCurvesWithLambdaStaySmall(t *testing.T) {
	for _, sessions := range []int{2, 8, 16, 30} {
		data := CurvesData{Speed: quantity.UnitShown("rpm"), Power: quantity.UnitShown("kW"), Torque: quantity.UnitShown("N·m")}
		for i := range 32 {
			data.Wanted = append(data.Wanted, Wanted{From: 300 + 25*float64(i), To: 325 + 25*float64(i), Lambda: 0.87 + 0.001*float64(i%7), Tolerance: 0.03})
		}
		for i := range sessions {
			one := Session{Label: "2026-03-" + string(rune('0'+i/10)) + string(rune('0'+i%10)) + ", second that day"}
			for k := range 240 {
				speed := 300 + 3.3*float64(k)
				one.Power = append(one.Power, CurvePoint{speed, 12345 + 97*float64((k*7+i)%53), 321})
				one.Torque = append(one.Torque, CurvePoint{speed, 17.3 + 0.13*float64((k*5+i)%47), 0.31})
				one.Lambda = append(one.Lambda, CurvePoint{speed, 0.8 + 0.0031*float64((k*3+i)%41), 0})
			}
			data.Sessions = append(data.Sessions, one)
		}
		data.Sessions[0].Role, data.Sessions[sessions-1].Role = Baseline, Current
		wide, narrow := Curves(nil, data, Wide), Curves(nil, data, Narrow)
		t.Logf("%d sessions: %d and %d bytes", sessions, len(wide), len(narrow))
		if len(wide)+len(narrow) > 30_000 || len(wide) == 0 {
			t.Errorf("%d sessions: %d bytes in both sizes", sessions, len(wide)+len(narrow))
		}
	}
}
