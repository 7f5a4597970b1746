package parse

import (
	"strings"
	"testing"
)

// Where readings and numbers share the beginning of a path, the table of paths decides, as far as it says anything.
func TestWhatALimitIsFor(t *testing.T) {
	for path, want := range map[string]string{
		"lash.intake": "length", "port.exhaust.duration": "angle", "port.exhaust.height": "length", "port.exhaust": "angle", "chain.elongation": "pure number", "chain.slack": "",
		"taper": "length", "margin": "length", "engine.squish": "length", "engine.rod-ratio": "pure number", "preload.head-bolt": "force", "drive.speed": "speed", "spread": "pure number",
		"friction.plate": "", "timing.marks": "words", "engine.bore": "length",
	} {
		got := ""
		if p := FindHeld(path); p != nil {
			for _, d := range p.Dimensions {
				got += " " + d.String()
			}
			if p.Words {
				got = " words"
			}
		}
		if got = strings.TrimSpace(got); got != want {
			t.Errorf("a limit at %s is for %q, want %q", path, got, want)
		}
	}
	if p := FindHeld("engine.compression-ratio"); !p.Ratio {
		t.Error("a compression ratio is not written as one")
	}
}

func TestWorkedOutPaths(t *testing.T) {
	for path, want := range map[string]string{
		"taper.left": "bore.left", "ring-share.left.top": "gap.ring.left.top", "load-loss.intake.seat.load": "spring.intake.seat.load", "chain.elongation": "chain.length",
		"margin.coil-bind.intake": "", "engine.displacement": "",
	} {
		if row := FindWorked(path); row == nil || row.SourceOf(path) != want {
			t.Errorf("%s is worked out from %v, want %s", path, row, want)
		}
	}
	for _, path := range []string{"port.exhaust", "taper", "lash.intake", "clearance.piston", "engine.bore", ""} {
		if IsWorked(path) {
			t.Errorf("%s is no number's", path)
		}
	}
	for path, free := range map[string]bool{"chain.slack": true, "chain": false, "bore.left": false, "bore.left.top": true, "torque.nut": false} {
		if FindPattern(path).IsFree(path) != free {
			t.Errorf("%s: free %t", path, !free)
		}
	}
}
