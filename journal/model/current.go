package model

import (
	"slices"
	"sort"

	"example.org/locknut/journal/parse"
)

// currentAt returns the value in force at a position at a moment; nil if there is none.
func (j *Journal) currentAt(position string, order int) *Value {
	v, _ := j.newest(position, order)
	return v
}

// newest returns the value in force at a position at a moment. Where only stale readings stand there it returns none, and the part
// that made them so: by going in, or by coming out, since what was read of it went with it.
func (j *Journal) newest(position string, order int) (v *Value, staleBy *Part) {
	track := j.placeAt(position).track // in order of time
	until := sort.Search(len(track), func(i int) bool { return track[i].order > order })
	var taken []*Value
	stale := false
	for i := until - 1; i >= 0; i-- {
		h := track[i]
		switch h.kind {
		case isRead:
			if !stale || h.value.Origin == FromSheet {
				return h.value, nil
			}
		case goesStale:
			stale = true
			if staleBy == nil {
				staleBy = h.part
			}
		case isTaken:
			taken, stale = append(taken, h.value), true
			if staleBy == nil {
				staleBy = h.part
			}
		case isBrought:
			if !slices.Contains(taken, h.value) {
				return h.value, nil
			}
		}
	}
	return nil, staleBy
}

// At returns the value in force at a path when an entry ended, nil where there is none or its positions differ.
func (j *Journal) At(path string, e *Entry) *Value {
	return j.at(path, j.EndOf(e))
}

func (j *Journal) at(path string, order int) *Value {
	var value *Value
	for i, position := range j.Positions.Below(path) {
		v := j.currentAt(position, order)
		if v == nil || i > 0 && v != value {
			return nil
		}
		value = v
	}
	return value
}

// settle finds out which values are current, which are settled by newer ones, and which requests are open.
func (l *linker) settle() {
	j := l.journal
	end := j.end()
	for _, position := range sortedKeys(j.places) {
		current, staleBy := j.newest(position, end)
		if current != nil {
			current.Current = true
		}
		if last := j.LastMeasured(position); last != nil && staleBy != nil {
			last.StaleBy = staleBy
		}
	}
	for _, v := range j.Values {
		v.Settled = v.taken || v.isLesser() || !slices.ContainsFunc(v.spot.positions, func(position string) bool { return !j.isReadAfter(position, v) })
	}
	for _, r := range j.Requests {
		for _, position := range j.Positions.Below(r.Path) {
			missing := j.missingSince(position, r.Order)
			r.Sizes = r.Sizes || len(missing) > 0 && !parse.IsAtOrBelow(missing[0], position)
			r.Missing = append(r.Missing, missing...)
		}
	}
	j.Requests = slices.DeleteFunc(j.Requests, func(r *Request) bool { return len(r.Missing) == 0 })
	l.changes()
	l.shimSizes()
	l.findShimWork()
}

// LastMeasured returns the newest reading that counts at a position, nil if there is none.
func (j *Journal) LastMeasured(position string) *Value {
	history := j.placeAt(position).values
	for i := len(history) - 1; i >= 0; i-- {
		if v := history[i]; v.Counts && v.isMeasured() {
			return v
		}
	}
	return nil
}

// Stretches returns the readings that count at a position since a part that went in or came out last made older ones stale: the oldest first, in pieces
// between which the position was set anew, or something was measured there that can't be read. What was set begins a piece.
func (j *Journal) Stretches(position string) [][]*Value {
	p := j.placeAt(position)
	unread := append(slices.Clone(p.unread), p.untold...)
	for _, v := range p.values {
		if v.Origin == Set && !v.Counts { // words, or set in a state in which nothing can be read
			unread = append(unread, v.Order)
		}
	}
	slices.Sort(unread)
	var pieces [][]*Value
	begin := true
	for _, h := range p.track {
		for len(unread) > 0 && unread[0] <= h.order {
			unread, begin = unread[1:], true
		}
		switch {
		case h.kind == goesStale, h.kind == isTaken:
			pieces, begin = nil, true
		case h.kind == isRead && h.value.Counts && h.value.isMeasured():
			if begin || h.value.Origin == Set {
				pieces = append(pieces, nil)
			}
			begin = false
			pieces[len(pieces)-1] = append(pieces[len(pieces)-1], h.value)
		}
	}
	return pieces
}

// IsReadAfter reports whether an entry after that one has a reading that counts at a position, or one that can't be read; or, where a number is
// worked out there, such readings of both sizes that it is worked out from.
func (j *Journal) IsReadAfter(position string, e *Entry) bool {
	return len(j.missingSince(position, j.EndOf(e)+1)) == 0
}

// missingSince returns what has yet to be read for a position to be read since a moment: the position itself, or those of the two sizes that it
// is worked out from; nothing once it is.
func (j *Journal) missingSince(position string, order int) []string {
	if j.readSince(position, order) {
		return nil
	}
	sizes := j.sizesAt(position, j.Fitted)
	if len(sizes) == 0 {
		return []string{position}
	}
	var missing []string
	for _, s := range sizes {
		for _, of := range j.spotsOf(s) {
			if !j.readSince(of, order) && !slices.Contains(missing, of) {
				missing = append(missing, of)
			}
		}
	}
	return missing
}

// size is one of the two sizes that a clearance is worked out from: a path, and the path of its limit's `of` that it stands at or below.
type size struct{ path, top string }

// sizesAt returns the two sizes that a limit in force works a position out from; none where none does.
func (j *Journal) sizesAt(position string, fitted []*Part) []size {
	for _, limit := range j.differences {
		if !parse.IsAtOrBelow(position, limit.Path) || j.limitAt(limit.Path, fitted) != limit {
			continue
		}
		of, below := limit.Of(), position[len(limit.Path):]
		return []size{{of[0] + below, of[0]}, {of[1] + below, of[1]}}
	}
	return nil
}

// spotsOf returns the positions of a size: those at and below its path; where there is none, the one above it, down from its limit's path, that
// speaks for it.
func (j *Journal) spotsOf(s size) []string {
	for path := s.path; len(path) >= len(s.top); path = parse.Above(path) {
		below := j.Positions.Below(path)
		if path == s.path && below[0] != path || j.Positions.has(path) {
			return below
		}
	}
	return j.Spots(s.path)
}

// isReadAfter reports whether a reading that counts stands after v at a position.
func (j *Journal) isReadAfter(position string, v *Value) bool {
	after := v.Order + 1
	if v.IsLogged() {
		after = v.log().stateEnd() + 1 // what was logged beside it says nothing against it
	}
	if j.isUnread(position, after) {
		return true
	}
	history := j.placeAt(position).values
	for i := len(history) - 1; i >= 0 && history[i] != v; i-- {
		if history[i].Counts && history[i].isMeasured() {
			return true
		}
	}
	return false
}

func (j *Journal) readSince(position string, order int) bool {
	if j.isUnread(position, order) {
		return true
	}
	history := j.placeAt(position).values
	for i := len(history) - 1; i >= 0; i-- {
		if v := history[i]; v.Counts && v.isMeasured() && v.Order >= order {
			return true
		}
	}
	return false
}

// Read returns the paths that were read or brought, or stand in the sheet, each once, in order.
func (j *Journal) Read() []string {
	seen := map[string]bool{}
	for _, v := range j.Values {
		seen[v.Path] = true
	}
	paths := sortedKeys(seen)
	return paths
}

// unread notes that something was measured at a path that can't be read: nothing is concluded from its absence.
func (l *linker) unread(path string, order int) {
	l.journal.anyUnread = true
	for _, position := range l.journal.Positions.Below(path) {
		p := l.journal.placeOf(position)
		p.unread = append(p.unread, order)
	}
}

// untoldAt notes that something was measured which doesn't tell what stands at a path: nothing is concluded from its absence, and what stood there before stays.
func (l *linker) untoldAt(path string, order int) {
	for _, position := range l.journal.Positions.Below(path) {
		p := l.journal.placeOf(position)
		p.untold = append(p.untold, order)
	}
}

// HasUnread reports whether something that can't be read was measured anywhere.
func (j *Journal) HasUnread() bool { return j.anyUnread }

// IsUnreadSince reports whether something that can't be read was measured at a path since the value in force there was (nil: ever), up to the end of an entry (nil: up to now): that
// value doesn't stand for it.
func (j *Journal) IsUnreadSince(path string, v *Value, e *Entry) bool {
	from, to := 0, j.end()
	if v != nil {
		from = v.Order
	}
	if e != nil {
		to = j.EndOf(e)
	}
	return j.isUnreadAt(path, from, to)
}

// IsUnreadAfter reports whether something that can't be read was measured at a path after a log, and not beside it.
func (j *Journal) IsUnreadAfter(path string, log *Log) bool {
	return j.isUnreadAt(path, log.stateEnd()+1, j.end())
}

// isUnreadAt reports whether something that can't be read was measured at a path between two moments, or at one of them.
func (j *Journal) isUnreadAt(path string, from, to int) bool {
	if !j.anyUnread {
		return false
	}
	for above := parse.Above(path); above != ""; above = parse.Above(above) { // a table of the sheet
		if isAnyBetween(j.placeAt(above).unread, from, to) {
			return true
		}
	}
	return slices.ContainsFunc(j.Positions.Below(path), func(position string) bool { return isAnyBetween(j.placeAt(position).unread, from, to) })
}

func isAnyBetween(orders []int, from, to int) bool {
	return slices.ContainsFunc(orders, func(order int) bool { return from <= order && order <= to })
}

// IsUnread reports whether something that can't be read was measured at a path.
func (j *Journal) IsUnread(path string) bool {
	return slices.ContainsFunc(j.Positions.Below(path), func(position string) bool { return j.isUnread(position, 0) })
}

// isUnread reports whether something that can't be read was measured at a position at a moment, or later.
func (j *Journal) isUnread(position string, order int) bool {
	return j.isUnreadBetween(position, order, j.end())
}

// isUnreadBetween reports whether something that can't be read was measured at a position between two moments, or at one of them.
func (j *Journal) isUnreadBetween(position string, from, to int) bool {
	p := j.placeAt(position)
	return isAnyBetween(p.unread, from, to) || isAnyBetween(p.untold, from, to)
}

// IsAnyUnread reports whether a file, or a value anywhere, can't be read: what would be worked out from it is missing too.
func (j *Journal) IsAnyUnread() bool {
	if j.Build.Fields == nil || len(j.Withheld) > 0 {
		return true
	}
	for _, p := range j.places {
		if len(p.unread)+len(p.untold) > 0 {
			return true
		}
	}
	return false
}
