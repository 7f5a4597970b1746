package parse

import (
	"strings"
	"testing"
)

func TestLimitTrees(t *testing.T) {
	for _, c := range []struct{ name, text, want, found string }{
		{"in one line", "[lash]\nintake = \"0.08 ± 0.02 mm\"", "lash.intake = 8e-05±2e-05 length", ""},
		{"in one line, an interval", "[oil]\npressure = \"300..500 kPa\"", "oil.pressure = 300000..500000 pressure", ""},
		{"in one line, words", "[timing]\nmarks = \"aligned\"", "timing.marks = \"aligned\"", ""},
		{"in one line, steps", "[torque]\nhead-bolt = \"20 N·m then 90°\"", "torque.head-bolt = 2 steps, last 1.5708 angle", ""},
		{"in one line, deeper", "[lash]\nintake.left = \"0.08 mm\"\nintake.right = \"0.09 mm\"", "lash.intake.left = 8e-05 length\nlash.intake.right = 9e-05 length", ""},
		{"in one line, at the root by dots", "lash.intake = \"0.08 mm\"", "lash.intake = 8e-05 length", ""},
		{"in one line, at the root", "squish = \"0.8..1.0 mm\"", "squish = 0.0008..0.001 length", ""},
		{"keys", "[lash.intake]\nnominal = \"0.08 mm\"\ntolerance = \"0.02 mm\"", "lash.intake {nominal 8e-05 length, tolerance 2e-05 length}", ""},
		{"keys beside a deeper path", "[lash]\nbasis = \"label\"\nintake = \"0.08 mm\"", "lash {basis \"label\"}\nlash.intake = 8e-05 length", ""},
		{"keys by dots", "lash.intake.nominal = \"0.08 mm\"", "lash.intake {nominal 8e-05 length}", ""},
		{"keys in braces", "lash = { basis = \"label\", intake = { low = \"1 mm\" } }", "lash {basis \"label\"}\nlash.intake {low 0.001 length}", ""},
		{"the deeper table first", "[lash.intake]\nlow = \"1 mm\"\n[lash]\nbasis = \"label\"", "lash {basis \"label\"}\nlash.intake {low 0.001 length}", ""},
		{"parents that no line writes", "[gap.ring.left.top]\nlow = \"0.15 mm\"", "gap.ring.left.top {low 0.00015 length}", ""},
		{"a parent implied by two", "[gap.ring]\nlow = \"1 mm\"\n[gap.plug]\nhigh = \"2 mm\"", "gap.ring {low 0.001 length}\ngap.plug {high 0.002 length}", ""},
		{"folded", "[Lash.Inlet]\nLOW = \"1 mm\"\nCold_Side = \"2 mm\"", "lash.intake {low 0.001 length}\nlash.intake.cold-side = 0.002 length", ""},
		{"when as a table of its own", "[lash.when]\nengine-temp = \"..35 °C\"", "lash {when {engine-temp -Inf..308.15 temperature}}", ""},
		{"a table without anything", "[lash]", "", ""},

		{"a spark plug is not a mistyped plus", "[torque]\nplug = \"18 N·m\"", "torque.plug = 18 torque", ""},
		{"beside a nominal it is", "[torque.x]\nnominal = \"1 N·m\"\nplug = \"18 N·m\"", "torque.x {nominal 1 torque}", "unknown-key: plug"},
		{"plug gap is a known path", "[gap]\nplug = \"0.7 mm\"", "gap.plug = 0.0007 length", ""},
		{"tolerence", "[lash]\nnominal = \"1 mm\"\ntolerence = \"1 mm\"", "lash {nominal 0.001 length}", "unknown-key: tolerence"},
		{"nominel", "[lash.intake]\nnominel = \"1 mm\"", "", "unknown-key: nominel"},
		{"expct", "[lash.intake]\nexpct = \"aligned\"", "", "unknown-key: expct"},
		{"basiss", "[lash.intake]\nbasiss = \"label\"", "", "unknown-key: basiss"},
		{"hihg", "[lash.intake]\nhihg = \"1 mm\"", "", "unknown-key: hihg"},
		{"evry, a list", "[lash]\nevry = [\"12 months\"]", "", "unknown-key: evry"},

		{"a condition outside `when`", "[lash]\nengine-temp = \"..35 °C\"\nintake = \"1 mm\"", "lash.intake = 0.001 length", "unknown-key: engine-temp"},
		{"a condition as a table", "[lash.engine-temp]\nhigh = \"35 °C\"", "", "unknown-key: engine-temp"},
		{"a path that no reading can have", "[lash.set]\nlow = \"1 mm\"", "", "unknown-key: set"},
		{"a value, as in readings", "[lash.intake]\nvalue = \"1 mm\"", "", "unknown-key: value"},
		{"a key at the root", "basis = \"manual\"\n[lash]\nintake = \"1 mm\"", "lash.intake = 0.001 length", "unknown-key: basis"},
		{"a key that is a table at the root", "[order]\nlow = \"1 mm\"", "", "unknown-key: order"},
		{"a key that is a table", "[lash.title]\nlow = \"1 mm\"", "", "unknown-key: title"},
		{"when that is words", "[lash]\nwhen = \"cold\"", "lash unread", "wrong-kind: \"cold\""},
		{"when with another key", "[lash]\nwhen = { oil-temp = \"1 °C\" }", "lash {when {}}", "unknown-key: oil-temp"},
		{"an array at a path", "[lash]\nintake = [\"1 mm\"]", "lash.intake unread", "unknown-key: intake"},
		{"a number at a path", "[lash]\nintake = 0.1", "lash.intake unread", "wrong-kind: 0.1"},
		{"a list of tables", "[[lash]]\nintake = \"1 mm\"", "lash unread", "unknown-key: lash"},
		{"a bad figure in one line", "[lash]\nintake = \"0,1 mm\"\nexhaust = \"0.1 mm\"", "lash.intake unread\nlash.exhaust = 0.0001 length", "decimal-comma: 0,1"},
		{"a bad figure at a key", "[lash.intake]\nnominal = \"0,1 mm\"", "lash.intake unread", "decimal-comma: 0,1"},
		{"a bound in words behind a figure", "[torque]\nnut = \"80 N·m min\"", "torque.nut unread", "rough-figure: min"},
		{"a bound in words before a figure", "[torque]\nnut = \"not more than 10 N·m\"", "torque.nut unread", "rough-figure: not more than"},
		{"a bound in words behind a comma", "[torque]\nnut = \"12 N·m, max\"", "torque.nut unread", "rough-figure: max"},
		{"a bound in words at a key", "[torque.nut]\nnominal = \"at least 80 N·m\"", "torque.nut unread", "rough-figure: at least"},
		{"words that bound nothing", "[oil]\nlevel = \"from the upper mark down\"", "oil.level = \"from the upper mark down\"", ""},
		{"an empty one", "[lash]\nintake = \"\"", "", "empty-value: \"\""},
		{"a path twice after folding", "[lash]\nintake = \"1 mm\"\nInlet = \"2 mm\"", "lash.intake = 0.001 length", "defined-twice: Inlet"},
		{"a blank in a path", "[torque]\n\"head bolt\" = \"20 N·m\"", "", "bad-name: \"head bolt\""},
		{"dots in quotes", "\"lash.intake\" = \"1 mm\"", "", "bad-name: \"lash.intake\""},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := decode("limits.toml", c.text)
			wantFound(t, d, c.found)
			if got := shownLimits(d.limits); got != c.want {
				t.Errorf("in\n%s\ndecoded\n%s\nwant\n%s", c.text, got, c.want)
			}
			part := decode("parts.toml", inPart(c.text))
			if c.found == "" && !strings.HasPrefix(c.name, "in one line, at the root") {
				wantNothingFound(t, part)
			}
		})
	}
}

// inPart returns a text of limits as the limits of a part.
func inPart(text string) string {
	text = strings.ReplaceAll(text, "\n[", "\n[p.limits.")
	if rest, ok := strings.CutPrefix(text, "["); ok {
		return "[p.limits." + rest
	}
	return "[p.limits]\n" + text
}

// What can't be read at a limit must not leave it as if it had never been written, nor as if it were whole.
func TestLimitFileThatIsBrokenIsNotRead(t *testing.T) {
	for text, want := range map[string]bool{"[lash]\nintake = \"1 mm\"": true, "": true, "[lash]\nintake = 1 mm": false, "[lash\n": false} {
		file, _ := DecodeLimits(decode("limits.toml", text).file)
		if file.Read != want {
			t.Errorf("%q read %v, want %v", text, file.Read, want)
		}
	}
	parts, _ := DecodeParts(decode("parts.toml", "[p\n").file)
	tools, _ := DecodeTools(decode("tools.toml", "[t\n").file)
	if parts.Read || tools.Read {
		t.Errorf("broken files of parts and tools read %v, %v; want neither", parts.Read, tools.Read)
	}
}

func TestUnitsThatTheSiteLeadsWith(t *testing.T) {
	for _, c := range []struct{ text, want, found string }{
		{`torque = "Nm"`, "torque: N·m", ""},
		{`torque = ["N·m", "ft-lb"]`, "torque: N·m lbf·ft", ""},
		{`spring-rate = "N/mm"`, "spring rate: N/mm", ""},
		{`temperature = "F"`, "temperature: °F", ""},
		{`money = "SEK"`, "money: SEK SEK", ""},
		{`money = "€"`, "money: EUR EUR", ""},
		{`volume = "imp gal"`, "volume: imp gal", ""},
		{`torque = "mm"`, "torque:", `unknown-unit: "mm"`},
		{`torque = ["N·m", "furlongs"]`, "torque:", `unknown-unit: "furlongs"`},
		{`torque = []`, "torque:", `wrong-kind: []`},
		{`money = []`, "money:", `wrong-kind: []`},
		{`money = "$"`, "money:", `money-unclear: "$"`},
		{`money = "kr"`, "money:", `money-unclear: "kr"`},
		{`volume = "pt"`, "volume:", `ambiguous-unit: "pt"`},
		{`torque = 5`, "torque:", `wrong-kind: 5`},
		{`torque = { a = "N·m" }`, "torque:", `wrong-kind: { a = "N·m" }`},
		{`twist = "N·m"`, "", `unknown-key: twist`},
	} {
		d := decode("build.toml", "[units]\n"+c.text)
		wantFound(t, d, c.found)
		if got := shownField(d.fields.Get("units")); got != c.want {
			t.Errorf("%s\ndecoded %q\nwant    %q", c.text, got, c.want)
		}
	}
}

// Counts worked out by hand: (high − low) / step + 1.
func TestShimSizes(t *testing.T) {
	for _, c := range []struct{ typed, want, found string }{
		{`"1.20..3.50 mm by 0.05"`, "47 sizes, 0.0012 to 0.0035", ""},
		{`"1.20..3.50 mm by 0.05 mm"`, "47 sizes, 0.0012 to 0.0035", ""},
		{`"1.2 mm..3.5 mm by 0.1"`, "24 sizes, 0.0012 to 0.0035", ""},
		{`"0.1..0.3 mm by 0.1"`, "3 sizes, 0.0001 to 0.0003", ""}, // 0.2/0.1 is not 2 in binary
		{`"1..5.99 mm by 0.01"`, "500 sizes, 0.001 to 0.00599", ""},
		{`"2..2 mm by 0.05"`, "1 sizes, 0.002 to 0.002", ""},
		{`"0.05..0.15 in by 0.05"`, "3 sizes, 0.00127 to 0.00381", ""},
		{`["2.35 mm", "0.1 in"]`, "2 sizes, 0.00235 to 0.00254", ""},
		{`"1..6 mm by 0.01"`, "", "bad-quantity"},
		{`"1.20..3.50 mm by 0.07"`, "", "bad-quantity"},
		{`"1.20..3.50 mm"`, "", "bad-quantity"},
		{`"1.20..3.50 mm by 0"`, "", "bad-quantity"},
		{`"1.20..3.50 mm by -0.05"`, "", "bad-quantity"},
		{`"1.20..3.50 mm by inf"`, "", "bad-quantity"},
		{`"1.20..3.50 mm by 0x1p-4"`, "", "bad-quantity"},
		{`"1.20..3.50 mm by nan"`, "", "bad-quantity"},
		{`"1.20..3.50 mm by 1e-300"`, "", "bad-quantity"},
		{`"1.20..3.50 mm by 0,05"`, "", "bad-quantity"},
		{`"1.20..3.50 mm by 2 thou"`, "", "bad-quantity"},
		{`"1.20..3.50 kg by 0.05"`, "", "bad-quantity"},
		{`"1.20..3.50 by 0.05"`, "", "bad-quantity"},
		{`"..3.50 mm by 0.05"`, "", "bad-quantity"},
		{`"3.50..1.20 mm by 0.05"`, "", "bad-quantity"},
		{`"2.35 mm by 0.05"`, "", "bad-quantity"},
		{`""`, "", "bad-quantity"},
		{`["2.35"]`, "", "missing-unit"},
		{`[]`, "", "wrong-kind"},
		{`2.35`, "", "wrong-kind"},
	} {
		d := decode("build.toml", `engine.adjuster = { kind = "shim", sizes = `+c.typed+` }`)
		rules := ""
		for _, f := range d.findings {
			rules += f.Rule
		}
		if rules != c.found {
			t.Errorf("%s\nfound %q (%s), want %q", c.typed, rules, said(d.findings), c.found)
		}
		got := ""
		if f := fieldAt(d.fields, "engine.adjuster.sizes"); f != nil {
			got = shownField(f)
			if len(f.Figures) > 0 {
				got = got[strings.LastIndex(got, ", 2 sizes")+2:]
			}
		}
		if got != c.want {
			t.Errorf("%s\ndecoded %q\nwant    %q", c.typed, got, c.want)
		}
	}
}

func TestCylinders(t *testing.T) {
	for _, c := range []struct{ typed, want, found string }{
		{`1`, "1", ""},
		{`2`, "1, 2, 2", ""},
		{`4`, "1, 2, 3, 4, 4", ""},
		{`["left", "right"]`, "left, right, 2", ""},
		{`["Front", "Rear_One"]`, "front, rear-one, 2", ""},
		{`"single"`, "single, 1", ""},
		{`[]`, "", "wrong-kind: []"},
		{`0`, "", "wrong-kind: 0"},
		{`-1`, "", "wrong-kind: -1"},
		{`49`, "", "wrong-kind: 49"},
		{`0x4`, "", "wrong-kind: 0x4"},
		{`2.0`, "", "wrong-kind: 2.0"},
		{`["left", "Left"]`, "", `defined-twice: "Left"`},
		{`["left", "the right"]`, "", `bad-name: "the right"`},
		{`["left", 2]`, "", "wrong-kind: 2"},
		{`[1, 2]`, "", "wrong-kind: 1\nwrong-kind: 2"},
	} {
		d := decode("build.toml", "engine.cylinders = "+c.typed)
		wantFound(t, d, c.found)
		got := ""
		if f := fieldAt(d.fields, "engine.cylinders"); f != nil {
			got = shownField(f)
		}
		if got != c.want {
			t.Errorf("%s\ndecoded %q\nwant    %q", c.typed, got, c.want)
		}
	}
}

func TestOrders(t *testing.T) {
	for _, c := range []struct{ typed, want, found string }{
		{`"5 6 4 7 3 8 2 1"`, `"5 6 4 7 3 8 2 1"`, ""},
		{`"1,2,3"`, `"1 2 3"`, ""},
		{`"1-2-3"`, `"1 2 3"`, ""},
		{`"1"`, `"1"`, ""},
		{"\"\"\"\n2 1\n4 3\n\"\"\"", `"2 1 4 3"`, ""},
		{`"1 2 2"`, "", "bad-order: 2"},
		{`"1 3"`, "", `bad-order: "1 3"`},
		{`"0 1"`, "", "bad-order: 0"},
		{`"1 two"`, "", "bad-order: two"},
		{`"1 2.5"`, "", "bad-order: 2.5"},
		{`"1 99999999999999999999"`, "", "bad-order: 99999999999999999999"},
		{`""`, "", `empty-value: ""`},
		{`" - "`, "", `bad-order: " - "`},
		{`[1, 2]`, "", "wrong-kind: [1, 2]"},
		{`12`, "", "wrong-kind: 12"},
	} {
		d := decode("limits.toml", "[torque.x]\nlow = \"1 N·m\"\norder = "+c.typed)
		wantFound(t, d, c.found)
		got := ""
		if f := d.fields.Get("order"); f != nil {
			got = shownField(f)
		}
		if got != c.want {
			t.Errorf("%s\ndecoded %q\nwant    %q", c.typed, got, c.want)
		}
	}
}
