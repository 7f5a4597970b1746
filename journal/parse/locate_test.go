package parse

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"example.org/locknut/journal/source"
)

// locatePrinted prints what was located, a line a key: its path, kind and value, in the order of the text.
func locatePrinted(root *node) string {
	var b strings.Builder
	var walk func(path string, n *node)
	walk = func(path string, n *node) {
		for i, item := range n.items {
			walk(fmt.Sprintf("%s[%d]", path, i), item)
		}
		for _, k := range n.keys {
			walk(strings.TrimPrefix(path+"."+k.key, "."), k)
		}
		if len(n.keys)+len(n.items) == 0 && n != root {
			fmt.Fprintf(&b, "%s=%s|", path, n.text)
		}
	}
	walk("", root)
	return b.String()
}

// locateBroken prints breaks as `kind@text`.
func locateBroken(breaks []tomlBreak) string {
	var all []string
	for _, b := range breaks {
		all = append(all, b.kind+"@"+b.at.Text())
	}
	return strings.Join(all, " ; ")
}

func TestLocateBreaks(t *testing.T) {
	for _, c := range []struct{ name, text, breaks, keys string }{
		{"nothing wrong", "a = 1\n[set]\nb.c = 'x'", "", "a=1|set.b.c=x|"},
		{"no text", "", "", ""},
		{"lists on lines of their own", "a = [\n[1],\n[true],\n[1.5],\n['x'],\n[[2026-04-18]]\n]\nb = [\n['x'],\n[1.5]\n]", "",
			"a[0][0]=1|a[1][0]=true|a[2][0]=1.5|a[3][0]=x|a[4][0][0]=2026-04-18|b[0][0]=x|b[1][0]=1.5|"},

		{"quote forgotten", "title = \"Cam in\nmeter = 18240\n", "unclosed-string@\"Cam in", "title=\"Cam in|meter=18240|"},
		{"quote forgotten inside a table", "c = { value = \"9 N·m, with = \"feeler\" }\nd = 1\n", "inch-mark@\"9 N·m, with = \"feeler\"",
			"c.value=\"9 N·m, with = \"feeler\"|d=1|"},
		{"quote forgotten in a list", "tags = [\"a, b]\nd = 1", "unclosed-string@\"a, b]", "tags[0]=\"a, b]|d=1|"},
		{"grid not closed", "bore = \"\"\"\nmm x y\n1 70.02 70.03\n[set]\nlash = '1 mm'\n", `unclosed-string@"""`, "bore=\"\"\"|set.lash=1 mm|"},
		{"grid not closed above another", "bore = \"\"\"\nmm x\n1 70.02\npin = \"\"\"\nmm x\n1 14.99\n\"\"\"\nd = 1\n", `unclosed-string@"""`,
			"bore=\"\"\"|pin=mm x\n1 14.99\n|d=1|"},
		{"folders below a text not closed", "note = \"\"\"\nx\n[set]\na = 'C:\\p'", `unclosed-string@"""`, "note=\"\"\"|set.a=C:\\p|"},
		{"grid that shows a key", "note = \"\"\"\nwrite\nbore = \"\"\"\nd = 1\n", "", "note=write\nbore = |d=1|"},
		{"grid with two quotes", "bore = \"\"\nmm x\n1 70.02\n\"\"\"\nd = 1\n", "no-equals@mm", "bore=|mm=x|d=1|"},
		{"list not closed", "tags = [\"a\",\nd = 1\n", "unclosed-array@[", "tags[0]=a|d=1|"},
		{"list not closed above a header", "tags = [\"a\"\n[set]\nd = 1\n", "unclosed-array@[", "tags[0]=a|set.d=1|"},
		{"list with a comma not closed above a header", "tags = [\"a\",\n[set]\nd = 1\n", "unclosed-array@[", "tags[0]=a|set.d=1|"},
		{"list closed by a brace", "tags = [\"a\"}\nd = 1\n", "unclosed-array@[", "tags[0]=a|d=1|"},
		{"list not closed in a table", "c = { a = [1, 2 }\nd = 1\n", "unclosed-array@[", "c.a[0]=1|c.a[1]=2|d=1|"},
		{"table not closed", "c = { value = \"9 N·m\"\nd = 1\n", "unclosed-table@{", "c.value=9 N·m|d=1|"},
		{"table not closed at the end", "c = { value = 1", "unclosed-table@{", "c.value=1|"},
		{"table over lines without a comma", "c = {\n  a = 1\n  b = 2\n}\nd = 3", "no-comma@1", "c.a=1|c.b=2|d=3|"},
		{"list over lines without a comma", "tags = [\n \"a\"\n \"b\"\n]", "no-comma@\"a\"", "tags[0]=a|tags[1]=b|"},
		{"list with bare commas", "a = [1,,2]\nb = [,]", "extra-comma@, ; extra-comma@,", "a[0]=1|a[1]=2|b=[,]|"},

		{"no equals sign", "title \"Cam in\"\nmeter = 1", "no-equals@title", "title=Cam in|meter=1|"},
		{"colon", "title: \"Cam in\"", "no-equals@title", "title=Cam in|"},
		{"key alone", "lash.intake\nmeter = 1", "no-equals@lash.intake", "lash.intake=|meter=1|"},
		{"prose above a header", "first of all\nI took it apart\n\nthen more\n[set]\na = 1", "no-equals@first", "first=of all|set.a=1|"},
		{"no value", "lash.intake = # not yet\nb = 1", "no-value@lash.intake", "lash.intake=|b=1|"},
		{"no value in a table", "c = { a = , b = 1 }", "no-value@a", "c.a=|c.b=1|"},
		{"no key", "= 1\nb = 2", "bad-key@=", "b=2|"},
		{"space in a key", "head bolt = \"20 N·m\"\nb = 2", "bad-key@head bolt", "b=2|"},
		{"letter that wants quotes", "größe = 1", "bad-key@größe", ""},
		{"dots too many", "a..b = 1\nc = 2", "bad-key@a..b", "c=2|"},
		{"key not closed", "\"a = 1\nc = 2", "unclosed-string@\"a = 1", "c=2|"},
		{"curly key", "“a” = 1", "curly-quotes@“a”", ""},
		{"closer alone", "]\na = 1", "junk@]", "a=1|"},

		{"words behind a value", "a = \"x\" and more # note\nb = 1", "junk@and more", "a=x|b=1|"},
		{"two on a line", "a = 1 b = 2", "junk@b", "a=1|b=2|"},
		{"words behind a header", "[set] lash\nb = 1", "junk@lash", "set.b=1|"},
		{"curly quotes", "title = “Cam in” # note\nb = 1", "curly-quotes@“Cam in”", "title=“Cam in”|b=1|"},
		{"curly quotes around a hash", "title = “Job #4”", "curly-quotes@“Job #4”", "title=“Job #4”|"},
		{"curly quotes with an apostrophe", "title = ‘don’t’\nb = 1", "curly-quotes@‘don’t’", "title=‘don’t’|b=1|"},
		{"curly quotes in a list", "tags = [“a”, “b”]", "curly-quotes@“a” ; curly-quotes@“b”", "tags[0]=“a”|tags[1]=“b”|"},
		{"one curly quote", "title = \"Cam in”\nb = 1", "curly-quotes@\"Cam in”", "title=\"Cam in”|b=1|"},
		{"words without quotes", "title = Cam in, lash set # note\nb = 1", "unquoted@Cam in, lash set", "title=Cam in, lash set|b=1|"},
		{"quantity without quotes", "lash = 0.10 mm\nb = 20Nm", "unquoted@0.10 mm ; unquoted@20Nm", "lash=0.10 mm|b=20Nm|"},
		{"words without quotes in a list", "tags = [cam, head bolt]", "unquoted@cam ; unquoted@head bolt", "tags[0]=cam|tags[1]=head bolt|"},
		{"decimal comma", "meter = 18,240", "bad-number@18,240", "meter=18,240|"},
		{"leading zero", "meter = 007\n", "bad-number@007", "meter=007|"},
		{"interval without quotes", "lash = 0.10..0.13", "bad-number@0.10..0.13", "lash=0.10..0.13|"},
		{"number past 64 bits", "n = 9223372036854775808", "bad-number@9223372036854775808", "n=9223372036854775808|"},
		{"no such day", "date = 2026-02-29", "bad-time@2026-02-29", "date=2026-02-29|"},
		{"no such time", "date = 2026-02-28 24:10", "bad-time@2026-02-28 24:10", "date=2026-02-28 24:10|"},
		{"date with strokes", "date = 18/04/2026", "unquoted@18/04/2026", "date=18/04/2026|"},
		{"date with dots", "date = 18.04.2026", "unquoted@18.04.2026", "date=18.04.2026|"},
		{"inch mark", "pipe = \"1/4\" pipe\"\nb = 1", "inch-mark@\"1/4\" pipe\"", "pipe=\"1/4\" pipe\"|b=1|"},
		{"inch mark at the end", "pipe = \"1/4\"\"\nb = 1", "inch-mark@\"1/4\"\"", "pipe=\"1/4\"\"|b=1|"},
		{"inch mark in a list", "pipe = [\"1/4\" pipe\", \"x\"]", "inch-mark@\"1/4\" pipe\"", "pipe[0]=\"1/4\" pipe\"|pipe[1]=x|"},
		{"apostrophe", "note = 'don't lift'\nb = 1", "apostrophe@'don't lift'", "note='don't lift'|b=1|"},
		{"two texts", "note = \"a\" \"b\"", "junk@\"b\"", "note=a|"},
		{"folders", `data = "C:\pulls\data.csv"`, `bad-escape@\p`, `data=C:\pulls\data.csv|`},
		{"half an escape", `a = "\u00e"`, `bad-escape@\u`, `a=\u00e|`},
		{"control character", "a = \"x\x01\x02\" # \x03\nb = 1", "control-character@\x01 ; control-character@\x03", "a=x\x01\x02|b=1|"},
		{"old line ends", "a = 1\rb = 2\rc = 3", "control-character@\r", "a=1\rb = 2\rc = 3|"},
		{"not UTF-8", "a = \"\xb5m\"\nb = \"\xb5m\"", "not-utf8@\"\xb5", "a=\xb5m|b=\xb5m|"},

		{"header not closed", "[set\nb = 1", "header-unclosed@[set", "set.b=1|"},
		{"list header half closed", "[[later]\ndo = 'x'", "header-unclosed@[[later", "later[0].do=x|"},
		{"header with a space", "[head bolt]\nb = 1\n[set]\nc = 2", "bad-key@head bolt", "set.c=2|"},
		{"header with nothing", "[]\nb = 1", "bad-key@[]", ""},
		{"header with a value", "[a]\n[xyz = 5\n[b]\nc = 1", "header-unclosed@[xyz = 5", "a=|b.c=1|"},
	} {
		t.Run(c.name, func(t *testing.T) {
			root, breaks := locateText(c.text)
			if got := locateBroken(breaks); got != c.breaks {
				t.Errorf("in %q\nbreaks %s\nwant   %s", c.text, got, c.breaks)
			}
			if got := locatePrinted(root); got != c.keys {
				t.Errorf("in %q\nkeys %s\nwant %s", c.text, got, c.keys)
			}
			checkLocatedPlaces(t, c.name, root, breaks)
		})
	}
}

func TestLocateRedefined(t *testing.T) {
	for _, c := range []struct{ name, text, later, first, keys string }{
		{"value twice", "a = 1\na = 2", "a", "a", "a=1|"},
		{"value, then deeper", "[set]\nlash.intake = 1\nlash.intake.left = 2", "lash.intake.left", "intake", "set.lash.intake=1|"},
		{"deeper, then value", "[set]\nlash.intake.left = 1\nlash.intake = 2", "lash.intake", "intake", "set.lash.intake.left=1|"},
		{"in braces, value then deeper", "t = {a = 1, a.b = 2}", "a.b", "a", "t.a=1|"},
		{"in braces, deeper then value", "t = {a.b = 1, a = 2}", "a", "a", "t.a.b=1|"},
		{"another spelling", "a = 1\n\"\\u0061\" = 2", "\"\\u0061\"", "a", "a=1|"},
		{"header twice, its keys seen", "[set]\na = 1\n[set]\na = 1\nb = 2", "set", "set", "set.a=1|set.b=2|"},
		{"header for a list", "[[later]]\na = 1\n[later]\na = 2", "later", "later", "later[0].a=1|later[1].a=2|"},
		{"list header for a table", "[later]\na = 1\n[[later]]\na = 2", "later", "later", "later.a=1|"},
		{"header for a value", "a = 1\n[a.b]\nc = 2", "a.b", "a", "a=1|"},
		{"header into braces", "a = {}\n[a.b]", "a.b", "a", "a={}|"},
		{"header into a list", "a = [{b = 1}]\n[a.c]", "a.c", "a", "a[0].b=1|"},
		{"header for dotted keys", "[a]\nb.c = 1\n[a.b]\nd = 2", "a.b", "b", "a.b.c=1|a.b.d=2|"},
		{"dotted keys into a header", "[a.b]\nc = 1\n[a]\nb.d = 2", "b.d", "b", "a.b.c=1|"},
		{"dotted keys into braces", "a = {b = 1}\na.c = 2", "a.c", "a", "a.b=1|"},
		{"key of a refused header", "[a]\n[a]\nb = {c = 1}\n[d]\ne = 1\ne = 2", "a ; e", "a ; e", "a.b.c=1|d.e=1|"},
		{"header for what dotted keys have used", "[a.b.c]\nd = 1\n[a]\nb.e = 2\n[a.b]", "a.b", "b", "a.b.c.d=1|a.b.e=2|"},
		{"below dotted keys is free", "[a]\nb.c = 1\n[a.b.d]\ne = 2", "", "", "a.b.c=1|a.b.d.e=2|"},
		{"implied, then dotted", "[a.b.c]\nd = 1\n[a]\nb.e = 2", "", "", "a.b.c.d=1|a.b.e=2|"},
	} {
		t.Run(c.name, func(t *testing.T) {
			root, breaks := locateText(c.text)
			var later, first []string
			for _, b := range breaks {
				if b.kind != breakRedefined && b.kind != breakDeeper {
					t.Errorf("break %s: %s", b.kind, b.message)
				}
				later, first = append(later, b.at.Text()), append(first, b.also.Text())
				if b.also.Start >= b.at.Start {
					t.Errorf("the first key stands at %d, the later at %d", b.also.Start, b.at.Start)
				}
			}
			if got := strings.Join(later, " ; "); got != c.later {
				t.Errorf("in %q\nlater %s\nwant  %s", c.text, got, c.later)
			}
			if got := strings.Join(first, " ; "); got != c.first {
				t.Errorf("in %q\nfirst %s\nwant  %s", c.text, got, c.first)
			}
			if got := locatePrinted(root); got != c.keys {
				t.Errorf("in %q\nkeys %s\nwant %s", c.text, got, c.keys)
			}
		})
	}
}

func TestLocatePlaces(t *testing.T) {
	const before, after = "```toml\n", "\n```\n"
	text := "a.'b c' = [ 1, 'x' ]\n[set.lash]\nin = { v = \"1\" }\n[[later]]\ndo = 1\n[[later]]\ndo = 2"
	f := source.NewFile("entry.md", before+text+after)
	root, breaks := locate(f, len(before), len(before)+len(text))
	if len(breaks) > 0 {
		t.Fatal(locateBroken(breaks))
	}
	if !root.at.IsWhole() {
		t.Errorf("the root's place is %q", root.at.Text())
	}
	find := func(path ...string) *node {
		n := root
		for _, key := range path {
			n = n.child(key)
		}
		return n
	}
	for _, c := range []struct {
		name              string
		n                 *node
		kind              nodeKind
		keyAt, at, header string
	}{
		{"made by dots", find("a"), nodeTable, "a", "a", ""},
		{"array", find("a", "b c"), nodeArray, "'b c'", "[ 1, 'x' ]", ""},
		{"item", find("a", "b c").items[1], nodeString, "", "'x'", ""},
		{"implied", find("set"), nodeTable, "set", "set", ""},
		{"made by a header", find("set", "lash"), nodeTable, "lash", "set.lash", "[set.lash]"},
		{"in braces", find("set", "lash", "in"), nodeInline, "in", `{ v = "1" }`, ""},
		{"list of tables", find("later"), nodeTables, "later", "later", ""},
		{"its second table", find("later").items[1], nodeTable, "later", "later", "[[later]]"},
	} {
		if c.n.kind != c.kind || c.n.keyAt.Text() != c.keyAt || c.n.at.Text() != c.at || c.n.header.Text() != c.header {
			t.Errorf("%s: kind %d, key %q, value %q, header %q", c.name, c.n.kind, c.n.keyAt.Text(), c.n.at.Text(), c.n.header.Text())
		}
	}
	if second := find("later").items[1]; second.header.Start != strings.LastIndex(f.Text, "[[later]]") {
		t.Errorf("the second header is found at %d", second.header.Start)
	}
	if root, breaks := locate(source.NewFile("build.toml", source.BOM+"a = 1"), 0, len(source.BOM)+5); len(breaks) > 0 || root.child("a").keyAt.Start != 3 {
		t.Errorf("a byte order mark isn't passed over: %s", locateBroken(breaks))
	}
}

// The content and places are worked out by hand from the rules for strings of TOML 1.1, section "String" (read in the source).
func TestNodeSpan(t *testing.T) {
	for _, c := range []struct {
		name, value, text, part, want string
	}{
		{"plain", `"0.08 mm"`, "0.08 mm", "mm", "mm"},
		{"literal", `'C:\x'`, `C:\x`, `\x`, `\x`},
		{"before an escape", `"a\tb"`, "a\tb", "a", "a"},
		{"an escape", `"a\tb"`, "a\tb", "\t", `\t`},
		{"after an escape", `"a\tb"`, "a\tb", "b", "b"},
		{"escapes side by side", `"\u00b1\u00b0C"`, "±°C", "°", `\u00b0`},
		{"half of an escape's bytes", `"\u00b1C"`, "±C", "\xb1C", `\u00b1C`},
		{"trimmed line end", "\"\"\"\na b\"\"\"", "a b", "b", "b"},
		{"trimmed line end of two", "'''\r\na\r\nb'''", "a\r\nb", "b", "b"},
		{"line end of two is kept", "\"\"\"a\r\nb\"\"\"", "a\r\nb", "\r\n", "\r\n"},
		{"before a line-ending backslash", "\"\"\"ab\\\n   cd\"\"\"", "abcd", "ab", "ab"},
		{"after a line-ending backslash", "\"\"\"ab\\\n   cd\"\"\"", "abcd", "cd", "cd"},
		{"across a line-ending backslash", "\"\"\"ab\\  \r\n\r\n cd\"\"\"", "abcd", "bc", "b\\  \r\n\r\n c"},
		{"quotes at the end", `"""a"""""`, `a""`, `""`, `""`},
		{"all", `"a\n"`, "a\n", "a\n", `a\n`},
	} {
		t.Run(c.name, func(t *testing.T) {
			root, breaks := locateText("x = " + c.value + "\n")
			n := root.child("x")
			if len(breaks) > 0 || n.text != c.text {
				t.Fatalf("text %q, want %q; breaks %s", n.text, c.text, locateBroken(breaks))
			}
			start := strings.Index(c.text, c.part)
			if got := n.span(start, start+len(c.part)).Text(); got != c.want {
				t.Errorf("span of %q in %s is %q, want %q", c.part, c.value, got, c.want)
			}
		})
	}
	root, _ := locateText(`x = ""`)
	if got := root.child("x").span(0, 0); got.Start != 5 || got.Text() != `"` {
		t.Errorf("nothing has the place %q at %d", got.Text(), got.Start)
	}
}

func TestLocateNestedTooDeep(t *testing.T) {
	deep := strings.Repeat
	for _, c := range []struct{ name, text, breaks string }{
		{"lists, as deep as may be", "a = " + deep("[", 100) + deep("]", 100), ""},
		{"lists, one more", "a = " + deep("[", 101) + deep("]", 101) + "\nb = 1", "nested-too-deep@["},
		{"lists without end", "a = " + deep("[", 1<<17) + "\nb = 1", "nested-too-deep@["},
		{"tables", "a = " + deep("{a=", 200) + "1" + deep("}", 200) + "\nb = 1", "nested-too-deep@a"},
		{"tables without end", "a = " + deep("{a={'b'=", 1<<16) + "\nb = 1", "nested-too-deep@'b'"},
		{"tables with bad keys", "a = " + deep("{! =", 1<<17) + "\nb = 1", strings.TrimSuffix(deep("bad-key@! ; ", 100), " ; ") + " ; nested-too-deep@{"},
		{"a key, as long as may be", deep("a.", 98) + "a = 1", ""},
		{"a key", deep("a.", 100) + "a = 1\nb = 1", "nested-too-deep@" + deep("a.", 100) + "a"},
		{"a header", "[" + deep("a.", 100) + "a]\nb = 1", "nested-too-deep@" + deep("a.", 100) + "a"},
	} {
		root, breaks := locateText(c.text)
		if got := locateBroken(breaks); got != c.breaks {
			t.Errorf("%s: breaks %s", c.name, got)
		}
		if strings.HasSuffix(c.text, "\nb = 1") && (root.child("b") == nil) == (c.text[0] == 'a') {
			t.Errorf("%s: the key below: %v", c.name, root.child("b"))
		}
		checkLocatedPlaces(t, c.name, root, breaks)
	}
}

// Each text is half a million bytes of something that a careless reading would go over again and again: that takes twenty seconds and more.
func TestLocateTakesNoLongerThanTheText(t *testing.T) {
	for _, piece := range []string{
		"a = [1 ", "a = [\n", "a={", "{", "\"", "'", "a = \"\"\"\n", "a = '''\nb = \"\"\"\nc d\n", "a = \"x\" ", "a = 1 b = 2 ", "a b ", "a.", "[a]\n",
		"a = 1\n", "[[a]]\n", "“", "a = “b, ", "= ", "1 ", "\\", "a = \"\\", ",", "#", "\r", "\x00", "x\n", "[[", "]", "a = [“b” ", "a={b=1\n",
		"a = \"\"\"\nb = \"\"\"\nc d\n", "a = \"1/4\" \"", "é", "\xff", "{a=1,", "[\"a\",", "a = {'b ", "\n\n\n ",
	} {
		for _, opening := range []string{"", "k = ", "k = [", "k = {", "k = {a = [\n"} {
			text := opening + strings.Repeat(piece, 1<<19/len(piece))
			began := time.Now()
			_, breaks := locateText(text)
			if took := time.Since(began); took > 5*time.Second {
				t.Errorf("%q then %q: %s", opening, piece, took)
			}
			if len(breaks) > locateBreaks {
				t.Errorf("%q then %q: %d breaks", opening, piece, len(breaks))
			}
		}
	}
	var sheet strings.Builder
	for i := range 100_000 {
		fmt.Fprintf(&sheet, "key-%d = %d\n", i, i)
	}
	began := time.Now()
	root, breaks := locateText(sheet.String())
	if took := time.Since(began); took > 5*time.Second || len(breaks) > 0 || root.child("key-99999").text != "99999" {
		t.Errorf("100,000 keys in one table: %s, %d breaks", took, len(breaks))
	}
}

func BenchmarkLocate(b *testing.B) {
	text := `title = "Cam in, lash set"
date = 2026-04-18
meter = 18240
engine-temp = "19 °C"
fitted = ["cam-212"]
with = ["feeler", "click-wrench"]
hours = 3.5
spent = [{ for = "oil", price = 9.40 }]

[found]
lash.intake.left = "0.10..0.13 mm"
lash.intake.right = "0.13 mm"

[set]
lash.intake = "0.10 mm"
torque.cam-cover = { value = "9 lbf·ft", adapter = "30 mm" }

[[later]]
do = "Lash again after the first heat cycles"
after = "300 km"
`
	f := source.NewFile("entry.md", text)
	b.ReportAllocs()
	for b.Loop() {
		locate(f, 0, len(text))
	}
}
