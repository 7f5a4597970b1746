package derive_test

import (
	"os"
	"testing"

	"example.org/locknut/journal"
	"example.org/locknut/journal/derive"
)

// What an entry's page shows are the same figures as all that the entry left, also where a number needs another that the entry has no bearing on.
func TestWhatAnEntryChangedIsAsItLeftIt(t *testing.T) {
	r, err := journal.Compile(os.DirFS("../../example-build"), journal.Options{SkipHTML: true})
	if err != nil {
		t.Fatal(err)
	}
	fewer := 0
	for _, e := range r.Journal.Entries {
		left := map[string]*derive.Number{}
		for _, n := range r.Sums.AsLeft(e) {
			left[n.Path] = n
		}
		changed := r.Sums.ChangedBy(e)
		for _, n := range changed {
			if want := left[n.Path]; want == nil || want.Estimate.Value != n.Estimate.Value || want.Reason != n.Reason || want.Words != n.Words {
				t.Errorf("%s: %s is %v, as it was left %v", e.Path, n.Path, n, want)
			}
		}
		if len(changed) < len(left) {
			fewer++
		}
	}
	if fewer == 0 {
		t.Error("every entry has a bearing on every number")
	}
}
