package parse

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
	tomltest "github.com/toml-lang/toml-test/v2"

	"example.org/locknut/journal/source"
)

// The texts are those of toml-test v2.2.0, the list for TOML 1.1 (read in the source): published by the keepers of TOML, and
// the values beside the valid ones too.

// locateCorpus returns the texts of the list whose names begin so, by name.
func locateCorpus(t testing.TB, prefix string) map[string]string {
	t.Helper()
	files := tomltest.TestCases()
	list, err := fs.ReadFile(files, "files-toml-1.1.0")
	if err != nil {
		t.Fatal(err)
	}
	texts := map[string]string{}
	for _, name := range strings.Fields(string(list)) {
		if strings.HasPrefix(name, prefix) && strings.HasSuffix(name, ".toml") {
			text, err := fs.ReadFile(files, name)
			if err != nil {
				t.Fatal(err)
			}
			texts[name] = string(text)
		}
	}
	return texts
}

func locateText(text string) (*node, []tomlBreak) {
	return locate(source.NewFile("x.toml", text), 0, len(text))
}

func TestLocateAcceptsEveryValidText(t *testing.T) {
	texts := locateCorpus(t, "valid/")
	if len(texts) != 214 {
		t.Fatalf("the list has %d valid texts, not 214", len(texts))
	}
	for name, text := range texts {
		root, breaks := locateText(text)
		for _, b := range breaks {
			t.Errorf("%s: %s at %q: %s", name, b.kind, b.at.Text(), b.message)
		}
		published, err := fs.ReadFile(tomltest.TestCases(), strings.TrimSuffix(name, ".toml")+".json")
		if err != nil {
			t.Fatal(err)
		}
		var want any
		if err := json.Unmarshal(published, &want); err != nil {
			t.Fatal(err)
		}
		checkLocatedPublished(t, name, root, want)
		var got map[string]any
		meta, err := toml.Decode(text, &got)
		if err != nil {
			t.Fatal(name, err)
		}
		for _, key := range meta.Keys() {
			if !locateHasKey(root, key) {
				t.Errorf("%s: the decoder's key %q has no node", name, key)
			}
		}
		checkLocatedDecoded(t, name, root, got)
		checkLocatedPlaces(t, name, root, nil)
	}
}

// checkLocatedPublished holds a node against the published value: the same keys, kinds and items, and for a string the same
// content.
func checkLocatedPublished(t *testing.T, at string, n *node, want any) {
	t.Helper()
	switch want := want.(type) {
	case []any:
		if n.kind != nodeArray && n.kind != nodeTables || len(n.items) != len(want) {
			t.Errorf("%s: kind %d with %d items; %d are published", at, n.kind, len(n.items), len(want))
			return
		}
		for i, item := range n.items {
			checkLocatedPublished(t, fmt.Sprintf("%s[%d]", at, i), item, want[i])
		}
	case map[string]any:
		if kind, ok := want["type"].(string); ok && len(want) == 2 {
			checkLocatedScalar(t, at, n, kind, fmt.Sprint(want["value"]))
			return
		}
		var keys []string
		for _, k := range n.keys {
			keys = append(keys, k.key)
			if n.child(k.key) != k {
				t.Errorf("%s: child(%q) is another node", at, k.key)
			}
		}
		slices.Sort(keys)
		if published := slices.Sorted(maps.Keys(want)); !slices.Equal(keys, published) {
			t.Errorf("%s: keys %q; published are %q", at, keys, published)
			return
		}
		if n.kind != nodeTable && n.kind != nodeInline {
			t.Errorf("%s: kind %d; a table is published", at, n.kind)
		}
		for _, k := range n.keys {
			checkLocatedPublished(t, at+"/"+k.key, k, want[k.key])
		}
	}
}

func checkLocatedScalar(t *testing.T, at string, n *node, kind, value string) {
	t.Helper()
	kinds := map[string][]nodeKind{
		"string": {nodeString, nodeMultiline}, "integer": {nodeInteger}, "float": {nodeFloat}, "bool": {nodeBool},
		"datetime": {nodeTime}, "datetime-local": {nodeTime}, "date-local": {nodeTime}, "time-local": {nodeTime},
	}
	if !slices.Contains(kinds[kind], n.kind) {
		t.Errorf("%s: kind %d; published is a %s", at, n.kind, kind)
	}
	if kind == "string" && n.text != value {
		t.Errorf("%s: text %q; published is %q", at, n.text, value)
	}
}

// locateHasKey reports whether a path of keys leads to a node. The decoder doesn't say which item of a list it means.
func locateHasKey(n *node, path []string) bool {
	if n == nil {
		return false
	}
	for _, item := range n.items {
		if locateHasKey(item, path) {
			return true
		}
	}
	return len(path) == 0 || locateHasKey(n.child(path[0]), path[1:])
}

// checkLocatedDecoded holds every value below a node against the decoder's: the text at its place must decode to the same.
func checkLocatedDecoded(t *testing.T, at string, n *node, want any) {
	t.Helper()
	switch n.kind {
	case nodeTable, nodeInline:
		for _, k := range n.keys {
			checkLocatedDecoded(t, at+"/"+k.key, k, want.(map[string]any)[k.key])
			var quoted map[string]any
			if _, err := toml.Decode(k.keyAt.Text()+" = 1", &quoted); err != nil || len(quoted) != 1 || quoted[k.key] == nil {
				t.Errorf("%s: %q stands at the place of the key %q", at, k.keyAt.Text(), k.key)
			}
		}
	case nodeArray, nodeTables:
		items := reflect.ValueOf(want)
		for i, item := range n.items {
			checkLocatedDecoded(t, fmt.Sprintf("%s[%d]", at, i), item, items.Index(i).Interface())
		}
	}
	if n.kind == nodeTable || n.kind == nodeTables {
		return
	}
	var again map[string]any
	if _, err := toml.Decode("x = "+n.at.Text(), &again); err != nil {
		t.Errorf("%s: %q can't be decoded: %v", at, n.at.Text(), err)
	} else if got := again["x"]; fmt.Sprint(got) != fmt.Sprint(want) || reflect.TypeOf(got) != reflect.TypeOf(want) {
		t.Errorf("%s: %q decodes to %#v, in its text to %#v", at, n.at.Text(), got, want)
	}
	if n.kind == nodeString || n.kind == nodeMultiline {
		if n.text != want {
			t.Errorf("%s: text %q, decoded %q", at, n.text, want)
		}
		checkLocatedSpans(t, at, n)
	}
}

// checkLocatedSpans holds every piece of a string's content against the text at its place, read as a string of the same sort.
func checkLocatedSpans(t *testing.T, at string, n *node) {
	t.Helper()
	quotes := "'''"
	if strings.HasPrefix(n.at.Text(), `"`) {
		quotes = `"""`
	}
	for start := range len(n.text) {
		if !utf8.RuneStart(n.text[start]) {
			continue
		}
		for end := start + 1; end <= min(len(n.text), start+24); end++ {
			if end < len(n.text) && !utf8.RuneStart(n.text[end]) {
				continue
			}
			piece := n.span(start, end)
			if piece.Start < n.at.Start || piece.End > n.at.End {
				t.Fatalf("%s: span(%d, %d) lies outside the value", at, start, end)
			}
			var got map[string]string
			_, err := toml.Decode("x = "+quotes+"\n"+piece.Text()+"$"+quotes, &got) // the first line end is trimmed
			if err != nil || got["x"] != n.text[start:end]+"$" {
				t.Fatalf("%s: span(%d, %d) of %q is %q, which decodes to %q: %v", at, start, end, n.text, piece.Text(), got["x"], err)
			}
		}
	}
}

func TestLocateRefusesEveryInvalidText(t *testing.T) {
	texts := locateCorpus(t, "invalid/")
	if len(texts) != 467 {
		t.Fatalf("the list has %d invalid texts, not 467", len(texts))
	}
	for name, text := range texts {
		root, breaks := locateText(text)
		if len(breaks) == 0 {
			t.Errorf("%s: no break in %q", name, text)
		}
		checkLocatedPlaces(t, name, root, breaks)
	}
}

// The decoder wrongly accepts 16 invalid texts, 15 of which redefine a key. The places are typed by hand.
func TestLocateRefusesWhatTheDecoderAccepts(t *testing.T) {
	want := map[string]string{ // kind, line, the later key
		"invalid/array/extend-defined-aot.toml":         "redefined 3 arr.val1",
		"invalid/datetime/offset-overflow-minute.toml":  "bad-time 1 1985-06-18 17:04:07+12:60",
		"invalid/inline-table/duplicate-key-03.toml":    "redefined 1 fruit.apple.texture",
		"invalid/inline-table/overwrite-02.toml":        "redefined 3 a.b",
		"invalid/inline-table/overwrite-08.toml":        "redefined 1 inner.cat",
		"invalid/spec-1.1.0/common-46-1.toml":           "value-and-deeper 6 fruit.apple.taste",
		"invalid/spec-1.1.0/common-49-0.toml":           "redefined 3 type.edible",
		"invalid/table/append-with-dotted-keys-01.toml": "redefined 17 b.c.t",
		"invalid/table/append-with-dotted-keys-02.toml": "redefined 8 b.c.d.k.t",
		"invalid/table/append-with-dotted-keys-03.toml": "redefined 4 b.y",
		"invalid/table/append-with-dotted-keys-05.toml": "value-and-deeper 2 a.b",
		"invalid/table/append-with-dotted-keys-08.toml": "redefined 8 b.c.t",
		"invalid/table/duplicate-key-04.toml":           "value-and-deeper 4 fruit.apple",
		"invalid/table/duplicate-key-05.toml":           "value-and-deeper 4 fruit.apple.taste",
		"invalid/table/redefine-02.toml":                "value-and-deeper 3 t1.t2",
		"invalid/table/redefine-03.toml":                "value-and-deeper 3 t1.t2.t3",
	}
	for name, text := range locateCorpus(t, "invalid/") {
		var decoded map[string]any
		_, err := toml.Decode(text, &decoded)
		if _, listed := want[name]; listed != (err == nil) {
			t.Errorf("%s: listed %t, the decoder says %v", name, listed, err)
		}
		if err != nil {
			continue
		}
		_, breaks := locateText(text)
		var got []string
		for _, b := range breaks {
			line, _, _, _ := b.at.Position()
			got = append(got, fmt.Sprintf("%s %d %s", b.kind, line, b.at.Text()))
		}
		if strings.Join(got, "; ") != want[name] {
			t.Errorf("%s: got %q, want %q", name, got, want[name])
		}
	}
}

// Of a text with one byte taken out, every key is found that stands whole on the lines before that byte's.
func TestLocateSurvivesALostByte(t *testing.T) {
	random := rand.New(rand.NewPCG(19, 87))
	texts := locateCorpus(t, "")
	for _, name := range slices.Sorted(maps.Keys(texts)) {
		text := texts[name]
		valid := strings.HasPrefix(name, "valid/")
		before, _ := locateText(text)
		for range min(len(text), 40) {
			lost := random.IntN(len(text))
			root, breaks := locateText(text[:lost] + text[lost+1:])
			checkLocatedPlaces(t, fmt.Sprintf("%s without byte %d", name, lost), root, breaks)
			if valid {
				checkLocatedFound(t, fmt.Sprintf("%s without byte %d", name, lost), before, root, strings.LastIndexByte(text[:lost], '\n'))
			}
		}
	}
}

// checkLocatedFound checks that the keys of a table whose values end before an offset are in the other table as well, at the same
// places.
func checkLocatedFound(t *testing.T, at string, n, other *node, before int) {
	t.Helper()
	for i, item := range n.items {
		if item.at.End <= before {
			if i >= len(other.items) {
				t.Errorf("%s: item %d is lost", at, i)
				return
			}
			checkLocatedFound(t, fmt.Sprintf("%s[%d]", at, i), item, other.items[i], before)
		}
	}
	for _, k := range n.keys {
		if k.at.End > before || k.keyAt.End > before {
			continue
		}
		again := other.child(k.key)
		if again == nil || again.keyAt.Start != k.keyAt.Start || again.keyAt.End != k.keyAt.End {
			t.Errorf("%s: the key %q is lost", at, k.key)
			return
		}
		checkLocatedFound(t, at+"/"+k.key, k, again, before)
	}
}

// checkLocatedPlaces checks that every place lies in the file and, where the text has whole characters only, on such, and that every
// break says what it is.
func checkLocatedPlaces(t testing.TB, at string, root *node, breaks []tomlBreak) {
	t.Helper()
	whole := !slices.ContainsFunc(breaks, func(b tomlBreak) bool { return b.kind == breakNotUTF8 })
	check := func(r source.Range, what string) {
		t.Helper()
		text := r.File.Text
		inside := r.Start >= 0 && r.Start < r.End && r.End <= len(text)
		if !inside || whole && (!utf8.RuneStart(text[r.Start]) || r.End < len(text) && !utf8.RuneStart(text[r.End])) {
			t.Fatalf("%s: %s has the place %d to %d of %q", at, what, r.Start, r.End, text)
		}
	}
	last := 0
	for _, b := range breaks {
		check(b.at, b.kind)
		if b.kind == breakRedefined || b.kind == breakDeeper {
			check(b.also, "the first key")
		}
		if b.message == "" || !utf8.ValidString(b.message) || strings.ContainsAny(b.message, "\n\r\x00") || b.at.Start < last {
			t.Fatalf("%s: break %s at %d with the message %q, after %d", at, b.kind, b.at.Start, b.message, last)
		}
		last = b.at.Start
	}
	deepest := 0
	var walk func(n *node, depth int)
	walk = func(n *node, depth int) {
		deepest = max(deepest, depth)
		if n != root {
			check(n.at, "the value of "+n.key)
			if n.keyAt.File != nil {
				check(n.keyAt, "the key "+n.key)
			}
		}
		if n.kind == nodeString || n.kind == nodeMultiline {
			check(n.span(0, len(n.text)), "a string's content")
			check(n.span(len(n.text)/2, len(n.text)), "a string's content")
			check(n.span(len(n.text), len(n.text)), "a string's end")
		}
		for _, k := range append(slices.Clone(n.keys), n.items...) {
			walk(k, depth+1)
		}
	}
	walk(root, 0)
	if deepest > locateDepth+1 {
		t.Fatalf("%s: %d deep", at, deepest)
	}
}

func FuzzLocate(f *testing.F) {
	for _, text := range locateCorpus(f, "") {
		f.Add(text)
	}
	f.Add("lash = \"\"\"\nmm left\n1 “0.10” \\u00e9\nclearance = {a = [ 'x\n[set]\r\nb.c=1/4\" x\"")
	f.Fuzz(func(t *testing.T, text string) {
		root, breaks := locateText(text)
		checkLocatedPlaces(t, "fuzz", root, breaks)
		var decoded map[string]any
		if _, err := toml.Decode(text, &decoded); err == nil && len(breaks) == 0 {
			checkLocatedCounted(t, text, root, decoded)
		}
	})
}

// checkLocatedCounted checks that a text which both accept has the same keys and strings for both.
func checkLocatedCounted(t *testing.T, text string, n *node, decoded any) {
	t.Helper()
	switch decoded := decoded.(type) {
	case map[string]any:
		if len(n.keys) != len(decoded) {
			t.Fatalf("%d keys located, %d decoded in %q", len(n.keys), len(decoded), text)
		}
		for _, k := range n.keys {
			checkLocatedCounted(t, text, k, decoded[k.key])
		}
	case string:
		if n.text != decoded {
			t.Fatalf("text %q located, %q decoded in %q", n.text, decoded, text)
		}
	}
}
