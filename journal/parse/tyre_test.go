package parse

import (
	"math"
	"strings"
	"testing"
)

// The forms of the codes are from memory but for `P205/60R16` and `225/70Rx19.5G`, which stand in the documentation of a US national laboratory's vehicle
// library, read in the source: radius 0.3262 and 0.40515 m. The diameters are worked out by hand.
func TestTyreCodesAreRead(t *testing.T) {
	for _, c := range []struct {
		code     string
		diameter float64 // mm
		assumed  bool
	}{
		{"P205/60R16", 652.4, false}, {"225/70Rx19.5G", 810.3, false}, {"130/80-17", 639.8, false}, {"130/80 - 17", 639.8, false}, {"130/80 R17", 639.8, false}, {"130/80R17", 639.8, false},
		{"130/80 r 17", 639.8, false}, {"130/80-17 65H", 639.8, false}, {"130/80-17 M/C 65H TL", 639.8, false}, {"130/80H17", 639.8, false}, {"130/80 B17", 639.8, false}, {"100/90-18", 637.2, false},
		{"180/55ZR17", 629.8, false}, {"180/55 ZR 17 M/C (73W)", 629.8, false}, {"120/70-17", 599.8, false}, {"3.00-18", 609.6, true}, {"3.00 S 18", 609.6, true}, {"3.25-19", 647.7, true},
		{"2.75-21", 673.1, true}, {"3.50H18", 635, true}, {"3.00-18 4PR", 609.6, true}, {"3.00-18 47P", 609.6, true}, {"4.60/85-18", 655.828, false},
	} {
		tyre, why := ReadTyre(c.code)
		if got := 1000 * (tyre.Rim + 2*tyre.Width*tyre.Height); why != "" || math.Abs(got-c.diameter) > 1e-6 || tyre.Assumed != c.assumed {
			t.Errorf("%s: %v mm, assumed %v, %q; want %v, %v", c.code, got, tyre.Assumed, why, c.diameter, c.assumed)
		}
	}
}

func TestTyreCodesThatCantBeReadSayWhy(t *testing.T) {
	for code, why := range map[string]string{
		"4.10H18": "low inch size", "3.60-18": "low inch size", "4.10-18": "low inch size", "5.10-16": "low inch size", "130/80": "no size code", "MT90-16": "no size code", "17": "no size code", "": "no size code",
		"130/80-170": "no size code", "130-80-17": "no size code", "130/80,17": "no size code", "13/80-17": "so narrow", "999/80-17": "so wide", "130/12-17": "so low", "130/800-17": "so high",
		"130/80-05": "such a rim", "130/80-99": "such a rim", "knobbly": "no size code", "130/80-17 and soft": "no size code",
	} {
		if tyre, got := ReadTyre(code); !strings.Contains(got, why) || tyre != (Tyre{}) {
			t.Errorf("%q: %+v, %q; want none, and %q", code, tyre, got, why)
		}
	}
}

// A code stands in the build sheet, or is brought or read later; either way it is found where it can't be read.
func TestTyresInSheetsAndReadings(t *testing.T) {
	for text, want := range map[string]string{
		`"130/80-17"`: "", `"1985 mm"`: "", `"78.2 in"`: "", `"130/80 R170"`: `bad-quantity: "130/80 R170"`, `"4.10-18"`: `bad-quantity: "4.10-18"`,
	} {
		for what, d := range map[string]decoded{"sheet": decode("build.toml", "drive.tyre = "+text), "reading": decodeHead("[set]\ndrive.tyre = " + text)} {
			t.Run(what+" "+text, func(t *testing.T) {
				if want == "" {
					wantNothingFound(t, d)
				} else {
					wantFound(t, d, want)
				}
			})
		}
	}
	wantFound(t, decode("build.toml", `drive.tyre = "1985"`), "missing-unit: 1985")
	wantFound(t, decode("build.toml", `drive.tyre = "1985 kg"`), "wrong-dimension: kg")
	wantFound(t, decode("build.toml", `drive.tyre = 1985`), "wrong-kind: 1985")
}
