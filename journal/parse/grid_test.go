package parse

import "testing"

func TestGrids(t *testing.T) {
	for _, c := range []struct{ name, grid, want, found string }{
		{"a unit in the corner", "mm x y\n1 1 2\n2 3 4", "set b.1.x = 0.001 length\nset b.1.y = 0.002 length\nset b.2.x = 0.003 length\nset b.2.y = 0.004 length", ""},
		{"heads that are paths", "mm top.x mid.x\nleft 1 2", "set b.left.top.x = 0.001 length\nset b.left.mid.x = 0.002 length", ""},
		{"heads are folded", "mm Top_A\nInlet 1", "set b.intake.top-a = 0.001 length", ""},
		{"no corner, units in the cells", "x y\n1 1mm 2in", "set b.1.x = 0.001 length\nset b.1.y = 0.0508 length", ""},
		{"a cell's own unit counts", "mm x y\n1 1 2in", "set b.1.x = 0.001 length\nset b.1.y = 0.0508 length", ""},
		{"not measured", "mm x y\n1 - –", "set b.1.x = blank\nset b.1.y = blank", ""},
		{"brackets", "mm x y\n1 1..2 ..3", "set b.1.x = 0.001..0.002 length\nset b.1.y = -Inf..0.003 length", ""},
		{"tabs and blanks", "mm\tx\t\ty\n  1 \t 1\t2  ", "set b.1.x = 0.001 length\nset b.1.y = 0.002 length", ""},
		{"empty lines", "\nmm x\n\n1 1\n\n2 2\n", "set b.1.x = 0.001 length\nset b.2.x = 0.002 length", ""},
		{"one column", "mm x\n1 1\n2 2", "set b.1.x = 0.001 length\nset b.2.x = 0.002 length", ""},
		{"a spread", "mm x\n1 1±0.1", "set b.1.x = 0.001±0.0001 length", ""},
		{"a unit that reads two ways is left open", "C x\n1 20", "set b.1.x = 293.15 temperature", ""},

		{"the first row too short", "mm x y\n1 1\n2 3 4\n3 5 6", "set b unread", "bad-grid: 1 1"},
		{"the first row too long", "mm x y\n1 1 2 3\n2 3 4\n3 5 6", "set b unread", "bad-grid: 1 1 2 3"},
		{"a row too short", "mm x y\n1 1 2\n2 3", "set b unread", "bad-grid: 2 3"},
		{"a row too long", "mm x y\n1 1 2\n2 3 4 5", "set b unread", "bad-grid: 2 3 4 5"},
		{"a head row too short", "mm\n1 1 2", "set b unread", "bad-grid: mm"},
		{"blanks between figure and unit", "x y\n1 1 mm 2 mm", "set b unread", "bad-grid: x y"},
		{"a column twice", "mm x X\n1 1 2", "set b unread", "bad-grid: X"},
		{"a row twice", "mm x\nintake 1\ninlet 2", "set b unread", "bad-grid: inlet"},
		{"no such unit", "mn x\n1 1", "set b unread", "unknown-unit: mn"},
		{"no unit at all: said once", "x y\n1 1 2\n2 3 4", "set b.1.x unread\nset b.1.y unread\nset b.2.x unread\nset b.2.y unread", "missing-unit: 1"},
		{"words in a cell", "mm x y\n1 ok 2", "set b.1.x unread\nset b.1.y = 0.002 length", "bad-quantity: ok"},
		{"a bad figure in a cell", "mm x y\n1 .5 2", "set b.1.x unread\nset b.1.y = 0.002 length", "leading-dot: .5"},
		{"a bad head of a column: said once", "mm x! y\n1 1 2\n2 3 4", "set b unread\nset b.1.y = 0.002 length\nset b.2.y = 0.004 length", "bad-name: x!"},
		{"a bad head of a row: said once", "mm x y\n1! 1 2\n2 3 4", "set b unread\nset b.2.x = 0.003 length\nset b.2.y = 0.004 length", "bad-name: 1!"},
		{"a head that ends in a dot", "mm x.\n1 1", "set b unread", "bad-name: x."},
		{"a dash as a head", "mm x -\n1 1 2", "set b unread\nset b.1.x = 0.001 length", "bad-name: -"},
		{"found and set as heads", "mm found set\n1 1 2", "set b unread", "unknown-key: found\nunknown-key: set"},
		{"a detail as a head", "mm x with\n1 1 2", "set b unread\nset b.1.x = 0.001 length", "unknown-key: with"},
		{"a value and a deeper one", "mm x x.y\n1 1 2", "set b.1.x = 0.001 length\nset b.1.x.y = 0.002 length", "value-and-deeper: 2"},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, quotes := range []string{`"""`, `'''`} {
				d := decodeHead("[set]\nb = " + quotes + "\n" + c.grid + "\n" + quotes)
				wantFound(t, d, c.found)
				if got := shownReadings(d.readings); got != c.want {
					t.Errorf("in\n%s\nread\n%s\nwant\n%s", c.grid, got, c.want)
				}
			}
		})
	}
}

// A grid typed with `\n` in a string of one line is a grid all the same: words never run over a line.
func TestAGridInAStringOfOneLine(t *testing.T) {
	d := decodeHead(`[set]` + "\n" + `b = "mm x\n1 5,3"`)
	if got := placed(d.findings); got != "3:14 decimal-comma: 5,3" {
		t.Errorf("found %s, want 3:14 decimal-comma: 5,3", got)
	}
	if got := shownReadings(d.readings); got != "set b.1.x unread" {
		t.Errorf("read %s", got)
	}
}

// Where a figure is due, a text of several lines is none, and never words.
func TestAGridWhereAFigureIsDue(t *testing.T) {
	for _, c := range []struct{ name, file, text, want string }{
		{"key", "build.toml", "engine.bore = \"\"\"\n53 mm\n54 mm\n\"\"\"", "wrong-kind: \"\"\"⏎53 mm⏎54 mm⏎\"\"\""},
		{"limit", "limits.toml", "[lash]\nintake = \"\"\"\nmm x\n1 2\n\"\"\"", "wrong-kind: \"\"\"⏎mm x⏎1 2⏎\"\"\""},
		{"detail", entryName, headed("[set]\nx = { value = \"\"\"\nmm x\n1 2\"\"\" }"), "wrong-kind: \"\"\"⏎mm x⏎1 2\"\"\""},
		{"repeat", entryName, headed("[set]\nx = [\"1 mm\", \"2 mm\\n3 mm\"]"), "wrong-kind: \"2 mm\\n3 mm\""},
	} {
		t.Run(c.name, func(t *testing.T) { wantFound(t, decode(c.file, c.text), c.want) })
	}
}

func TestTargetGrids(t *testing.T) {
	for _, c := range []struct{ name, grid, want string }{
		{"lambda", "lambda 2000 4000\n10 1.00 0.98", ""},
		{"capitals", "Lambda 2000\n10 1.00", ""},
		{"the letter", "λ 2000\n10 1.00", ""},
		{"air-fuel ratio", "AFR 2000\n10 14.7", ""},
		{"no corner", "2000 4000\n10 1.00 0.98", "bad-grid: \"\"\"⏎2000 4000⏎10 1.00 0.98⏎\"\"\""},
		{"the heads' unit in the corner", "% 2000 4000\n10 1.00 0.98", "bad-grid: %"},
		{"a unit in a cell", "lambda 2000\n10 14.7AFR", "bad-grid: 14.7AFR"},
		{"nothing wanted in a cell", "lambda 2000\n10 -", ""},
		{"a word as head", "lambda idle\n10 1.00", "bad-grid: idle"},
		{"a decimal comma", "lambda 2000\n10 1,00", "bad-grid: 1,00"},
		{"an interval", "lambda 2000\n10 0.9..1", "bad-grid: 0.9..1"},
		{"rows that differ", "lambda 2000 4000\n10 1.00 0.9\n50 1.00", "bad-grid: 50 1.00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			wantFound(t, decode("build.toml", "[fuelling]\ntarget = \"\"\"\n"+c.grid+"\n\"\"\""), c.want)
		})
	}
	wantFound(t, decode("build.toml", "[fuelling]\ntarget = [1]"), "wrong-kind: [1]")
	wantFound(t, decode("build.toml", "[fuelling]\ntarget = \"1.00\""), "bad-grid: \"1.00\"")
}
