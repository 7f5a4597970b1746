package model

import (
	"example.org/locknut/journal/parse"
)

// place is what happened at one position.
type place struct {
	values []*Value    // that spoke for it, in order of time
	track  []happening // in order of time
	unread []int       // the moments at which something that can't be read was measured
	untold []int       // the moments at which something was measured that doesn't tell what stands here
}

// placeOf returns the place of a position, a fresh one where nothing happened yet.
func (j *Journal) placeOf(position string) *place {
	p := j.places[position]
	if p == nil {
		p = &place{}
		j.places[position] = p
	}
	return p
}

// placeAt returns the place of a position to look at: an empty one where nothing happened.
func (j *Journal) placeAt(position string) *place {
	if p := j.places[position]; p != nil {
		return p
	}
	return &nowhere
}

var nowhere place

// spot is what the linker needs to know of a path each time that a value stands there: worked out once, for a path is read many times.
type spot struct {
	pattern   *parse.Pattern // the row of the path table that it fits; nil for none
	positions []string       // at and below it
	places    []*place       // of the positions
	limits    []*Limit       // that govern it while nothing is fitted or taken out
	fits      int            // the linker's count when the limits were looked up; 0: never
}

// spotOf returns the spot of a path.
func (l *linker) spotOf(path string) *spot {
	s := l.spots[path]
	if s == nil {
		s = &spot{pattern: parse.FindPattern(path), positions: l.journal.Positions.Below(path)}
		for _, position := range s.positions {
			s.places = append(s.places, l.journal.placeOf(position))
		}
		l.spots[path] = s
	}
	return s
}

// governing returns the limits that govern a path with what is fitted at the moment that is being played.
func (l *linker) governing(path string) []*Limit {
	s := l.spotOf(path)
	if s.fits != l.fits {
		s.limits, s.fits = l.journal.governing(path, l.journal.Fitted), l.fits
	}
	return s.limits
}
