package parse

import (
	"slices"
	"testing"

	"example.org/locknut/journal/source"
)

// applied returns a text with the edits of a fix made.
func applied(t *testing.T, text string, fix source.Fix) string {
	t.Helper()
	edits := slices.Clone(fix.Edits)
	slices.SortFunc(edits, func(a, b source.Edit) int { return b.Start - a.Start })
	for _, e := range edits {
		if e.Start < 0 || e.End < e.Start || e.End > len(text) {
			t.Fatalf("fix %q edits %d to %d of a text of %d bytes", fix.Title, e.Start, e.End, len(text))
		}
		text = text[:e.Start] + e.Text + text[e.End:]
	}
	return text
}

// The first fix of a finding mends it: the same text with the fix made gives no finding of any rule, and says what was meant.
func TestTheFirstFixMends(t *testing.T) {
	for _, c := range []struct{ name, file, text, rule, mended string }{
		// Figures.
		{"decimal comma", "build.toml", `engine.bore = "53,0 mm"`, "decimal-comma", `engine.bore = "53.0 mm"`},
		{"decimal comma in single quotes", "build.toml", `engine.bore = '53,0 mm'`, "decimal-comma", `engine.bore = '53.0 mm'`},
		{"decimal comma in three quotes", "build.toml", `engine.bore = """53,0 mm"""`, "decimal-comma", `engine.bore = """53.0 mm"""`},
		{"decimal comma with words", "build.toml", `engine.chamber = "12,9 cm3, dry"`, "decimal-comma", `engine.chamber = "12.9 cm3, dry"`},
		{"leading dot", "build.toml", `engine.deck = ".4 mm"`, "leading-dot", `engine.deck = "0.4 mm"`},
		{"thousands", "build.toml", `engine.redline = "10,500 rpm"`, "thousands", `engine.redline = "10500 rpm"`},
		{"dash for an interval", "build.toml", `power.band = "5000-9500 rpm"`, "range-dash", `power.band = "5000..9500 rpm"`},
		{"long dash for an interval", "build.toml", `power.band = "5000–9500 rpm"`, "range-dash", `power.band = "5000..9500 rpm"`},
		{"`to` for an interval", "build.toml", `power.band = "5000 to 9500 rpm"`, "range-dash", `power.band = "5000..9500 rpm"`},
		{"interval the wrong way round", "build.toml", `power.band = "9500..5000 rpm"`, "reversed-interval", `power.band = "5000..9500 rpm"`},
		{"hours and minutes", entryName, headed("hours = \"5 h 30 min\""), "two-units", headed("hours = \"5.5 h\"")},
		{"hours as a clock shows them", entryName, headed("hours = \"3:30\""), "bad-quantity", headed("hours = \"3.5 h\"")},
		{"bound by a sign", "limits.toml", "[x]\nhigh = \"1 mm\"\nservice = \"<2 mm\"", "rough-figure", "[x]\nhigh = \"1 mm\"\nservice = \"..2 mm\""},
		{"a low bound in words", "limits.toml", "[torque]\nnut = \"80 N·m min\"", "rough-figure", "[torque]\nnut = \"80.. N·m\""},
		{"a high bound in words", "limits.toml", "[torque]\nnut = \"12 N·m max\"", "rough-figure", "[torque]\nnut = \"..12 N·m\""},
		{"a low bound that begins with its words", "limits.toml", "[torque]\nnut = 'at least 80 N·m'", "rough-figure", "[torque]\nnut = '80.. N·m'"},
		{"a high bound that begins with its words", "limits.toml", "[torque]\nnut = \"up to 10 N·m\"", "rough-figure", "[torque]\nnut = \"..10 N·m\""},
		{"a bound in words at a key", "limits.toml", "[x]\nhigh = \"1 mm\"\nservice = \"max 2 mm\"", "rough-figure", "[x]\nhigh = \"1 mm\"\nservice = \"..2 mm\""},
		{"a range in words", "tools.toml", "[wrench]\nrange = \"from 5 to 60 N·m\"", "rough-figure", "[wrench]\nrange = \"5..60 N·m\""},
		{"about", "build.toml", `engine.bore = "~53.0 mm"`, "rough-figure", `engine.bore = "53.0 ± 0.1 mm"`},
		{"no unit in quotes", "build.toml", `engine.bore = "53.0"`, "missing-unit", `engine.bore = "53.0 mm"`},
		{"no unit, bare", "build.toml", `engine.bore = 53.0`, "missing-unit", `engine.bore = "53.0 mm"`},
		{"no unit, bare, in a list", "tools.toml", "[t]\nleaves = [0.05, \"0.10 mm\"]", "missing-unit", "[t]\nleaves = [\"0.05 mm\", \"0.10 mm\"]"},
		{"unit that reads two ways", "build.toml", `engine.chamber = "1 gal"`, "ambiguous-unit", `engine.chamber = "1 US gal"`},
		{"unit of another case", "parts.toml", "[p]\nclaim.torque = \"2 nm\"", "wrong-dimension", "[p]\nclaim.torque = \"2 N·m\""},
		{"curly quotes inside", "build.toml", `engine.bore = "“53 mm”"`, "curly-quotes", `engine.bore = "53 mm"`},
		{"quotes inside", "build.toml", `engine.bore = '"53 mm"'`, "inch-mark", `engine.bore = '53 mm'`},
		{"words without a comma", entryName, headed("[set]\noil.change = \"0.9 L black\""), "bad-quantity", headed("[set]\noil.change = \"0.9 L, black\"")},
		{"a grade", entryName, headed("[set]\noil.grade = \"10W-40\""), "bad-quantity", headed("[set]\noil.grade = \"grade 10W-40\"")},
		{"an escape inside", entryName, headed("[set]\nx = \"8,5 \\u00B5m, \\\"cold\\\" \\\\ dry\""), "decimal-comma", headed("[set]\nx = \"8.5 µm, \\\"cold\\\" \\\\ dry\"")},
		{"inch mark", entryName, headed("[set]\npipe = \"0,25\\\"\""), "decimal-comma", headed("[set]\npipe = \"0.25\\\"\"")},
		{"cell of a grid", entryName, headed("[set]\nbore = \"\"\"\nmm x y\n1 53,01 53.02\n\"\"\""), "decimal-comma", headed("[set]\nbore = \"\"\"\nmm x y\n1 53.01 53.02\n\"\"\"")},
		{"bracket in a grid", entryName, headed("[set]\nbore = \"\"\"\nmm x\n1 53.01-53.02\n\"\"\""), "range-dash", headed("[set]\nbore = \"\"\"\nmm x\n1 53.01..53.02\n\"\"\"")},
		{"what a part brings", "parts.toml", "[p.brings.cam.intake]\nlift = \"7,9 mm\"", "decimal-comma", "[p.brings.cam.intake]\nlift = \"7.9 mm\""},
		{"limit in one line", "limits.toml", "[lash]\nintake = \"0.08-0.12 mm\"", "range-dash", "[lash]\nintake = \"0.08..0.12 mm\""},
		{"money in the units", "build.toml", "[units]\nmoney = \"£\"", "money-unclear", "[units]\nmoney = \"GBP\""},
		{"gallons in the units", "build.toml", "[units]\nvolume = [\"L\", \"gal\"]", "ambiguous-unit", "[units]\nvolume = [\"L\", \"US gal\"]"},

		// Text that TOML can't read.
		{"curly quotes", entryName, headed("title = “Cam in”"), "curly-quotes", headed("title = \"Cam in\"")},
		{"unquoted", entryName, headed("engine-temp = 19 °C"), "unquoted-value", headed("engine-temp = \"19 °C\"")},
		{"unquoted words", entryName, headed("title = Cam in"), "unquoted-value", headed("title = \"Cam in\"")},
		{"unquoted interval", "build.toml", `power.band = 5000..9500 rpm`, "unquoted-value", `power.band = "5000..9500 rpm"`},
		{"inch mark in double quotes", entryName, headed("[set]\npipe = \"copper, 1/4\" bore\""), "inch-mark", headed("[set]\npipe = 'copper, 1/4\" bore'")},
		{"apostrophe in single quotes", entryName, headed("[set]\nx = 'don't'"), "inch-mark", headed("[set]\nx = \"don't\"")},
		{"back-slash", entryName, headed("[[pulls]]\ndata = \"data\\p7.csv\""), "backslash", headed("[[pulls]]\ndata = \"data/p7.csv\"")},
		{"date with strokes, bare", entryName, headed("date = 18/04/2026"), "slash-date", headed("date = 2026-04-18")},
		{"date with strokes", entryName, headed("date = \"18/04/2026\""), "slash-date", headed("date = 2026-04-18")},
		{"date with a zone", entryName, headed("date = 2026-04-18T10:00:00+02:00"), "bad-date", headed("date = 2026-04-18T10:00:00")},
		{"date in quotes with a zone", entryName, headed("date = \"2026-04-18 10:00Z\""), "bad-date", headed("date = 2026-04-18 10:00")},

		// Keys and names.
		{"unknown key", "build.toml", "[engine]\nboer = \"53 mm\"", "unknown-key", "[engine]\nbore = \"53 mm\""},
		{"unknown dimension", "build.toml", "[units]\ntorqe = \"N·m\"", "unknown-key", "[units]\ntorque = \"N·m\""},
		{"unknown table", entryName, headed("[fond]\nx = \"1 mm\""), "unknown-key", headed("[found]\nx = \"1 mm\"")},
		{"near key of a limit", "limits.toml", "[lash]\nnominal = \"1 mm\"\ntolerence = \"0.1 mm\"", "unknown-key", "[lash]\nnominal = \"1 mm\"\ntolerance = \"0.1 mm\""},
		{"unknown word", "limits.toml", "[x]\nexpect = \"y\"\nthreads = 'oild'", "unknown-word", "[x]\nexpect = \"y\"\nthreads = \"oiled\""},
		{"blank in a name", "parts.toml", "[p]\nneeds = [\"more fuel\"]", "bad-name", "[p]\nneeds = [\"more-fuel\"]"},
		{"blank in a path", entryName, headed("expects = \"torque.head bolt\""), "bad-name", headed("expects = \"torque.head-bolt\"")},
		{"single bracket", entryName, headed("[accept]\nfinding = \"worn\"\nwhy = \"w\""), "single-bracket", headed("[[accept]]\nfinding = \"worn\"\nwhy = \"w\"")},
		{"misplaced key", entryName, headed("title = \"x\"\n[set]\ny = \"1 mm\"\nfitted = [\"cam\"]"), "misplaced-key", headed("fitted = [\"cam\"]\ntitle = \"x\"\n[set]\ny = \"1 mm\"\n")},
		{"misplaced key with a comment", entryName, headed("[[later]]\ndo = \"x\"\n  tags = \"a\"  # mine"), "misplaced-key", headed("tags = \"a\"\n[[later]]\ndo = \"x\"\n    # mine")},
		{"misplaced list over lines", entryName, headed("[set]\nwith = [\n  \"feeler\",\n]\ny = \"1 mm\""), "misplaced-key", headed("with = [\n  \"feeler\",\n]\n[set]\n\ny = \"1 mm\"")},

		// CSV files.
		{"decimal comma in a CSV file", "data/a.csv", "path,set\nx,\"0,08 mm\"\n", "decimal-comma", "path,set\nx,0.08 mm\n"},
		{"leading dot in a CSV file", "data/a.csv", "path;set\nx;,08 mm\ny;.08 mm\n", "leading-dot", "path;set\nx;,08 mm\ny;0.08 mm\n"},
		{"words in a CSV file", "data/a.csv", "path,set\nx,0.9 L black\n", "bad-quantity", "path,set\nx,\"0.9 L, black\"\n"},
		{"doubled quotes in a CSV file", "data/a.csv", "path,set\nx,\"0,9 L, \"\"black\"\"\"\n", "decimal-comma", "path,set\nx,\"0.9 L, \"\"black\"\"\"\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := decode(c.file, c.text)
			if len(d.findings) != 1 || d.findings[0].Rule != c.rule || len(d.findings[0].Fixes) == 0 {
				t.Fatalf("in\n%s\nfound\n%s\nwant one %s with a fix", c.text, placed(d.findings), c.rule)
			}
			mended := applied(t, c.text, d.findings[0].Fixes[0])
			if mended != c.mended {
				t.Errorf("%s mends it to\n%s\nwant\n%s", d.findings[0].Fixes[0].Title, mended, c.mended)
			}
			wantNothingFound(t, decode(c.file, mended))
		})
	}
}

// A fix that would break the text, lose something or be none is not offered.
func TestFixesThatAreNotOffered(t *testing.T) {
	for _, c := range []struct{ name, file, text, want string }{
		{"misplaced in braces", entryName, headed("spent = { for = \"x\", price = 1, tags = \"a\" }"), "misplaced-key: tags"},
		{"misplaced first in braces", entryName, headed("spent = { tags = \"a\", for = \"x\", price = 1 }"), "misplaced-key: tags"},
		{"misplaced at the end of a dotted key", entryName, headed("[[pulls]]\nair.tags = \"a\""), "misplaced-key: tags"},
		{"misplaced though it stands above as well", entryName, headed("tags = \"a\"\n[set]\ntags = \"b\""), "misplaced-key: tags"},
		{"misplaced table", entryName, headed("[set]\n[set.accept]\nwhy = \"x\""), "misplaced-key: accept"},
		{"about, in a grid, where blanks part cells", entryName, headed("[set]\nbore = \"\"\"\nmm x\n1 ~53.0\n\"\"\""), "rough-figure: ~"},
		{"a name of nothing", entryName, headed("tags = \"?\""), "bad-name: \"?\""},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := decode(c.file, c.text)
			wantFound(t, d, c.want)
			for _, f := range d.findings {
				for _, fix := range f.Fixes {
					t.Errorf("%s offers %q", f.Rule, fix.Title)
				}
			}
		})
	}
}

// Words where a figure is due are told what a figure looks like.
func TestWordsForAFigureAreShownOne(t *testing.T) {
	for _, c := range []struct{ name, file, text, do string }{
		{"a temperature", entryName, headed("engine-temp = \"cold\""), "write a figure, as in `\"18 °C\"`: engine temperature during the work"},
		{"a temperature of a value", entryName, headed("[set]\nx = { value = \"1 mm\", engine-temp = \"cold\" }"), "write a figure, as in `\"18 °C\"`: engine temperature while reading"},
		{"a temperature in a CSV file", "data/a.csv", "path,set,engine-temp\nx,1 mm,cold\n", "write a number with its unit, as in `18 °C`"},
		{"hours", entryName, headed("hours = \"long\""), "write a figure, as in `\"3.5 h\"`: time that the work took"},
		{"one of several dimensions", "parts.toml", "[x]\nevery = \"often\"", "how long it may run: distance, hours, months of its own"},
		{"a ratio", "build.toml", "drive.primary = \"short\"", "primary ratio, driven over driver"},
	} {
		d := decode(c.file, c.text)
		if len(d.findings) != 1 || d.findings[0].Rule != "bad-quantity" || d.findings[0].Do != c.do {
			t.Errorf("%s: found\n%+v\nwant one bad-quantity that says %s", c.name, d.findings, c.do)
		}
	}
}
