package render

import (
	"strings"
	"testing"
)

// wheelAndGoal is a build with two sessions that are compared by SAE J1349, in the air of the page of `stage-gain`: 24.0 hp as read are 23.1171 there, and 25.0 by J607 are 24.2238.
func wheelAndGoal(air string) map[string]string {
	return map[string]string{
		"build.toml":                 "goals.power.peak = \"26 hp\"\npower.correct-to = \"SAE J1349\"\nunits.power = \"hp\"\n",
		"parts.toml":                 "[cam-hill]\n",
		"entries/2026-03-01-base.md": entryOf("[[pulls]]\npeak = \"24.0 hp\"\ncorrected = \"none\"\nat = \"wheel\"\n" + air),
		"entries/2026-06-08-cam.md":  entryOf("fitted = [\"cam-hill\"]\n[[pulls]]\npeak = \"25.0 hp\"\ncorrected = \"SAE J607\"\nair = { temp = \"30 °C\", pressure = \"98.5 kPa\", humidity = \"70 %\" }\n"),
	}
}

// By hand: 24.2238 − 23.1171 is 1.1067, 26 − 24.2238 is 1.78, and 1.1067 of 26 − 23.1171 is 38 %. As they were read, 25 − 24 is half of the way to 26.
func TestPeaksStandBesideEachOtherAsTheyAreCompared(t *testing.T) {
	for _, c := range []struct {
		air   string
		wants []string
	}{
		{"air = { temp = \"20 °C\", pressure = \"101.325 kPa\", humidity = \"0 %\" }\n", []string{"power by SAE J1349 24.2 hp ( +1.107 hp in 1 stage )", "23.1 hp by SAE J1349 24.2 hp by SAE J1349 +1.8 hp 38% of the way"}},
		{"", []string{"power by SAE J1349 24.2 hp ", "24.0 hp as read 25.0 hp as read +1.0 hp 50% of the way"}},
	} {
		m := rendered(t, inMemory(wheelAndGoal(c.air)))
		checkSite(t, m)
		got := strings.ReplaceAll(words(m, "index.html"), thinSpace, " ")
		for _, want := range c.wants {
			if !strings.Contains(got, want) {
				t.Errorf("index.html doesn't say %q:\n%s", want, got)
			}
		}
	}
}

// Where one session says that it counts at the wheel, the table has a column for that, and what doesn't say it is told as such.
func TestSessionsSayWhereTheyCount(t *testing.T) {
	m := rendered(t, inMemory(wheelAndGoal("")))
	got := strings.ReplaceAll(words(m, "power.html"), thinSpace, " ")
	for _, want := range []string{"Correction Counts at ", "SAE J607 not said", "none wheel"} {
		if !strings.Contains(got, want) {
			t.Errorf("power.html doesn't say %q:\n%s", want, got)
		}
	}
}

// A gain that can't be told says why where its chart was to be.
func TestAnUndrawnGainSaysWhy(t *testing.T) {
	files := wheelAndGoal("")
	files["entries/2026-06-08-cam.md"] += "\n![Gain](chart:gain)\n"
	m := rendered(t, inMemory(files))
	if got, want := words(m, "entries/2026-06-08-cam.html"), "Chart: Gain – not drawn: before: not given: air"; !strings.Contains(got, want) {
		t.Errorf("it doesn't say %q:\n%s", want, got)
	}
}

// The page of a part tells the loss too: −1 hp at 4000 rpm, by the files, and +3 at 9000.
func TestAPartTellsWhatItTook(t *testing.T) {
	files := pulled()
	files["data/then.csv"] = "rpm,power [hp]\n4000,9.0\n6000,16.0\n8000,22.0\n9000,22.0\n"
	m := rendered(t, inMemory(files))
	if got, want := strings.ReplaceAll(words(m, "parts/cam.html"), thinSpace, " "), "at the peak, from −1.00 hp at 4000 rpm to +3.00 hp at 9000 rpm"; !strings.Contains(got, want) {
		t.Errorf("it doesn't say %q:\n%s", want, got)
	}
}

// Curves at the crank beside those at the wheel say which they are; where all count at one place none does.
func TestCurvesSayWhereTheyCount(t *testing.T) {
	at := func(first, then string) string {
		files := pulled()
		for name, where := range map[string]string{"entries/2026-02-01-before.md": first, "entries/2026-03-08-cam.md": then} {
			files[name] = strings.Replace(files[name], "corrected =", "at = \""+where+"\"\ncorrected =", 1)
		}
		return string(rendered(t, inMemory(files)).Page("power.html"))
	}
	if got := at("wheel", "crank"); !strings.Contains(got, ">8 Mar, crank</text>") || !strings.Contains(got, ">1 Feb, wheel</text>") {
		t.Errorf("the curves don't say where they count:\n%s", got)
	}
	if got := at("wheel", "wheel"); strings.Contains(got, "1 Feb, wheel") {
		t.Error("all count at the wheel, and a curve says so")
	}
}
