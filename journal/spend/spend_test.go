package spend

import (
	"testing"

	"example.org/locknut/journal/quantity"
)

// By hand: 3.5 h and 45 min are 4.25 h, or 255 min.
func TestHoursOfTwoUnits(t *testing.T) {
	time := func(value, step float64, unit string) Hours {
		return Hours{Time: quantity.Quantity{Kind: quantity.Figure, Unit: quantity.UnitShown(unit), Value: value, Step: step}}
	}
	long, short := time(3.5, 0.1, "h"), time(45, 1, "min")
	if got := Worked([]Hours{long, short}).Shown().String(); got != "4.25 h" {
		t.Errorf("%s, want 4.25 h", got)
	}
	if got := Worked([]Hours{short, long}).Shown().String(); got != "255 min" {
		t.Errorf("%s, want 255 min", got)
	}
}
