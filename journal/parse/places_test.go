package parse

import (
	"fmt"
	"strings"
	"testing"
)

// A finding underlines the very text that is wrong, wherever and however that text stands. Places are counted by hand: lines and
// characters from 1, a tab as one character, a byte order mark as none.
func TestFindingsStandWhereTheSlipIs(t *testing.T) {
	for _, c := range []struct{ name, file, text, want string }{
		{"plain key", "build.toml", "title = \"x\"\n[engine]\nbore = \"53,0 mm\"\n", "3:9 decimal-comma: 53,0"},
		{"dotted key", "build.toml", "engine.gasket.bore = \"54,0 mm\"", "1:23 decimal-comma: 54,0"},
		{"dotted key with blanks", "build.toml", "engine . gasket . bore = \"54,0 mm\"", "1:27 decimal-comma: 54,0"},
		{"quoted key", "build.toml", "\"engine\".'bore' = \"53,0 mm\"", "1:20 decimal-comma: 53,0"},
		{"unknown key in quotes", "build.toml", "[engine]\n\"bohr\" = 1", "2:1 unknown-key: \"bohr\""},
		{"last of a dotted key", "build.toml", "engine.gasket.bohr = 1", "1:15 unknown-key: bohr"},
		{"first of a dotted key", "build.toml", "\n\nmotor.gasket.bore = 1", "3:1 unknown-key: motor"},
		{"in braces", "build.toml", "engine.gasket = { bore = \"54 mm\", thickness = \"0,8 mm\" }", "1:48 decimal-comma: 0,8"},
		{"in braces over lines", "build.toml", "engine.gasket = {\n\tbore = \"54 mm\",\n\tthickness = \"0,8 mm\",\n}", "3:15 decimal-comma: 0,8"},
		{"third of a list of tables", entryName, headed("[[later]]\ndo = \"a\"\n[[later]]\ndo = \"b\"\n[[later]]\ndo = \"c\"\nafter = \"3,5 h\""), "8:10 decimal-comma: 3,5"},
		{"second of a list in braces", entryName, headed("spent = [{ for = \"a\", price = 1 }, { for = \"b\", price = \"1,5 GBP\" }]"), "2:58 decimal-comma: 1,5"},
		{"third item of a list", entryName, headed("[set]\nx = [\"9.1 hp\", \"9.3 hp\", \"9,2 hp\"]"), "3:27 decimal-comma: 9,2"},
		{"item of a list over lines", entryName, headed("[set]\nx = [\n  \"9.1 hp\",\n  \"9,2 hp\", # read twice\n]"), "5:4 decimal-comma: 9,2"},
		{"in a literal string", entryName, headed("[set]\nx = '0,08 mm'"), "3:6 decimal-comma: 0,08"},
		{"in a string of three quotes", entryName, headed("[set]\nx = \"\"\"0,08 mm\"\"\""), "3:8 decimal-comma: 0,08"},
		{"below three quotes", entryName, headed("[set]\nx = \"\"\"\n  0,08 mm\"\"\""), "4:3 decimal-comma: 0,08"},
		{"cell of a grid", entryName, headed("[set]\nbore = \"\"\"\nmm  top.x  top.y\n1   53.01  53,02\n\"\"\""), "5:12 decimal-comma: 53,02"},
		{"cell of a grid with tabs", entryName, headed("[set]\nbore = \"\"\"\nmm\ttop.x\ttop.y\n\t1\t53.01\t53,02\n\"\"\""), "5:10 decimal-comma: 53,02"},
		{"cell of a literal grid", entryName, headed("[set]\nbore = '''\nmm  x\n1   53,01\n'''"), "5:5 decimal-comma: 53,01"},
		{"cell of an indented grid", entryName, headed("[set]\nbore = \"\"\"\n      µm  x\n      1   53,01\n      \"\"\""), "5:11 decimal-comma: 53,01"},
		{"head of a grid", entryName, headed("[set]\nbore = \"\"\"\nmm  x  z!\n1   53  54\n\"\"\""), "4:8 bad-name: z!"},
		{"cell of a target grid", "build.toml", "[fuelling]\ntarget = \"\"\"\nlambda 2000 4000\n10 1.00 0,98\n\"\"\"", "4:9 bad-grid: 0,98"},
		{"behind a micro sign", entryName, headed("[set]\nx = { note = \"µm\", value = \"0,08 mm\" }"), "3:29 decimal-comma: 0,08"},
		{"behind a degree sign on its line", entryName, headed("[set]\nx = { engine-temp = \"19 °C\", value = \"0,08 mm\" }"), "3:39 decimal-comma: 0,08"},
		{"a unit behind a micro sign in its text", entryName, headed("[set]\nx = \"5 µq\""), "3:8 unknown-unit: µq"},
		{"behind an escape", entryName, headed("[set]\nx = \"\\u00308,5 mm\""), "3:6 decimal-comma: \\u00308,5"},
		{"an escape before the slip", "parts.toml", "[p]\nprice = \"\\u00A3\\t145,00\"", "2:18 decimal-comma: 145,00"},
		{"an escape is the slip", entryName, headed("[set]\nx = \"8 \\u00B5q\""), "3:8 unknown-unit: \\u00B5q"},
		{"behind a continued line", entryName, headed("[set]\nx = \"\"\"\\\n   \\\n   0,08 mm\"\"\""), "5:4 decimal-comma: 0,08"},
		{"bare number", entryName, headed("engine-temp = 19"), "2:15 missing-unit: 19"},
		{"date", "tools.toml", "[t]\ncalibrated = [2025-01-12, \"10/01/2026\"]", "2:27 slash-date: \"10/01/2026\""},
		{"word of an order", "limits.toml", "[x]\norder = \"12 2 11 2\"", "2:18 bad-order: 2"},
		{"number of an order that is part of another", "limits.toml", "[x]\norder = \"11 21 1 1\"", "2:18 bad-order: 1"},
		{"limit in one line", "limits.toml", "[lash]\nintake = \"0.08 ± 0,02 mm\"", "2:18 decimal-comma: 0,02"},
		{"limit at a dotted path", "limits.toml", "[lash]\nintake.left = \"0.08 mn\"", "2:21 unknown-unit: mn"},
		{"limit of a part", "parts.toml", "[p.limits]\nlash.intake = \"0,08 mm\"", "2:16 decimal-comma: 0,08"},
		{"what a part brings", "parts.toml", "[p.brings.cam.intake]\nlift = \"7,9 mm\"", "2:9 decimal-comma: 7,9"},
		{"near key of a limit", "limits.toml", "[lash.intake]\nnominal = \"1 mm\"\ntolerence = \"1 mm\"", "3:1 unknown-key: tolerence"},
		{"header of a list with one bracket", entryName, headed("[later]\ndo = \"x\""), "2:1 single-bracket: [later]"},
		{"what a list lacks", entryName, headed("[[later]]\ndo = \"x\"\n[[later]]\nafter = \"300 km\""), "4:1 missing-key: [[later]]"},
		{"broken text", entryName, headed("[set]\nlash.intake = 0.10 mm\n"), "3:15 unquoted-value: 0.10 mm"},
		{"cell of a CSV file", "data/a.csv", "path,set\nlash.intake,\"0,08 mm\"\n", "2:14 decimal-comma: 0,08"},
		{"path in a CSV file", "data/a.csv", "path,set\nlash intake,1 mm\n", "2:1 bad-name: lash intake"},
		{"behind doubled quotes in a CSV file", "data/a.csv", "path,set\nx,\"3 \"\"\"\" xq\"\n", "2:6 unknown-unit: \"\"\"\" xq"},
	} {
		t.Run(c.name, func(t *testing.T) {
			lines := []struct{ name, text string }{
				{"as typed", c.text}, {"with a byte order mark", "\uFEFF" + c.text}, {"with Windows line ends", strings.ReplaceAll(c.text, "\n", "\r\n")},
			}
			for _, l := range lines {
				d := decode(c.file, l.text)
				if got := placed(d.findings); got != c.want {
					t.Errorf("%s, in\n%s\nfound\n%s\nwant\n%s\n(said: %s)", l.name, l.text, got, c.want, said(d.findings))
				}
			}
		})
	}
}

// A table stands twice, or a value and a deeper one: the later is underlined, and the first is named.
func TestFindingsNameTheOtherPlace(t *testing.T) {
	for _, c := range []struct{ name, head, want, other string }{
		{"key twice", "title = \"a\"\ntitle = \"b\"", "3:1 defined-twice: title", "2:1 title"},
		{"key twice after folding", "engine-temp = \"1 °C\"\nEngine_Temp = \"2 °C\"", "3:1 defined-twice: Engine_Temp", "2:1 engine-temp"},
		{"path twice after folding", "[set]\nlash.intake = \"1 mm\"\n[set.LASH]\ninlet = \"2 mm\"", "4:6 defined-twice: LASH", "3:1 lash"},
		{"value, then deeper", "[set]\nlash.intake = \"1 mm\"\nlash.intake.left = \"1 mm\"", "4:1 value-and-deeper: lash.intake.left", "3:6 intake"},
		{"deeper in a grid below a value", "[set]\nbore.1.x = \"1 mm\"\nbore.b = \"\"\"\nmm 1.x 1\nc 1 2\n\"\"\"", "6:5 value-and-deeper: 2", "6:3 1"},
		{"a grid twice at a path", "[set]\nbore = \"\"\"\nmm 1.x x\n1 1 2\n1.1 3 4\n\"\"\"", "6:7 defined-twice: 4", "5:3 1"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := decodeHead(c.head)
			if got := placed(d.findings); got != c.want {
				t.Fatalf("in\n%s\nfound\n%s\nwant\n%s", c.head, got, c.want)
			}
			notes := d.findings[0].Notes
			if len(notes) != 1 {
				t.Fatalf("%d places beside it, want one", len(notes))
			}
			line, column, _, _ := notes[0].At.Position()
			if got := fmt.Sprintf("%d:%d %s", line, column, notes[0].At.Text()); got != c.other {
				t.Errorf("the other place is %s, want %s", got, c.other)
			}
		})
	}
}
