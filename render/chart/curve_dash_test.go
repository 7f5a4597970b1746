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
