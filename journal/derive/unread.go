package derive

import (
	"strings"

	"example.org/locknut/journal/model"
)

// unclearBecause begins the reason for a number of which some inputs can't be read.
const unclearBecause = "unclear while something can't be read: "

// unread reports whether something stands at a path that can't be read: what was known there before doesn't stand for it, and it isn't nought because it is missing.
func (m *Moment) unread(path string) bool {
	return m.Journal.HasUnread() && m.Journal.IsUnreadSince(path, m.inForce(path), m.Entry)
}

// inForce returns the value in force at a path, words too.
func (m *Moment) inForce(path string) *model.Value {
	if m.Entry == nil {
		return m.Journal.Current(path)
	}
	return m.Journal.At(path, m.Entry)
}

// unclear is the reason for a number of which some inputs can't be read; "" where all can.
func (m *Moment) unclear(paths ...string) string {
	if !m.Journal.HasUnread() {
		return ""
	}
	var unread []string
	for _, path := range paths {
		if m.unread(path) {
			unread = append(unread, path)
		}
	}
	if len(unread) == 0 {
		return ""
	}
	return unclearBecause + strings.Join(unread, ", ")
}

// isUnclear reports whether a number can't be had because something can't be read.
func isUnclear(n *Number) bool { return strings.HasPrefix(n.Reason, unclearBecause) }

// lacks says which inputs are missing, by their paths; "" where none is. Of what can't be read it says so: that was given.
func (m *Moment) lacks(missing []string) string {
	if unclear := m.unclear(missing...); unclear != "" {
		return unclear
	}
	return notGiven(missing)
}

// notGiven says which of other things are missing; "" where none is.
func notGiven(missing []string) string {
	if len(missing) == 0 {
		return ""
	}
	return "not given: " + strings.Join(missing, ", ")
}
