package parse

import "example.org/locknut/journal/source"

// This file decides which keys may stand beside which. The rules are those of TOML 1.1, sections "Keys", "Table", "Inline Table"
// and "Array of Tables" (read in the source); where they leave open whether dotted keys may add to a table that is only implied by a
// longer header, they may.

// place makes the node for the key in l.path[base:] below a table. Where the key may not stand there it records why and returns
// a node outside the tree, so that its value can still be read.
func (l *locator) place(table *node, base int) *node {
	segments := l.path[base:]
	last := len(segments) - 1
	n := l.newNode(segments[last].key, l.segmentAt(segments[last]))
	n.at = n.keyAt
	n.depth = table.depth + int32(len(segments))
	if int(table.depth)+len(segments) > locateDepth {
		n.depth = locateRefused
		l.fault(breakNestedTooDeep, segments[0].start, segments[last].end, "more than 100 keys deep")
		return n
	}
	for i, s := range segments[:last] {
		t := table.child(s.key)
		switch {
		case t == nil:
			t = l.newTable(table, s)
			t.origin = originDots
		case t.kind == nodeTable && t.origin != originHeader:
			t.origin = originDots // if it was so already, then under this header: no other reaches it
		default:
			l.redefined(base, i, t)
			return n
		}
		table = t
	}
	if first := table.child(n.key); first != nil {
		l.redefined(base, last, first)
		return n
	}
	table.add(n)
	return n
}

// open makes the table that a header names, l.path[base:], the one in force.
func (l *locator) open(base int, header source.Range, list bool) {
	l.quiet = false
	segments := l.path[base:]
	last := len(segments) - 1
	at := l.file.At(segments[0].start, segments[last].end)
	t := l.root
	for i, s := range segments {
		if int(t.depth)+2 > locateDepth {
			l.fault(breakNestedTooDeep, at.Start, at.End, "more than 100 keys deep")
			l.openApart(at, header)
			return
		}
		if i == last {
			break
		}
		next := t.child(s.key)
		switch {
		case next == nil:
			next = l.newTable(t, s)
		case next.kind == nodeTables:
			next = next.items[len(next.items)-1]
		case next.kind != nodeTable:
			l.redefined(base, i, next)
			l.openApart(at, header)
			return
		}
		t = next
	}
	if list {
		l.openItem(t, base, at, header)
		return
	}
	l.openTable(t, base, at, header)
}

// openTable opens the table that the last segment of a [header] names in t.
func (l *locator) openTable(t *node, base int, at, header source.Range) {
	last := len(l.path) - 1 - base
	s := l.path[base+last]
	n := t.child(s.key)
	switch {
	case n == nil:
		n = l.newTable(t, s)
	case n.kind == nodeTable && n.origin == originImplied:
	case n.kind == nodeTable:
		// It stands twice: its keys are seen in one place, and those that are there already aren't reported as well.
		l.redefined(base, last, n)
		l.table, l.quiet = n, true
		return
	case n.kind == nodeTables:
		l.redefined(base, last, n)
		l.openItem(t, base, at, header)
		return
	default:
		l.redefined(base, last, n)
		l.openApart(at, header)
		return
	}
	n.origin, n.at, n.header = originHeader, at, header
	l.table = n
}

// openItem opens a new table in the list that the last segment of a [[header]] names in t.
func (l *locator) openItem(t *node, base int, at, header source.Range) {
	last := len(l.path) - 1 - base
	s := l.path[base+last]
	list := t.child(s.key)
	switch {
	case list == nil:
		list = l.newTable(t, s)
		list.kind, list.at = nodeTables, at
	case list.kind != nodeTables:
		l.redefined(base, last, list)
		l.openApart(at, header)
		return
	}
	l.openApart(at, header)
	item := l.table
	item.key, item.keyAt, item.depth = s.key, l.segmentAt(s), list.depth+1
	list.items = append(list.items, item)
}

// openApart opens a table outside the tree, for the keys below a header that can't be had.
func (l *locator) openApart(at, header source.Range) {
	n := l.newNode("", source.Range{})
	n.origin, n.at, n.header, n.depth = originHeader, at, header, 1
	l.table = n
}

// newTable puts an implied table into a table.
func (l *locator) newTable(table *node, s locateSegment) *node {
	n := l.newNode(s.key, l.segmentAt(s))
	n.at = n.keyAt
	n.depth = table.depth + 1
	table.add(n)
	return n
}

// redefined records that the key l.path[base:] can't stand beside what is at its i-th segment already.
func (l *locator) redefined(base, i int, first *node) {
	if l.quiet || len(l.breaks) >= locateBreaks {
		return
	}
	segments := l.path[base:]
	kind, clash := locateClash(first, i == len(segments)-1)
	l.breaks = append(l.breaks, tomlBreak{
		at:      l.file.At(segments[0].start, segments[len(segments)-1].end),
		kind:    kind,
		message: locateShown(l.text[segments[0].start:segments[i].end]) + clash,
		also:    first.keyAt,
	})
}

// locateClash says why a key can't be set where first stands, or nothing be put below it.
func locateClash(first *node, whole bool) (kind, clash string) {
	switch {
	case whole && first.kind == nodeTable && first.origin == originHeader:
		return breakRedefined, " is already the table of a header"
	case whole && first.kind == nodeTable:
		return breakDeeper, " already has keys below it"
	case first.kind == nodeTables:
		return breakRedefined, " is already a list of tables"
	case whole:
		return breakRedefined, " is already there"
	case first.kind == nodeTable && first.origin == originHeader:
		return breakRedefined, " has a header of its own, and its keys stand there"
	case first.kind == nodeTable:
		return breakRedefined, " was given its keys under another header"
	case first.kind == nodeInline:
		return breakRedefined, " is closed by its braces"
	}
	return breakDeeper, " already has a value, so nothing can stand below it"
}
