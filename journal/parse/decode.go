// Package parse decodes the files of a journal, each alone: the build sheet, limits, parts, tools, entries and CSV files.
//
// It hides TOML: a locator finds the place of every key and value, on any text; the decoder judges whether the text is TOML at all; the
// key tables say what each key holds. Text goes in; values with their places, and findings, come out. The one invariant: a value comes
// only from text that both locator and decoder accept (a plain text holds nothing on which they could differ), and what could not be read
// is marked, never zero.
package parse

import (
	"fmt"
	"strings"

	"example.org/locknut/journal/source"
)

// decoder decodes the text of one file and gathers what it finds.
type decoder struct {
	file     *source.File
	entry    string       // path of the entry, for the identity of findings
	head     source.Range // the TOML of an entry
	top      *node        // its keys; nil for a sheet
	findings []source.Finding
	nodes    nodeRoom
}

func (d *decoder) report(rule string, severity source.Severity, at source.Range, subject, message, do string, fixes ...source.Fix) {
	d.findings = append(d.findings, source.Finding{
		Rule: rule, Severity: severity, At: at, Subject: subject, Entry: d.entry, Message: message, Do: do, Fixes: fixes,
	})
}

// table decodes the keys of a table by its key table.
func (d *decoder) table(t *node, keys *Key) *Fields {
	fields := &Fields{At: t.place()}
	seen := map[string]*node{}
	var meant map[string]bool // keys that others are misspelt for
	for _, n := range t.keys {
		name := Fold(n.key)
		if first := seen[name]; first != nil {
			d.spelledTwice(first, n)
			continue
		}
		seen[name] = n
		key := keys.child(name)
		if key == nil {
			if near := d.unknownKey(n, name, keys); near != "" {
				if meant == nil {
					meant = map[string]bool{}
				}
				meant[near] = true
			}
			continue
		}
		field := &Field{Key: key, KeyAt: n.keyAt, At: n.at}
		ok := d.field(field, n)
		if !ok {
			fields.Bad = append(fields.Bad, name)
		}
		if ok || field.holds() {
			fields.List = append(fields.List, field)
		}
	}
	for i := range keys.Keys {
		key := &keys.Keys[i]
		switch {
		case seen[key.Name] != nil:
		case meant[key.Name]:
			fields.Bad = append(fields.Bad, key.Name) // it stands there, and can't be read
		case key.Needed:
			d.report("missing-key", source.Error, fields.At, key.Name, fmt.Sprintf("`%s` is not given here", key.Name),
				fmt.Sprintf("add `%s`: %s", key.Name, key.Doc))
		}
	}
	return fields
}

func (d *decoder) spelledTwice(first, again *node) {
	d.report("defined-twice", source.Error, again.keyAt, Fold(again.key),
		fmt.Sprintf("`%s` and `%s` are one key: case, `_` and `-` don't matter", first.key, again.key), "keep one of the two")
	d.note(first.keyAt, "the first one")
}

// note adds a second place to the newest finding.
func (d *decoder) note(at source.Range, message string) {
	last := &d.findings[len(d.findings)-1]
	last.Notes = append(last.Notes, source.Remark{At: at, Message: message})
}

// unknownKey reports a key that is none, and returns the one that it is most like; "" for none.
func (d *decoder) unknownKey(n *node, name string, keys *Key) string {
	if keys != entryKeys && d.entry != "" && entryKeys.child(name) != nil {
		d.misplacedKey(n, name)
		return ""
	}
	near := source.Nearest(name, keys.names())
	message := fmt.Sprintf("`%s` is not a key of %s", n.key, keysOf(keys))
	if near != "" {
		d.report("unknown-key", source.Error, n.keyAt, name, message, fmt.Sprintf("did you mean `%s`?", near),
			source.Replace(fmt.Sprintf("write `%s`", near), n.keyAt, near))
		return near
	}
	d.report("unknown-key", source.Error, n.keyAt, name, message, "known here: "+strings.Join(keys.names(), ", "))
	return ""
}

func keysOf(keys *Key) string {
	switch keys {
	case entryKeys:
		return "an entry"
	case partKeys:
		return "a part"
	case toolKeys:
		return "a tool"
	case limitKeys:
		return "a limit"
	case detailKeys:
		return "a value with details"
	case buildKeys:
		return "the build sheet"
	}
	return "`" + keys.Name + "`"
}

// misplacedKey reports an entry's key that a table header above has swallowed.
func (d *decoder) misplacedKey(n *node, name string) {
	fixes := []source.Fix{}
	if line := n.keyAt.To(n.at); d.top != nil && childFolded(d.top, name) == nil && n.header.IsZero() && len(n.keys) == 0 && d.aloneOnLine(line) {
		text := d.file.Text[line.Start:line.End] + "\n"
		fixes = append(fixes, source.Fix{Title: "move it above the first table", Edits: []source.Edit{
			{File: d.file, Start: d.head.Start, End: d.head.Start, Text: text},
			{File: d.file, Start: line.Start, End: line.End, Text: ""},
		}})
	}
	d.report("misplaced-key", source.Error, n.keyAt, name,
		fmt.Sprintf("`%s` belongs to the entry, but stands below a table header, which makes it a part of that table", n.key),
		"move the line above the first `[table]`", fixes...)
}

// aloneOnLine reports whether nothing but a comment stands on the lines of a place beside it.
func (d *decoder) aloneOnLine(at source.Range) bool {
	text := d.file.Text
	before := text[strings.LastIndexByte(text[:at.Start], '\n')+1 : at.Start]
	after, _ := cutLine(text, at.End)
	after = strings.TrimSpace(after)
	return strings.TrimSpace(before) == "" && (after == "" || after[0] == '#')
}

// field decodes one key and reports whether it could be read.
func (d *decoder) field(f *Field, n *node) bool {
	switch f.Key.Kind {
	case KindText, KindMarkdown:
		return d.one(f, n, d.text)
	case KindTexts:
		return d.each(f, n, d.text)
	case KindChoice:
		return d.one(f, n, d.choice)
	case KindChoices:
		return d.each(f, n, d.choice)
	case KindName:
		return d.one(f, n, d.name)
	case KindNames:
		return d.each(f, n, d.name)
	case KindPath:
		return d.one(f, n, d.path)
	case KindSubject:
		return d.one(f, n, d.subject)
	case KindPaths:
		return d.each(f, n, d.path)
	case KindFigure, KindRatio:
		return d.one(f, n, d.figure)
	case KindFigures, KindRatios:
		return d.each(f, n, d.figure)
	case KindTyre:
		return d.one(f, n, d.tyre)
	case KindDate:
		return d.one(f, n, d.date)
	case KindDates:
		return d.each(f, n, d.date)
	case KindWhole:
		return d.one(f, n, d.whole)
	case KindCylinders:
		return d.cylinders(f, n)
	case KindOrder:
		return d.one(f, n, d.order)
	case KindThread:
		return d.one(f, n, d.thread)
	case KindClass:
		return d.one(f, n, d.class)
	case KindGrid:
		return d.targetGrid(f, n)
	case KindSizes:
		return d.sizes(f, n)
	case KindTable:
		if !n.isTable() {
			return d.wrongKind(f, n)
		}
		f.Table = d.table(n, f.Key)
		return true
	case KindTables:
		return d.tables(f, n)
	case KindReadings, KindGoals:
		if !n.isTable() {
			return d.wrongKind(f, n)
		}
		f.Readings = d.readingTree(n, stateOf(f.Key.Name))
		return true
	case KindLimits:
		if !n.isTable() {
			return d.wrongKind(f, n)
		}
		f.Limits = d.limitTree(n)
		return true
	case KindUnits:
		if !n.isTable() {
			return d.wrongKind(f, n)
		}
		d.units(f, n)
		return true
	}
	panic("parse: no decoding of kind " + f.Key.Kind.String())
}

// one decodes a key that holds a single thing.
func (d *decoder) one(f *Field, n *node, decode func(*Field, *node) bool) bool {
	if n.kind == nodeArray {
		return d.wrongKind(f, n)
	}
	return decode(f, n)
}

// each decodes a key that holds a list of things, or one of them.
func (d *decoder) each(f *Field, n *node, decode func(*Field, *node) bool) bool {
	if n.kind != nodeArray {
		return decode(f, n)
	}
	all := true
	for _, item := range n.items {
		if item.kind == nodeArray {
			all = d.wrongKind(f, item)
			continue
		}
		all = decode(f, item) && all
	}
	return all
}

// emptyList reports a list without items at a key that needs one.
func (d *decoder) emptyList(key *Key, n *node) bool {
	if n.kind != nodeArray || len(n.items) > 0 {
		return false
	}
	d.report("wrong-kind", source.Error, n.at, key.Name, fmt.Sprintf("`%s` is an empty list", key.Name), "fill it in or take the line out")
	return true
}

func (d *decoder) tables(f *Field, n *node) bool {
	all := true
	switch {
	case n.kind == nodeTables || n.kind == nodeArray:
		for _, item := range n.items {
			if !item.isTable() {
				all = d.wrongKind(f, item)
				continue
			}
			f.Tables = append(f.Tables, *d.table(item, f.Key))
		}
	case n.kind == nodeInline:
		f.Tables = append(f.Tables, *d.table(n, f.Key))
	case n.isTable():
		if !n.header.IsZero() {
			d.report("single-bracket", source.Error, n.header, f.Key.Name,
				fmt.Sprintf("`%s` is a list: each of its items has two brackets", f.Key.Name),
				fmt.Sprintf("write `[[%s]]`", f.Key.Name),
				source.Replace(fmt.Sprintf("write `[[%s]]`", f.Key.Name), n.header, "["+n.header.Text()+"]"))
		}
		f.Tables = append(f.Tables, *d.table(n, f.Key))
	default:
		return d.wrongKind(f, n)
	}
	return all
}

// wrongKind reports a value of another kind than its key holds. It returns false, as a decoding that failed does.
func (d *decoder) wrongKind(f *Field, n *node) bool {
	if n.kind == nodeBad || n.kind == nodeMissing {
		return false
	}
	due, do := f.Key.Kind.String(), f.Key.Doc
	if f.Key.Kind == KindName && n.kind == nodeArray {
		due = "one name"
		if len(n.items) > 0 && n.items[0].kind == nodeString {
			do = fmt.Sprintf("write one name, without brackets: `%s = %s`; it is %s", f.Key.Name, n.items[0].at.Text(), do)
		}
	}
	d.report("wrong-kind", source.Error, n.place(), f.Key.Name, fmt.Sprintf("`%s` holds %s, where %s is due", f.Key.Name, n.kind.words(), due), do)
	return false
}
