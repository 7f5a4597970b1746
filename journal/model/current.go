package model

import (
	"slices"
	"sort"
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
		v.Settled = v.taken || !slices.ContainsFunc(v.spot.positions, func(position string) bool { return !j.isReadAfter(position, v) })
	}
	for _, r := range j.Requests {
		for _, position := range j.Positions.Below(r.Path) {
			if !j.readSince(position, r.Order) {
				r.Missing = append(r.Missing, position)
			}
		}
	}
	j.Requests = slices.DeleteFunc(j.Requests, func(r *Request) bool { return len(r.Missing) == 0 })
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

// IsReadAfter reports whether an entry after that one has a reading that counts at a position, or one that can't be read.
func (j *Journal) IsReadAfter(position string, e *Entry) bool {
	return j.readSince(position, j.EndOf(e)+1)
}

// isReadAfter reports whether a reading that counts stands after v at a position.
func (j *Journal) isReadAfter(position string, v *Value) bool {
	if j.isUnread(position, v.Order+1) {
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
	for _, position := range l.journal.Positions.Below(path) {
		p := l.journal.placeOf(position)
		p.unread = append(p.unread, order)
	}
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
	return slices.ContainsFunc(j.placeAt(position).unread, func(order int) bool { return from <= order && order <= to })
}
