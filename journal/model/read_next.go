package model

import (
	"slices"
	"sort"
	"strings"
)

// ReadNext returns what took the place of a value at each position that it speaks for, where all of it was found so: nothing was set there in between, no part went in or came out that takes
// its place, and nothing was measured that can't be read. None else: what was put right may well have been what it says.
func (j *Journal) ReadNext(v *Value) []*Value {
	if !v.Counts || v.spot == nil || v.Origin == FromPart && v.taken {
		return nil
	}
	var next []*Value
	for _, position := range v.spot.positions {
		w := j.foundNext(position, v)
		if w == nil {
			return nil
		}
		if !slices.Contains(next, w) {
			next = append(next, w)
		}
	}
	return next
}

// foundNext returns what was found at a position where a value stood, and took its place; nil where anything else happened there first.
func (j *Journal) foundNext(position string, v *Value) *Value {
	p := j.placeAt(position)
	at := sort.Search(len(p.track), func(i int) bool { return p.track[i].order >= v.Order })
	for at < len(p.track) && !(p.track[at].value == v && p.track[at].kind != isTaken) {
		at++
	}
	if at+1 >= len(p.track) {
		return nil
	}
	h := p.track[at+1]
	if h.kind != isRead || h.value.Origin != Found || j.isUnreadBetween(position, v.Order+1, h.order) {
		return nil
	}
	if p.isSetBetween(v.Order, h.order) { // in words, or in a state in which nothing can be read
		return nil
	}
	if below, isLash := strings.CutPrefix(position, "lash."); isLash && j.placeAt("shim."+below).isSetBetween(v.Order, h.order) {
		return nil // it is set by its shim
	}
	return h.value
}

// isSetBetween reports whether something was set at a place after a moment and before another.
func (p *place) isSetBetween(from, to int) bool {
	after := sort.Search(len(p.values), func(i int) bool { return p.values[i].Order > from })
	for _, v := range p.values[after:] {
		if v.Order >= to {
			return false
		}
		if v.Origin == Set {
			return true
		}
	}
	return false
}
