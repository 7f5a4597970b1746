package parse

import (
	"fmt"
	"slices"
	"unicode"

	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

func isLetter(r rune) bool { return unicode.IsLetter(r) || unicode.IsMark(r) || unicode.IsDigit(r) }

// readingTree decodes a tree of paths with values.
func (d *decoder) readingTree(t *node, state State) []Reading {
	tree := &readingTree{decoder: d, state: state, readings: make([]Reading, 0, leaves(t))}
	tree.walk(t, "", "")
	tree.checkDepths()
	return tree.readings
}

type readingTree struct {
	*decoder
	state    State
	readings []Reading
}

// leaves returns how many values stand below a table, where none of them is a grid.
func leaves(table *node) int {
	n := 0
	for _, key := range table.keys {
		if key.isTable() && !holdsDetail(key) {
			n += leaves(key)
		} else {
			n++
		}
	}
	return n
}

func (t *readingTree) walk(table *node, path, spelled string) {
	seen := make(map[string]*node, len(table.keys))
	for _, n := range table.keys {
		segment := foldSegment(n.key)
		if first := seen[segment]; first != nil {
			t.spelledTwice(first, n)
			continue
		}
		seen[segment] = n
		if path == "" && t.entry != "" && entryKeys.child(segment) != nil && t.state != InBrings {
			t.misplacedKey(n, segment)
			continue
		}
		if !t.goodName(n.key, n.keyAt, nil) || !t.goodSegment(n.key, n.keyAt) {
			continue
		}
		deeper := below(path, segment)
		if path == spelled && segment == n.key {
			t.one(n, deeper, deeper) // one text does for both
		} else {
			t.one(n, deeper, below(spelled, n.key))
		}
	}
}

// below joins a path and what stands below it.
func below(path, word string) string {
	if path == "" {
		return word
	}
	return path + "." + word
}

// goodSegment reports whether a word may be a segment of a reading's path, and not the name of something beside a value.
func (d *decoder) goodSegment(word string, at source.Range) bool {
	segment := foldSegment(word)
	switch {
	case segment == "found" || segment == "set":
		d.report("unknown-key", source.Error, at, segment, fmt.Sprintf("`%s` is not a path: it is where readings are written", word), "write readings below `[found]` and `[set]`")
	case detailKeys.child(segment) != nil:
		d.report("unknown-key", source.Error, at, segment, fmt.Sprintf("`%s` is not a path: it is a key of a value with details", word),
			"write the value as `{ value = \"…\", "+segment+" = … }`")
	default:
		return true
	}
	return false
}

// one decodes what stands at one path: a value, a value with details, a grid, or deeper paths.
func (t *readingTree) one(n *node, path, spelled string) {
	reading := Reading{Path: path, PathAt: n.keyAt, State: t.state}
	switch {
	case n.runsOverLines():
		t.grid(n, path)
	case n.isTable() && holdsDetail(n):
		value, ok := t.detailed(n, reading.Path)
		reading.Value, reading.Unread = value, !ok
		t.readings = append(t.readings, reading)
	case n.isTable():
		if len(n.keys) == 0 {
			t.report("empty-value", source.Note, n.place(), reading.Path, fmt.Sprintf("`%s` holds nothing", spelled), "fill it in or take the line out")
		}
		t.walk(n, path, spelled)
	case n.kind == nodeTables:
		t.report("wrong-kind", source.Error, n.place(), reading.Path, fmt.Sprintf("`%s` is a list of tables; a path has one value or deeper paths", spelled), "write `["+spelled+"]` once")
	default:
		value, ok := t.repeats(n, reading.Path)
		reading.Value, reading.Unread = value, !ok
		t.readings = append(t.readings, reading)
	}
}

func holdsDetail(n *node) bool {
	for _, key := range n.keys {
		if detailKeys.child(Fold(key.key)) != nil {
			return true
		}
	}
	return false
}

// detailed decodes a value with details.
func (t *readingTree) detailed(n *node, path string) (Value, bool) {
	fields, figure := t.detailTable(n, path)
	isKnown := !slices.ContainsFunc(n.keys, func(key *node) bool { return detailKeys.child(Fold(key.key)) == nil }) // else what it would have told of the figure is lost
	if angle := fields.Get("adapter-angle"); angle != nil && fields.Get("adapter") == nil && !fields.IsBad("adapter") && isKnown {
		t.report("missing-key", source.Error, angle.KeyAt, path, "`adapter-angle` needs an `adapter` whose angle it is", "add `adapter`: its length from drive to fastener; or take the angle out")
		isKnown = false
	}
	details := &Details{At: n.place(), With: fields.Name("with"), EngineTemp: fields.Value("engine-temp"), Was: fields.Text("was"),
		Note: fields.Text("note"), Adapter: fields.Value("adapter"), AdapterAngle: fields.Value("adapter-angle")}
	words := fields.Text("words")
	switch {
	case figure != nil && !words.IsZero():
		t.report("defined-twice", source.Error, fields.Get("words").KeyAt, path, fmt.Sprintf("`%s` has a `value` and `words`: which of them counts can't be told", path), "keep one of the two; words about a figure go after a comma, or in `note`")
		t.note(figure.keyAt, "the value")
		return Value{}, false
	case figure == nil && (fields.IsBad("words") || words.IsZero() && !isKnown): // `valu` is what was mistyped
		return Value{}, false
	case figure == nil && words.IsZero():
		t.report("missing-key", source.Error, n.place(), path, fmt.Sprintf("`%s` has details but no `value`", path), "add `value = \"…\"`")
		return Value{}, false
	case figure == nil:
		details.Words = true
		return Value{At: words.At, Text: words.Text, Kind: quantity.Words, Details: details, home: inWords}, isKnown
	}
	value, ok := t.repeats(figure, path)
	value.Details = details
	return value, ok && isKnown && !fields.IsBad("with", "engine-temp", "adapter", "adapter-angle")
}

// detailTable decodes the keys beside `value`, which a reading decodes by its own rules.
func (t *readingTree) detailTable(n *node, path string) (rest *Fields, value *node) {
	others := *n
	others.keys = nil
	for _, key := range n.keys {
		switch {
		case Fold(key.key) != "value":
			others.keys = append(others.keys, key)
		case value != nil:
			t.spelledTwice(value, key)
		default:
			value = key
		}
	}
	return t.table(&others, detailKeys), value
}

func childFolded(n *node, name string) *node {
	for _, key := range n.keys {
		if Fold(key.key) == name {
			return key
		}
	}
	return nil
}

// repeats decodes a value, or a list of repeats of one measurement.
func (t *readingTree) repeats(n *node, path string) (Value, bool) {
	if pattern := sheetPattern(path); pattern != nil && pattern.TyreCode && n.isString() && looksLikeTyre(n.text) {
		return t.tyreCode(n, path)
	}
	if n.kind != nodeArray {
		value, ok := t.value(n, path)
		if ok && value.IsBlank() && n.text == "" {
			t.report("empty-value", source.Note, n.at, path, fmt.Sprintf("`%s` is empty: it counts as not measured", path), "fill it in, or write `\"-\"`")
		}
		return value, ok
	}
	if len(n.items) == 0 {
		t.report("wrong-kind", source.Error, n.at, path, fmt.Sprintf("`%s` is an empty list of repeats", path), "write the repeats, or take the line out")
		return Value{}, false
	}
	whole := Value{At: n.at}
	for _, item := range n.items {
		value, ok := t.value(item, path)
		if !ok {
			return Value{}, false
		}
		if value.IsWords() || value.IsBlank() {
			t.report("bad-quantity", source.Error, item.place(), path, fmt.Sprintf("`%s` is not a figure; a list holds repeats of one measurement", value.Text), "write one figure an item")
			return Value{}, false
		}
		whole.Repeats = append(whole.Repeats, value)
	}
	if len(whole.Repeats) == 1 {
		return whole.Repeats[0], true
	}
	return whole, true
}

// checkDepths reports paths that hold a value where another holds one at a deeper path: both can't be the newest word.
func (t *readingTree) checkDepths() {
	at := map[string]int{}
	for i, r := range t.readings {
		if first, taken := at[r.Path]; taken {
			t.report("defined-twice", source.Error, r.PathAt, r.Path, fmt.Sprintf("`%s` is read twice here", r.Path), "keep one; repeats of one measurement go in a list")
			t.note(t.readings[first].PathAt, "the first one")
			continue
		}
		at[r.Path] = i
	}
	t.checkDeeper(at)
}

// checkDeeper reports values below one another; at says which reading stands first at a path.
func (t *readingTree) checkDeeper(at map[string]int) {
	for i, r := range t.readings {
		for up := Above(r.Path); up != ""; up = Above(up) {
			above, taken := at[up]
			if !taken || r.Unread || t.readings[above].Unread {
				continue // what can't be read may not have been meant for its place
			}
			later, other := r, t.readings[above]
			if above > i {
				later, other = other, later
			}
			t.report("value-and-deeper", source.Error, later.PathAt, later.Path,
				fmt.Sprintf("`%s` holds a value, and so does `%s` below it: which of them speaks for it can't be told", up, r.Path),
				fmt.Sprintf("write each position out, as in `%s = …`", r.Path))
			t.note(other.PathAt, "the other one")
		}
	}
}
