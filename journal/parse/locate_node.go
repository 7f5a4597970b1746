package parse

import "example.org/locknut/journal/source"

// nodeKind says what stands at a place in a TOML text. Its zero value is a table, which the root is.
type nodeKind uint8

const (
	nodeTable     nodeKind = iota // by [header], by dots, or implied by a longer header
	nodeInline                    // table in braces
	nodeTables                    // array of tables by [[header]]
	nodeArray                     // array in brackets
	nodeString                    // "…" or '…'
	nodeMultiline                 // """…""" or '''…'''
	nodeInteger                   // number without a point
	nodeFloat                     // number with a point or exponent, nan and inf too
	nodeBool                      // true or false
	nodeTime                      // date, time of day, or both
	nodeBad                       // a value that can't be read
	nodeMissing                   // a key with no value
)

// node is one key of a TOML text with its value, or one item of an array, with their places.
type node struct {
	key   string       // this segment of the key, without quotes and escapes; an array's item has none
	keyAt source.Range // the segment as it was first written, quotes included; an array's item has none
	at    source.Range // the value; of a table its header's key or the segment that made it; of the root the whole file
	kind  nodeKind
	text  string // a string's content; otherwise the value as written; nothing for a table
	inner int    // of a string: offset in the file of its content's first byte

	items  []*node      // of an array or array of tables
	keys   []*node      // of a table, in the order in which they are first mentioned
	header source.Range // of a table with a header: all of it, brackets included

	origin nodeOrigin
	depth  int32            // tables and arrays that it stands in
	runs   []locateRun      // of a string whose content isn't a plain copy: which text comes from where
	index  map[string]*node // of a table with many keys
}

// nodeOrigin says how a table came to be, which decides who may add to it.
type nodeOrigin uint8

const (
	originImplied nodeOrigin = iota // a longer header named it: its own header may follow, and dotted keys may use it
	originHeader                    // closed to dotted keys from elsewhere
	originDots                      // open to dotted keys under the same header alone
)

// locateRun is a piece of a string's content: from this offset in the content on, it comes from that offset in the file.
type locateRun struct {
	text, file int
	end        int // of an escape, which can't be split: its end in the file; else 0
}

// locateIndexed is the number of keys from which a table is searched through a map.
const locateIndexed = 12

// child returns the key of that name in a table, or nil.
func (n *node) child(key string) *node {
	if n.index != nil {
		return n.index[key]
	}
	for _, k := range n.keys {
		if k.key == key {
			return k
		}
	}
	return nil
}

// alone returns the string apart from its tree, so that the tree need not be kept.
func (n *node) alone() *node {
	return &node{at: n.at, kind: n.kind, text: n.text, inner: n.inner, runs: n.runs}
}

// span returns the place in the file of the bytes start to end of n.text. An escape counts whole. An empty span is
// that of the character at start, and after the last that of the closing quote.
func (n *node) span(start, end int) source.Range {
	start = max(0, min(start, len(n.text)))
	end = max(start, min(end, len(n.text)))
	if start == end && end < len(n.text) {
		end++
	}
	from := n.at.Start
	if n.kind == nodeString || n.kind == nodeMultiline {
		from = n.inner
	}
	if len(n.runs) == 0 {
		return n.at.File.At(from+start, from+end)
	}
	i := n.run(start)
	first := n.runs[i].file
	if n.runs[i].end == 0 {
		first += start - n.runs[i].text
	}
	if start == end {
		return n.at.File.At(first, first)
	}
	i = n.run(end - 1)
	last := n.runs[i].file + end - n.runs[i].text
	if n.runs[i].end > 0 {
		last = n.runs[i].end
	}
	return n.at.File.At(first, last)
}

// run returns the index of the piece in which a byte of the content lies.
func (n *node) run(offset int) int {
	low, high := 0, len(n.runs)
	for high-low > 1 {
		middle := (low + high) / 2
		if n.runs[middle].text <= offset {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// add puts a key into a table.
func (n *node) add(k *node) {
	n.keys = append(n.keys, k)
	switch {
	case n.index != nil:
		n.index[k.key] = k
	case len(n.keys) > locateIndexed:
		n.index = make(map[string]*node, 4*locateIndexed)
		for _, k := range n.keys {
			n.index[k.key] = k
		}
	}
}
