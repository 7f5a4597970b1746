package render

import (
	"slices"
	"strings"
	"testing"

	"example.org/locknut/journal"
	"example.org/locknut/journal/model"
)

// A tool's page and the finding about it divide ratios alike, also where one strays from a whole number by what floating point loses.
func TestRulesOfThumbAreThoseOfTheFinding(t *testing.T) {
	for ratio, want := range map[float64]string{
		0: "it can’t tell in from out", 0.999: "it can’t tell in from out", 1 - 1e-12: "neither 10:1 nor 4:1 is kept", 3.99: "neither 10:1 nor 4:1 is kept",
		4 - 1e-12: "4:1 is kept, 10:1 is not", 9.99: "4:1 is kept, 10:1 is not", 10 - 1e-12: "10:1 and 4:1 are kept", 25: "10:1 and 4:1 are kept",
	} {
		if got := string(ruleOfThumb(ratio)); got != want {
			t.Errorf("%v: %s, want %s", ratio, got, want)
		}
	}
	// By hand: the limit is wide by 0.02 mm and the tool uncertain by 0.01 each way, which is 1:1, and in binary may be a little less.
	files := map[string]string{
		"build.toml": "", "limits.toml": "[float]\nbasis = \"standard\"\nidler = \"0.10..0.12 mm\"\n", "tools.toml": "[dial]\nfor = [\"float\"]\nuncertainty = \"0.01 mm\"\n",
		"entries/2026-03-01.md": "```toml\nwith = [\"dial\"]\n[found]\nfloat.idler = \"0.11 mm\"\n```\n",
	}
	result, err := journal.Compile(inMemory(files), journal.Options{})
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(result.Journal.Limits, func(l *model.Limit) bool { return l.Path == "float.idler" })
	ratio, ok := result.Journal.Tool("dial").Ratio(result.Journal.Limits[i])
	if !ok || model.ShowRatio(ratio).String() != "1.0:1" {
		t.Fatalf("%.17g, %v", ratio, ok)
	}
	said := ""
	for _, f := range result.Findings {
		if f.Rule == "coarse-tool" {
			said = f.Message
		}
	}
	if got := words(rendered(t, inMemory(files)), "tools/dial.html"); strings.Contains(said, "can't tell in from out") || !strings.Contains(said, "short of the 4:1") || !strings.Contains(got, "1.0:1 neither 10:1 nor 4:1 is kept") {
		t.Errorf("%s\n%s", said, got)
	}
}
