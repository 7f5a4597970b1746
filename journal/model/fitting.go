package model

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// Change is a part that goes in or comes out in an entry.
type Change struct {
	Entry     *Entry
	Ref       Ref
	Kind      ChangeKind
	Displaced *Part // what the fitting took out of the slot
	Other     *Part // fitted into the same slot by the same entry
}

// ChangeKind says what happened to a part, and whether that can be.
type ChangeKind uint8

// The kinds of change.
const (
	Fits            ChangeKind = iota + 1
	Renews                     // fitted though it was in: a new one of its kind
	Removes                    //
	RemovesUnlisted            // never fitted or bought: the machine came with it, but no list says so
	RemovesAbsent              // not in
)

// asMade fits what the machine came with. A slot holds one part, and a part is in once.
func (l *linker) asMade() {
	bySlot := map[string]*Part{}
	for _, name := range l.sources.Build.Fields.Names("fitted") {
		part := l.journal.parts[name.Name]
		if part == nil || l.isListedTwice(name, part.AsMade) {
			continue
		}
		if other := bySlot[part.Slot]; other != nil && part.Slot != "" {
			l.report("slot-twice", source.Error, name.At, part.Name, fmt.Sprintf("`%s` and `%s` go into one slot, `%s`", other.Name, part.Name, part.Slot), "a slot holds one part: leave out the one that the machine did not come with")
			continue
		}
		bySlot[part.Slot] = part
		part.AsMade = true
		l.fit(part, nil, 0)
	}
}

// isListedTwice reports a part that one list of parts fitted names again.
func (l *linker) isListedTwice(name parse.Name, again bool) bool {
	if again {
		l.report("defined-twice", source.Error, name.At, name.Name, fmt.Sprintf("`%s` is listed twice", name.Typed), "list each part once")
	}
	return again
}

func (l *linker) bought(e *Entry) {
	for _, ref := range e.Bought {
		if ref.Part != nil && ref.Part.Bought == nil {
			ref.Part.Bought = e
		}
	}
}

func (l *linker) remove(e *Entry) {
	order := orderOf(e.Index, momentRemoved)
	for _, ref := range e.Removed {
		part := ref.Part
		if part == nil {
			continue
		}
		change := Change{Entry: e, Ref: ref, Kind: Removes}
		switch {
		case part.IsFitted():
			l.takeOut(part, e, order)
		case l.cameAlong(part, e):
			change.Kind = RemovesUnlisted
			part.Stays = append(part.Stays, Stay{To: e})
		default:
			change.Kind = RemovesAbsent
		}
		l.journal.Changes = append(l.journal.Changes, change)
	}
}

// cameAlong reports whether a part that was never fitted or bought may have been in from the start: its slot is free, and the entry that
// takes it out does not fit it.
func (l *linker) cameAlong(part *Part, e *Entry) bool {
	if len(part.Stays) > 0 || part.Bought != nil || slices.ContainsFunc(e.Fitted, func(r Ref) bool { return r.Part == part }) {
		return false
	}
	return part.Slot == "" || !slices.ContainsFunc(l.journal.Parts, func(p *Part) bool { return p.Slot == part.Slot && len(p.Stays) > 0 })
}

func (l *linker) fitAll(e *Entry) {
	order := orderOf(e.Index, momentFitted)
	bySlot, fitted := map[string]*Part{}, map[*Part]bool{}
	for _, ref := range e.Fitted {
		part := ref.Part
		if part == nil || l.isListedTwice(ref.Name, fitted[part]) {
			continue
		}
		fitted[part] = true
		change := Change{Entry: e, Ref: ref, Kind: Fits}
		if part.IsFitted() {
			change.Kind = Renews
			l.takeOut(part, e, order)
		}
		if part.Slot != "" {
			change.Other = bySlot[part.Slot]
			bySlot[part.Slot] = part
			for _, other := range slices.Clone(l.journal.Fitted) {
				if other.Slot == part.Slot {
					change.Displaced = other
					l.takeOut(other, e, order)
				}
			}
		}
		l.fit(part, e, order)
		part.Stays[len(part.Stays)-1].Renewed = change.Kind == Renews
		l.journal.Changes = append(l.journal.Changes, change)
	}
}

// fit puts a part in: what it brings holds from now on, and what must be read again is stale.
func (l *linker) fit(part *Part, e *Entry, order int) {
	j := l.journal
	part.Stays = append(part.Stays, Stay{From: e})
	j.Fitted = append(slices.Clip(j.Fitted), part)
	l.fits++
	if e != nil {
		for _, path := range part.Fields.Names("then") {
			for _, position := range j.Positions.Below(path.Name) {
				l.happen(position, happening{order: order, kind: goesStale, part: part})
				for _, s := range j.sizesAt(position, j.Fitted) { // what it is worked out from: nothing new is worked out from the old
					for _, of := range j.spotsOf(s) {
						l.happen(of, happening{order: order, kind: goesStale, part: part})
					}
				}
			}
			j.Requests = append(j.Requests, &Request{Path: path.Name, At: refAt(e, part), From: path.At, Entry: e, Part: part, Order: order})
		}
	}
	for i := range part.Brings {
		r := &part.Brings[i]
		if r.Unread {
			l.unread(r.Path, order)
			continue
		}
		if r.Value.IsBlank() {
			continue
		}
		v := (&Value{Path: r.Path, Origin: FromPart, Entry: e, Part: part, Order: order, Written: &r.Value, Counts: true}).placed(r.PathAt)
		l.value(v)
		part.brought = append(part.brought, v)
	}
}

func refAt(e *Entry, part *Part) source.Range {
	for _, ref := range e.Fitted {
		if ref.Part == part {
			return ref.At
		}
	}
	return e.Fence
}

func (l *linker) takeOut(part *Part, e *Entry, order int) {
	j := l.journal
	part.Stays[len(part.Stays)-1].To = e
	j.Fitted = slices.DeleteFunc(slices.Clone(j.Fitted), func(p *Part) bool { return p == part })
	l.fits++
	for _, v := range part.brought {
		v.taken = true
		for _, position := range v.spot.positions {
			l.happen(position, happening{order: order, kind: isTaken, value: v, part: part})
		}
	}
	part.brought = nil
	j.Requests = slices.DeleteFunc(j.Requests, func(r *Request) bool { return r.Part == part })
}

// OrderOf returns the moment of a change.
func (j *Journal) OrderOf(c Change) int {
	if c.Kind == Fits || c.Kind == Renews {
		return orderOf(c.Entry.Index, momentFitted)
	}
	return orderOf(c.Entry.Index, momentRemoved)
}
