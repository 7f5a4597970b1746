package model

import (
	"math"
	"strings"

	"example.org/locknut/journal/quantity"
)

// A lash says which shim is wanted only together with the shim that it was read with. `shim.intake.left` is what is in at `lash.intake.left`.

// Shimmed is what is known of the shim at a valve whose lash was read.
type Shimmed struct {
	Then      *Value // the shim that the lash was read with; nil where nobody knows
	Changed   *Value // the one that is in, where that is another: then the lash is no longer what was read; nil where it is the same
	Unwritten bool   // the lash was set anew since a shim was written: which one is in nobody knows
}

// ShimsAt returns what is known of the shim at a valve as an entry left it (nil: now), of the lash that is in force then. Below is what follows `lash` in the valve's path.
func (j *Journal) ShimsAt(below string, lash *Value, e *Entry) (s Shimmed) {
	until := j.end()
	if e != nil {
		until = j.EndOf(e)
	}
	for _, position := range j.Positions.Below("shim" + below) {
		if s = j.shims(position, lash, until); s.Changed != nil || s.Unwritten {
			break
		}
	}
	return s
}

// shims is [Journal.ShimsAt] for one position and moment. A shim that was first found after the lash was read was in by then, for all that anybody
// knows.
func (j *Journal) shims(position string, lash *Value, until int) Shimmed {
	then, now := j.currentAt(position, lash.Order), j.currentAt(position, until)
	if anew := j.anewAt(position, lash.Order); anew != nil {
		if anew.isUnwritten(until) || now == nil || now.Order <= lash.Order {
			return Shimmed{Unwritten: true}
		}
		then = nil
	}
	if now == nil || now.Order <= lash.Order {
		return Shimmed{Then: then}
	}
	if then == nil {
		if next := j.nextAt(position, lash.Order); next != nil && next.Origin == Found {
			then = next
		}
	}
	if isSameShim(then, now) {
		return Shimmed{Then: then}
	}
	return Shimmed{Then: then, Changed: now}
}

// sameShim is how far apart, in m, two readings of one shim may lie: what a micrometer and wear leave open. A shim that was put in is told exactly.
// Common practice, no source.
const sameShim = 0.01e-3

// isSameShim reports whether the shim that is in now is, by its thickness, the one that was in then.
func isSameShim(then, now *Value) bool {
	if then == nil || then == now || then.Quantity.Unit == nil || now.Quantity.Unit == nil {
		return then == now
	}
	apart := 0.0
	if now.Origin == Found {
		apart = sameShim
	}
	return quantity.Compare(math.Abs(now.Estimate.Value-then.Estimate.Value), apart, then.Estimate.Value) <= 0
}

// OldLash is a lash that stood at a valve when its shim was changed.
type OldLash struct {
	Position string
	Read     *Value
	Over     bool // it was read again since, or taken over by what asks for that, or the shim was changed back
}

// LashesBefore returns the lashes that a value of a shim makes old: those of its valves that were read with another shim, and not again by the same entry.
// A change that only follows on one before it, with no lash read between them, makes none old anew.
func (j *Journal) LashesBefore(shim *Value) []OldLash {
	top, isShim := strings.CutPrefix(shim.Path, "shim")
	if !isShim || top != "" && top[0] != '.' || !shim.Counts || shim.Entry == nil || j.IsFarShim(shim) {
		return nil
	}
	var old []OldLash
	for _, at := range j.Positions.Below(shim.Path) {
		for _, position := range j.Positions.Below("lash" + strings.TrimPrefix(at, "shim")) {
			if lash := j.lashMadeOld(position, at, shim); lash != nil {
				over := j.readSince(position, shim.Order) || j.currentAt(position, j.end()) == nil
				if j.shims(at, lash, j.end()).Changed == nil {
					over = true
				}
				old = append(old, OldLash{Position: position, Read: lash, Over: over})
			}
		}
	}
	return old
}

// lashMadeOld returns the lash at a position that a value of the shim at a place makes old, nil for none.
func (j *Journal) lashMadeOld(position, at string, shim *Value) *Value {
	lash := j.currentAt(position, shim.Order)
	if lash == nil || !lash.isMeasured() || lash.Order >= shim.Order {
		return nil
	}
	if j.shims(at, lash, shim.Order-1).Changed != nil {
		return nil
	}
	if j.shims(at, lash, shim.Order).Changed == nil || j.isReadBetween(position, shim.Order, j.EndOf(shim.Entry)) {
		return nil
	}
	return lash
}

// isReadBetween reports whether a reading that counts, or one that can't be read, stands at a position between two moments, or at one of them.
func (j *Journal) isReadBetween(position string, from, to int) bool {
	for _, v := range j.placeAt(position).values {
		if v.Counts && v.isMeasured() && from <= v.Order && v.Order <= to {
			return true
		}
	}
	return j.isUnreadBetween(position, from, to)
}
