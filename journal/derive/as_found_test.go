package derive_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
	"example.org/locknut/journal/derive"
)

// What rests on a figure that an entry found and replaced is worked out as it found the engine, by the limits of then; what it found and left is not told twice. By hand: 641 mm over 40 links of 15.875 mm, 635 mm, is 0.9449 %;
// the lash was 0.12 mm where the old cam's limit wants 0.10 mm, and the new one's 0.20 mm.
func TestNumbersAsAnEntryFoundTheEngine(t *testing.T) {
	files := fstest.MapFS{}
	for name, text := range map[string]string{
		"build.toml":  "[drive]\nchain-pitch = \"15.875 mm\"\n",
		"limits.toml": "[lash]\nintake = \"0.10 ± 0.02 mm\"\n",
		"parts.toml":  "[cam]\nlimits.lash.intake = \"0.20 ± 0.02 mm\"\n",
		"entries/2026-03-01-a.md": "```toml\nfitted = [\"cam\"]\n[found]\nlash.intake.left = \"0.12 mm\"\nlash.intake.right = \"0.09 mm\"\nchain.length = \"641.0 mm\"\nchain.links = 40\n" +
			"[set]\nlash.intake.left = \"0.20 mm\"\nchain.length = \"635.0 mm\"\n```\n",
		"entries/2026-04-01-b.md": "```toml\n[found]\nlash.intake.left = \"0.21 mm\"\n```\n",
	} {
		files[name] = &fstest.MapFile{Data: []byte(text)}
	}
	r, err := journal.Compile(files, journal.Options{SkipHTML: true})
	if err != nil {
		t.Fatal(err)
	}
	tell := func(numbers []*derive.Number) string {
		var all []string
		for _, n := range numbers {
			if !n.Found || n.Entry == nil || math.IsNaN(n.Estimate.Value) {
				t.Errorf("%s is no number of what was found", n.ID())
			}
			all = append(all, fmt.Sprintf("%s %.5f", n.ID(), n.Estimate.Value))
		}
		return strings.Join(all, "\n")
	}
	want := "2026-03-01-a/worked/found/chain.elongation 0.00945\n2026-03-01-a/worked/found/deviation.intake.left 0.00002"
	if got := tell(r.Sums.AsFound(r.Journal.Entries[0])); got != want {
		t.Errorf("found\n%s\nwant\n%s", got, want)
	}
	if got := tell(r.Sums.LastFound()); got != want {
		t.Errorf("last found\n%s\nwant\n%s", got, want)
	}
	if got := tell(r.Sums.AsFound(r.Journal.Entries[1])); got != "" {
		t.Errorf("what was found and left: %s", got)
	}
	if !slices.ContainsFunc(r.Numbers, func(n *derive.Number) bool {
		return n.Path == "chain.elongation" && math.Abs(n.Estimate.Value) < 1e-9 && !n.Found
	}) {
		t.Error("the new chain has its own")
	}
}

// Each entry's own are told, whatever was found later: a newer one within its limit, or without a figure, takes nothing back. By hand: 645 mm over 40 links of 15.875 mm is 1.5748 %, 641 mm 0.9449 %.
func TestNumbersFoundOutsideAreThoseOfEachEntry(t *testing.T) {
	files := fstest.MapFS{}
	for name, text := range map[string]string{
		"build.toml":              "[drive]\nchain-pitch = \"15.875 mm\"\n",
		"limits.toml":             "[chain.elongation]\nhigh = \"1 %\"\n",
		"entries/2026-03-01-a.md": "```toml\n[found]\nchain.length = \"645 mm\"\nchain.links = 40\n[set]\nchain.length = \"635 mm\"\n```\n",
		"entries/2026-04-01-b.md": "```toml\n[found]\nchain.length = \"641 mm\"\n[set]\nchain.length = \"635 mm\"\n```\n",
		"entries/2026-05-01-c.md": "```toml\n[found]\nchain.length = \"650 mm\"\n[set]\nchain.length = \"635 mm\"\n```\n",
		"entries/2026-06-01-d.md": "```toml\n[found]\nchain.length = \"646 mm\"\nchain.links = \"40 mm\"\n[set]\nchain.length = \"635 mm\"\nchain.links = 40\n```\n",
	} {
		files[name] = &fstest.MapFile{Data: []byte(text)}
	}
	r, err := journal.Compile(files, journal.Options{SkipHTML: true})
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, n := range r.Sums.FoundOutside() {
		got = append(got, n.ID())
	}
	if want := []string{"2026-03-01-a/worked/found/chain.elongation", "2026-05-01-c/worked/found/chain.elongation"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if last := r.Sums.LastFound(); len(last) != 1 || last[0].ID() != "2026-05-01-c/worked/found/chain.elongation" {
		t.Errorf("the last of them is %v", last) // the newest entry's links can't be read
	}
}
