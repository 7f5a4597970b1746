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
		there := map[string]bool{}
		for _, n := range changed {
			there[n.Path] = true
			if want := left[n.Path]; want == nil || want.Estimate.Value != n.Estimate.Value || want.Reason != n.Reason || want.Words != n.Words {
				t.Errorf("%s: %s is %v, as it was left %v", e.Path, n.Path, n, want)
			}
		}
		for path, n := range left {
			if n.Concerns(e) && !there[path] {
				t.Errorf("%s: %s rests on it and is left out", e.Path, path)
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

// Sets of families have a bit for each, and what a family needs is worked out before it.
func TestFamiliesStandInOrder(t *testing.T) {
	if len(derive.All) > 64 {
		t.Errorf("%d families don't go into a set", len(derive.All))
	}
	before := map[string]bool{}
	for _, f := range derive.All {
		for _, name := range f.Needs {
			if !before[name] {
				t.Errorf("%s needs %s, which does not stand before it", f.Name, name)
			}
		}
		before[f.Name] = true
	}
}
