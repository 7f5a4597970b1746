package report_test

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"

	"example.org/locknut/journal"
	"example.org/locknut/journal/report"
	"example.org/locknut/journal/source"
)

// The journals that are kept for testing: the example, which is in order, and those full of mistakes.
var kept = []string{"../../example-build", "../../testdata/mistakes", "../../testdata/mistakes/unreadable", "../../testdata/mistakes/build-unreadable", "../../testdata/mistakes/hide-unknown", "../../testdata/mistakes/limits-unreadable"}

func TestEveryFindingIsPrintedWithItsPlace(t *testing.T) {
	for _, name := range kept {
		result, err := journal.Compile(os.DirFS(name), journal.Options{SkipHTML: true})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		var out bytes.Buffer
		if err := report.Text(&out, result, report.TextOptions{All: true}); err != nil {
			t.Fatal(err)
		}
		lines := strings.Split(out.String(), "\n")
		for _, f := range result.Findings {
			line, column, _, _ := f.At.Position()
			place := fmt.Sprintf("%s:%d:%d: %s", f.At.File.Name, line, column, f.Severity)
			if f.At.IsWhole() {
				place = fmt.Sprintf("%s: %s", f.At.File.Name, f.Severity)
			}
			if !contains(lines, place, ": "+f.Rule+": ") {
				t.Errorf("%s: no line for %s %s", name, place, f.Rule)
			}
		}
	}
}

func contains(lines []string, beginning, part string) bool {
	for _, l := range lines {
		if strings.HasPrefix(l, beginning) && strings.Contains(l, part) {
			return true
		}
	}
	return false
}

func TestTheSameJournalGivesTheSameBytes(t *testing.T) {
	for _, name := range kept {
		var outs [2]bytes.Buffer
		for i := range outs {
			result, err := journal.Compile(os.DirFS(name), journal.Options{SkipHTML: true})
			if err != nil {
				t.Fatal(err)
			}
			for _, err := range []error{
				report.Text(&outs[i], result, report.TextOptions{}), report.JSON(&outs[i], result), report.ExportJSON(&outs[i], result, report.ExportOptions{}),
				report.ExportCSV(&outs[i], result, report.ExportOptions{}), report.ExportJSON(&outs[i], result, report.ExportOptions{Public: true}),
			} {
				if err != nil {
					t.Fatal(err)
				}
			}
		}
		if !bytes.Equal(outs[0].Bytes(), outs[1].Bytes()) {
			t.Errorf("%s: two runs differ", name)
		}
	}
}

// Any place in any text: no panic, three lines, and the caret never past the end of the line above it.
func TestAnyPlaceCanBeUnderlined(t *testing.T) {
	f := source.NewFile("f", "\uFEFFµ\t気\x1b\r\n\r\n\ne\u0301 \xff\t\tx\n")
	for start := 0; start <= len(f.Text); start++ {
		for end := start; end <= len(f.Text); end++ {
			got := textOf(t, report.TextOptions{}, nil, source.Finding{Rule: "r", Severity: source.Note, At: f.At(start, end), Message: "m"})
			lines := strings.Split(got, "\n")
			if len(lines) < 4 || lines[3] != "" || strings.Count(lines[2], "^") != 1 {
				t.Fatalf("from %d to %d:\n%s", start, end, got)
			}
			if tabs := strings.Count(lines[2], "\t"); tabs > strings.Count(lines[1], "\t") {
				t.Errorf("from %d to %d: %d tabs below\n%s", start, end, tabs, got)
			}
		}
	}
}
