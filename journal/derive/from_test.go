package derive

import (
	"testing"

	"example.org/locknut/journal/parse"
)

// Every family says what its numbers come from, in paths that mean something; and every row of the table of worked-out numbers has a family whose page shows one.
func TestFamiliesSayWhatTheyComeFrom(t *testing.T) {
	for i := range All {
		f := &All[i]
		if len(f.Of) == 0 {
			t.Errorf("%s comes from nothing", f.Name)
		}
		for _, path := range f.Of {
			if parse.FindPattern(path) == nil && len(sheetBelow(path)) == 0 {
				t.Errorf("%s comes from %s, which means nothing", f.Name, path)
			}
		}
		if !f.WorksOut(func(string) bool { return true }) {
			t.Errorf("the page of %s shows no number", f.Name)
		}
	}
	for i := range parse.Worked {
		row := &parse.Worked[i]
		families := 0
		for i := range All {
			if All[i].WorksOut(func(path string) bool { return row.Fits(path) || row.Fits(path+".left") }) {
				families++
			}
		}
		if families == 0 {
			t.Errorf("no page shows a number at %s", row.Path)
		}
	}
}

// sheetBelow returns the paths of the build sheet below a path: `engine.gasket` holds no value itself.
func sheetBelow(path string) []string {
	var below []string
	for sheet := range parse.SheetPaths() {
		if parse.IsAtOrBelow(sheet, path) {
			below = append(below, sheet)
		}
	}
	return below
}
