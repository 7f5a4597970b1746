package render

import (
	"strings"
	"testing"
)

// The pages of the sides of the engine tell what is in force and how it is set right, and there is none of a side of which nothing was read.
func TestTopics(t *testing.T) {
	m := rendered(t, inMemory(map[string]string{
		"build.toml": "[units]\ntorque = [\"N·m\", \"lbf·ft\"]\n[engine]\ncylinders = [\"left\", \"right\"]\nbore = \"53.0 mm\"\nstroke = \"56.4 mm\"\nadjuster = { kind = \"screw\", pitch = \"0.5 mm\", at = \"valve\" }\n",
		"limits.toml": "[lash]\nintake = \"0.10 ± 0.02 mm\"\n[torque]\nbasis = \"assumed\"\n[torque.head-bolt]\nnominal = \"14 N·m then 26 N·m\"\ntolerance = \"2 N·m\"\nthread = \"M8x1.25\"\nclass = \"10.9\"\n" +
			"threads = \"oiled\"\ndrive = \"12 mm hex\"\norder = \"2 3 1 4\"\n",
		"entries/2026-03-01-lash.md": "```toml\n[set]\nlash.intake.left = \"0.15 mm\"\nlash.intake.right = \"0.10 mm\"\ntorque.head-bolt = \"26 N·m\"\ntiming.marks = \"aligned\"\n```\n",
	}))
	checkSite(t, m)
	for page, wants := range map[string][]string{
		"valve-train.html": {"intake .left 0.15 mm ✕ out , above 0.10 ± 0.02 mm 0.05 mm 36° , close the gap by 6 minutes of a clock’s face, or ½ flat of a hexagon", "intake .right 0.10 mm ✓ in 0.10 ± 0.02 mm 0.00 mm 0° , leave it",
			"timing .marks aligned 2026-03-01-lash"},
		"fasteners.html": {"head-bolt 14 N·m ( 10.3 lbf·ft ) then 26 ± 2 N·m ( 17.71..20.65 lbf·ft ) assumed in the order 2 3 1 4 M8x1.25, 10.9 oiled 12 mm hex 26 N·m ( 19.2 lbf·ft ) ✓ in"},
		"engine.html":    {"Worked out Number Figure displacement 248.9 cm³", "From the build sheet Where Now engine .adjuster .pitch 0.5 mm engine .bore 53.0 mm"},
	} {
		got := words(m, page)
		for _, want := range wants {
			if !strings.Contains(got, want) {
				t.Errorf("%s doesn't say %q:\n%s", page, want, got)
			}
		}
		if !strings.Contains(words(m, "index.html"), "Valve train Fasteners Engine") {
			t.Errorf("the front page doesn't lead to %s", page)
		}
	}
	shims := rendered(t, inMemory(map[string]string{
		"build.toml":                 "[engine]\ncylinders = [\"left\", \"right\"]\nadjuster = { kind = \"shim\", sizes = \"2.50..3.30 mm by 0.05\" }\n",
		"limits.toml":                "[lash]\nintake = \"0.15 ± 0.10 mm\"\n",
		"entries/2026-03-01-lash.md": "```toml\n[found]\nlash.intake = { left = \"0.08 mm\", right = \"0.15 mm\" }\nshim.intake = { left = \"2.70 mm\", right = \"2.60 mm\" }\n```\n",
	}))
	for _, want := range []string{"a shim of 2.63 mm , the lash is within its limits: the 2.70 mm that is in stays; 2.65 mm would leave 0.13 mm", "a shim of 2.60 mm , the 2.60 mm that is in stays"} {
		if got := words(shims, "valve-train.html"); !strings.Contains(got, want) {
			t.Errorf("valve-train.html doesn't say %q:\n%s", want, got)
		}
	}
	// a tyre that was measured has no circumference to be worked out, and the gears have a page all the same
	drive := rendered(t, inMemory(map[string]string{"build.toml": "[engine]\nredline = \"10000 rpm\"\n[drive]\nprimary = \"3\"\nfinal = \"2\"\ngears = [\"2\", \"1\"]\ntyre = \"2000 mm\"\n"}))
	if got := words(drive, "drive.html"); !strings.Contains(got, "1 12.00:1 100 km/h") && !strings.Contains(got, "100 km/h") {
		t.Errorf("drive.html says\n%s", got)
	}
	for _, page := range []string{"wear.html", "drive.html"} {
		if m.Page(page) != nil {
			t.Errorf("there is a page %s, of which nothing is known", page)
		}
	}
}

// What a gauge may show is a band in the drawing where both its ends are known: from a static ratio, or from the checking lift, only the upper one is.
func TestExpectedPressureIsABandOnlyWithTwoEnds(t *testing.T) {
	for _, c := range []struct {
		name, set string
		band      bool
	}{
		{"static", "", false},
		{"checking lift", "[set]\ncam.intake = { closes = \"46° ABDC\", at = \"1.0 mm\" }\n", false},
		{"on its seat", "[set]\ncam.intake = { closes = \"66° ABDC\", at = \"0.0 mm\" }\n", true},
	} {
		m := rendered(t, inMemory(map[string]string{
			"build.toml":                 "[engine]\nbore = \"53.0 mm\"\nstroke = \"56.4 mm\"\nrod = \"104 mm\"\nchamber = \"14.1 cm3\"\n",
			"entries/2026-03-01-read.md": "```toml\n[found]\ncompression = \"1000 kPa\"\n" + c.set + "```\n",
		}))
		page := string(m.Page("engine.html"))
		if !strings.Contains(page, "c-pressures") {
			t.Fatalf("%s: there is no drawing", c.name)
		}
		if strings.Contains(page, "expected ") != c.band {
			t.Errorf("%s: a band is drawn: %v, want %v", c.name, !c.band, c.band)
		}
	}
}
