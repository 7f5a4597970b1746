package parse

import "testing"

func TestReadings(t *testing.T) {
	for _, c := range []struct{ name, text, want, found string }{
		{"a figure", "x = \"1 mm\"", "set x = 0.001 length", ""},
		{"three quotes on one line", "x = \"\"\"1 mm\"\"\"", "set x = 0.001 length", ""},
		{"three quotes with a line end", "x = '''\n1 mm\n'''", "set x = 0.001 length", ""},
		{"by header", "[set.lash.intake]\nleft = \"1 mm\"", "set lash.intake.left = 0.001 length", ""},
		{"in braces", "lash = { intake = { left = \"1 mm\" } }", "set lash.intake.left = 0.001 length", ""},
		{"folded", "Lash.INLET.Left_One = \"1 mm\"", "set lash.intake.left-one = 0.001 length", ""},
		{"numbers as names", "bore.1.2 = \"1 mm\"", "set bore.1.2 = 0.001 length", ""},
		{"letters of other scripts", "\"größe\" = \"1 mm\"", "set größe = 0.001 length", ""},
		{"a bare number keeps its digits", "x = 10.90", "set x = slip no-unit", ""},
		{"not measured", "x = \"-\"\ny = \"–\"", "set x = blank\nset y = blank", ""},
		{"empty", "x = \"\"", "set x = blank", `empty-value: ""`},
		{"words", "x = \"aligned\"", "set x = \"aligned\"", ""},
		{"words behind a comma", "x = \"10 N·m, by feel\"", "set x = 10 torque \"by feel\"", ""},

		{"repeats", "x = [\"1 mm\", \"2 mm\"]", "set x = [0.001 length; 0.002 length]", ""},
		{"one repeat is a reading", "x = [\"1 mm\"]", "set x = 0.001 length", ""},
		{"repeats with details", "x = { value = [\"1 mm\", \"2 mm\"], note = \"n\" }", "set x = [0.001 length; 0.002 length] {note \"n\"}", ""},
		{"no repeat", "x = []", "set x unread", "wrong-kind: []"},
		{"words among repeats", "x = [\"1 mm\", \"ok\"]", "set x unread", `bad-quantity: "ok"`},
		{"a blank among repeats", "x = [\"1 mm\", \"\"]", "set x unread", `bad-quantity: ""`},
		{"a list among repeats", "x = [\"1 mm\", [\"2 mm\"]]", "set x unread", `wrong-kind: ["2 mm"]`},
		{"a table among repeats", "x = [{ value = \"1 mm\" }]", "set x unread", `wrong-kind: { value = "1 mm" }`},
		{"a bad figure among repeats", "x = [\"1 mm\", \"0,2 mm\"]", "set x unread", "decimal-comma: 0,2"},

		{"details by header", "[set.x]\nvalue = \"1 mm\"\nwith = \"feeler\"", "set x = 0.001 length {with feeler}", ""},
		{"details by dots", "x.value = \"1 mm\"\nx.note = \"n\"", "set x = 0.001 length {note \"n\"}", ""},
		{"details folded", "x = { Value = \"1 mm\", Engine_Temp = \"20 °C\" }", "set x = 0.001 length {engine-temp 293.15 temperature}", ""},
		{"details without a value", "x = { note = \"n\" }", "set x unread", `missing-key: { note = "n" }`},
		{"a value twice after folding", "x = { value = \"1 mm\", Value = \"2 mm\" }", "set x = 0.001 length {}", "defined-twice: Value"},
		{"a value and words", "x = { value = \"1 mm\", words = \"10W-40\" }", "set x unread", "defined-twice: words"},
		{"a deeper path beside a value", "x = { value = \"1 mm\", left = \"2 mm\" }", "set x unread", "unknown-key: left"},
		{"a mistyped detail", "x = { value = \"1 mm\", adaptor = \"3 mm\" }", "set x unread", "unknown-key: adaptor"},
		{"a mistyped value", "x = { valu = \"1 mm\", note = \"n\" }", "set x unread", "unknown-key: valu"},
		{"a mistyped detail of words", "x = { words = \"10W-40\", nots = \"n\" }", "set x unread", "unknown-key: nots"},
		{"the angle of no adapter", "x = { value = \"1 N·m\", adapter-angle = \"90°\" }", "set x unread", "missing-key: adapter-angle"},
		{"the angle of an adapter that can't be read", "x = { value = \"1 N·m\", adapter = \"3\", adapter-angle = \"90°\" }", "set x unread", "missing-unit: 3"},
		{"more than a turn", "x = { value = \"1 N·m\", adapter = \"3 mm\", adapter-angle = \"900°\" }", "set x unread", "bad-quantity: 900°"},
		{"more than a turn back", "x = { value = \"1 N·m\", adapter = \"3 mm\", adapter-angle = \"-361°\" }", "set x unread", "bad-quantity: -361°"},
		{"a turn", "x = { value = \"1 N·m\", adapter = \"3 mm\", adapter-angle = \"-360°\" }", "set x = 1 torque {adapter 0.003 length, adapter-angle -6.28319 angle}", ""},
		{"a table as value", "x = { value = { a = \"1 mm\" } }", "set x unread", `wrong-kind: { a = "1 mm" }`},
		{"a bad figure with details", "x = { value = \"0,1 mm\", note = \"n\" }", "set x unread", "decimal-comma: 0,1"},
		{"a bad detail", "x = { value = \"1 mm\", adapter = \"3 kg\" }", "set x unread", "wrong-dimension: kg"},

		{"true or false", "x = true", "set x unread", "wrong-kind: true"},
		{"a date", "x = 2026-04-18", "set x unread", "wrong-kind: 2026-04-18"},
		{"not a number", "x = nan", "set x unread", "bad-number: nan"},
		{"infinity", "x = -inf", "set x unread", "bad-number: -inf"},
		{"hexadecimal", "x = 0x10", "set x unread", "bad-number: 0x10"},
		{"a list of tables", "[[set.x]]\nvalue = \"1 mm\"", "", "wrong-kind: set.x"},
		{"an empty table", "x = {}", "", "empty-value: {}"},
		{"a grade", "x = \"10W-40\"", "set x unread", "bad-quantity: 10W-40"},

		{"a path in quotes", "\"lash.intake\" = \"1 mm\"", "", `bad-name: "lash.intake"`},
		{"a blank in quotes", "\"head bolt\" = \"1 mm\"", "", `bad-name: "head bolt"`},
		{"an empty name", "\"\" = \"1 mm\"", "", `bad-name: ""`},
		{"a dash for a name", "x.- = \"1 mm\"", "", "bad-name: -"},
		{"found as a segment", "x.found = \"1 mm\"", "", "unknown-key: found"},
		{"set as a segment", "set.x = \"1 mm\"", "", "misplaced-key: set"},
		{"value at the root", "value = \"1 mm\"", "", "unknown-key: value"},
		{"a detail at the root", "adapter = \"1 mm\"", "", "unknown-key: adapter"},
		{"two spellings of a segment", "lash.intake = \"1 mm\"\nLash.exhaust = \"1 mm\"", "set lash.intake = 0.001 length", "defined-twice: Lash"},
		{"two spellings of a path", "lash.intake = \"1 mm\"\nlash.inlet = \"2 mm\"", "set lash.intake = 0.001 length", "defined-twice: inlet"},
		{"an entry's key", "fitted = [\"cam\"]", "", "misplaced-key: fitted"},
		{"an entry's key by dots", "later.do = \"x\"", "", "misplaced-key: later"},
		{"an entry's word deeper down", "oil.date = \"1 mm\"", "set oil.date = 0.001 length", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := c.text
			if text[0] != '[' {
				text = "[set]\n" + text
			}
			d := decodeHead(text)
			wantFound(t, d, c.found)
			if got := shownReadings(d.readings); got != c.want {
				t.Errorf("in\n%s\nread\n%s\nwant\n%s", text, got, c.want)
			}
		})
	}
}

// In one table a path holds a value or deeper paths, never both, in whatever order and spelling: each of the two may be lost else.
func TestAValueAndADeeperOne(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"value first", "lash.intake = \"1 mm\"\nlash.intake.left = \"2 mm\"", "value-and-deeper: lash.intake.left"},
		{"deeper first", "lash.intake.left = \"2 mm\"\nlash.intake = \"1 mm\"", "value-and-deeper: lash.intake"},
		{"two deeper", "lash = \"1 mm\"\nlash.intake.left = \"2 mm\"", "value-and-deeper: lash.intake.left"},
		{"by header", "lash = \"1 mm\"\n[set.lash]\nintake = \"2 mm\"", "defined-twice: set.lash"},
		{"in braces", "lash = { intake = \"1 mm\", intake.left = \"2 mm\" }", "value-and-deeper: intake.left"},
		{"in another spelling", "lash.intake = \"1 mm\"\nlash.inlet.left = \"2 mm\"", "defined-twice: inlet"},
		{"a grid's cell below a value", "bore.1 = \"\"\"\nmm x x.y\nb 1 2\n\"\"\"", "value-and-deeper: 2"},
		{"a grid's cell above another grid's", "bore.1.b.x.q = \"1 mm\"\nbore.B = \"\"\"\nmm x\nb 1\n\"\"\"\nbore.1.c = \"\"\"\nmm x\n1 1\n\"\"\"", ""},
		{"in two tables of their own", "[found]\nlash = \"1 mm\"\n[set]\nlash.intake = \"1 mm\"", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := c.text
			if text[0] != '[' {
				text = "[set]\n" + text
			}
			wantFound(t, decodeHead(text), c.want)
		})
	}
}

func TestNamesAreFolded(t *testing.T) {
	for typed, want := range map[string]string{
		"Head_Bolt": "head-bolt", "LASH.Inlet.Left": "lash.intake.left", "inlets.x": "inlets.x", "Cam.Inlet.Center": "cam.intake.centre", "timing.dead_center": "timing.dead-centre", "torque.center-nut": "torque.center-nut", " cam ": "cam", "ÖL.Stand": "öl.stand", "": "",
	} {
		if got := FoldPath(typed); got != want {
			t.Errorf("%q is %q, want %q", typed, got, want)
		}
	}
}

// One item will do where a list is due, and two brackets where one list stands.
func TestOneItemForAList(t *testing.T) {
	for _, c := range []struct{ name, head, key, want string }{
		{"a name", `fitted = "cam"`, "fitted", "cam"},
		{"a list of one", `fitted = ["cam"]`, "fitted", "cam"},
		{"a table in braces", `accept = { finding = "worn", why = "w" }`, "accept", `{finding worn, why "w"}`},
		{"tables in braces", `later = [{ do = "a" }, { do = "b" }]`, "later", `{do "a"}, {do "b"}`},
		{"tables by header", "[[later]]\ndo = \"a\"\n[[later]]\ndo = \"b\"", "later", `{do "a"}, {do "b"}`},
		{"keys by dots", "later.do = \"a\"\nlater.after = \"3 h\"", "later", `{do "a", after 10800 time}`},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := decodeHead(c.head)
			wantNothingFound(t, d)
			if got := shownField(d.fields.Get(c.key)); got != c.want {
				t.Errorf("decoded %s, want %s", got, c.want)
			}
		})
	}
}

// What could be read of a list is kept, and the key counts as not wholly read: nothing may be concluded from what isn't there.
func TestListsThatAreRightInPart(t *testing.T) {
	for _, c := range []struct{ name, head, key, want, found string }{
		{"names", `fitted = ["cam", "head bolt", "pipe"]`, "fitted", "cam, pipe", `bad-name: "head bolt"`},
		{"tables", `later = [{ do = "a" }, "b"]`, "later", `{do "a"}`, `wrong-kind: "b"`},
		{"figures", `pulls = { peak = ["1 kW", "2,0 kW", "3 kW"] }`, "pulls.peak", "1000 power, 3000 power", "decimal-comma: 2,0"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := decodeHead(c.head)
			wantFound(t, d, c.found)
			f := fieldAt(d.fields, c.key)
			if f == nil {
				t.Fatal("nothing was decoded")
			}
			if got := shownField(f); got != c.want {
				t.Errorf("decoded %s, want %s", got, c.want)
			}
			table := d.fields
			if c.key == "pulls.peak" {
				table = &d.fields.Get("pulls").Tables[0]
			}
			if !table.IsBad(f.Key.Name) {
				t.Errorf("`%s` counts as wholly read", c.key)
			}
		})
	}
}

func TestFieldsOfNothing(t *testing.T) {
	var none *Fields
	if none.Get("x") != nil || !none.Text("x").IsZero() || none.Texts("x") != nil || none.Value("x") != nil || none.Values("x") != nil ||
		!none.Name("x").IsZero() || none.Names("x") != nil || none.Table("x") != nil || none.Tables("x") != nil || none.IsBad("x") {
		t.Error("fields of a head that can't be read hold something")
	}
	if _, ok := none.Whole("x"); ok {
		t.Error("fields of a head that can't be read hold a number")
	}
}
