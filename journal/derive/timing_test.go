package derive_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
)

// A limit of a middle before top dead centre holds the exhaust's, which is worked out with its side; and it is shown as it is written. By hand.
func TestAnExhaustsMiddleIsHeldByItsLimit(t *testing.T) {
	r := compile(t, fstest.MapFS{
		"build.toml": {}, "limits.toml": {Data: []byte("[cam.exhaust]\nlobe-centre = \"108 ± 4° BTDC\"\n")},
		"entries/2026-03-01-cam.md": {Data: []byte("```toml\n[found]\ncam.exhaust = { opens = \"60° BBDC\", closes = \"20° ATDC\" }\n```\n")},
		"entries/2026-03-02-cam.md": {Data: []byte("```toml\n[found]\ncam.exhaust = { opens = \"64° BBDC\", closes = \"14° ATDC\" }\n```\n")},
	})
	for entry, want := range map[string]struct {
		verdict model.Verdict
		shown   string
	}{"2026-03-01-cam": {model.In, "110° BTDC"}, "2026-03-02-cam": {model.Out, "115° BTDC"}} {
		n := numberAt(r.Sums.AsLeft(r.Journal.Entry(entry)), "cam.exhaust.lobe-centre")
		if n == nil || n.Verdict != want.verdict || n.Shown().String() != want.shown {
			t.Errorf("%s: %+v, want %v and %s", entry, n, want.verdict, want.shown)
		}
	}
}

func numberAt(numbers []*derive.Number, path string) *derive.Number {
	i := slices.IndexFunc(numbers, func(n *derive.Number) bool { return n.Path == path })
	if i < 0 {
		return nil
	}
	return numbers[i]
}

// The uncertainty of timing, ports and lift is held against drawing at random, with the formulas typed anew.
func TestUncertaintyOfTimingAgreesWithDrawingAtRandom(t *testing.T) {
	r := compile(t, fstest.MapFS{
		"build.toml": {Data: []byte("[engine]\nstroke = \"50.0 ± 0.2 mm\"\nrod = \"100 ± 1 mm\"\nrocker-ratio = { intake = \"1.10\", exhaust = \"1.10\" }\n")},
		"entries/2026-03-01-a.md": {Data: []byte("```toml\n[found]\nignition.timing = \"2.30 ± 0.10 mm BTDC\"\nport.exhaust.height = \"25.0 ± 0.3 mm\"\nport.transfer.height = \"10.0 ± 0.3 mm\"\n" +
			"cam.intake = { opens = \"16 ± 2° BTDC\", closes = \"46 ± 1° ABDC\", lift = \"7.90 ± 0.04 mm\" }\ncam.exhaust = { opens = \"46 ± 1° BBDC\", closes = \"16 ± 2° ATDC\" }\n" +
			"spring.intake = { installed = \"34.0 ± 0.2 mm\", solid = \"23.0 ± 0.1 mm\" }\n```\n")},
	})
	random := rand.New(rand.NewPCG(50, 100))
	draw := func(mean, expanded float64) float64 { return mean + random.NormFloat64()*expanded/2 }
	// at returns the angle after top dead centre at which the piston stands so far below it: the law of cosines.
	at := func(stroke, rod, below float64) float64 {
		s, r := rod+stroke/2-below, stroke/2
		return math.Acos((s*s + r*r - rod*rod) / (2 * r * s))
	}
	const degree = math.Pi / 180
	for path, of := range map[string]func() float64{
		"ignition.degrees":      func() float64 { return -at(draw(.05, .0002), draw(.1, .001), draw(.0023, .0001)) },
		"port.exhaust.duration": func() float64 { s := draw(.05, .0002); return 2*math.Pi - 2*at(s, draw(.1, .001), s-draw(.025, .0003)) },
		"port.blowdown": func() float64 {
			s, l := draw(.05, .0002), draw(.1, .001)
			return at(s, l, s-draw(.010, .0003)) - at(s, l, s-draw(.025, .0003))
		},
		"cam.separation": func() float64 {
			return (180*degree + draw(46, 1)*degree - draw(16, 2)*degree + 180*degree + draw(46, 1)*degree - draw(16, 2)*degree) / 4
		},
		"margin.coil-bind.intake": func() float64 { return draw(.034, .0002) - draw(.0079, .00004)*1.1 - draw(.023, .0001) },
	} {
		const draws = 100_000
		sum, squares := 0.0, 0.0
		for range draws {
			x := of()
			sum, squares = sum+x, squares+x*x
		}
		mean := sum / draws
		std := math.Sqrt(squares/draws - mean*mean)
		n := numberAt(r.Numbers, path)
		if n == nil || n.Reason != "" {
			t.Errorf("%s: no figure", path)
			continue
		}
		if math.Abs(n.Estimate.Std()/std-1) > 0.02 || math.Abs(n.Estimate.Value-mean) > 0.05*std {
			t.Errorf("%s: %.6g, standard uncertainty %.4g worked out; %.6g, %.4g drawn", path, n.Estimate.Value, n.Estimate.Std(), mean, std)
		}
	}
}
