package render

import (
	"slices"
	"strconv"
	"strings"

	"example.org/locknut/journal/model"
)

// sessionName is what a session is called where it stands among others: its day, or the title of an entry without one; and if need be what tells
// it from others of that day: the time, or which of them it is; the side of its entry's work.
type sessionName struct{ day, which, side string }

func (n sessionName) String() string {
	return joined(n.day, n.which, n.side)
}

// joined puts commas between texts, less the empty ones.
func joined(texts ...string) string {
	return strings.Join(slices.DeleteFunc(texts, func(text string) bool { return text == "" }), ", ")
}

// sessionNames tell sessions, which come in order of time, from each other in a few words: by the day, with its year where there are several;
// those of one day by which came before the work of their entry, or by the time of day, or else by their order. No two are alike.
func sessionNames(sessions []*model.Pulls) map[*model.Pulls]sessionName {
	dayOf := dayName
	if isOfOneYear(sessions) {
		dayOf = dayInYear
	}
	var days []string
	ofDay := map[string][]*model.Pulls{}
	for _, session := range sessions {
		day := dayOf(session.Entry)
		if ofDay[day] == nil {
			days = append(days, day)
		}
		ofDay[day] = append(ofDay[day], session)
	}
	names := map[*model.Pulls]sessionName{}
	used := map[string]bool{}
	for _, day := range days {
		for i, name := range namesOfDay(day, ofDay[day]) {
			for n := 2; used[name.String()]; n++ { // an entry without a day may be titled like anything
				name.which = "number " + strconv.Itoa(n)
			}
			used[name.String()] = true
			names[ofDay[day][i]] = name
		}
	}
	return names
}

func isOfOneYear(sessions []*model.Pulls) bool {
	return !slices.ContainsFunc(sessions, func(session *model.Pulls) bool {
		return session.Entry.Date.Year != sessions[0].Entry.Date.Year
	})
}

// dayName is the day of an entry, or the title of one that has none.
func dayName(e *model.Entry) string {
	if e.Date.IsZero() {
		return e.Title
	}
	return e.Date.String()
}

// dayInYear is dayName without the year, where that says nothing.
func dayInYear(e *model.Entry) string {
	if e.Date.IsZero() {
		return e.Title
	}
	return strconv.Itoa(e.Date.Day) + " " + months[e.Date.Month-1]
}

var months = [...]string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"}

// namesOfDay name the sessions of one day in the first way in which no two are alike.
func namesOfDay(day string, sessions []*model.Pulls) []sessionName {
	bySide, byTime, inOrder := make([]sessionName, len(sessions)), make([]sessionName, len(sessions)), make([]sessionName, len(sessions))
	ofOneEntry, isTimed := true, true
	for i, session := range sessions {
		e, side := session.Entry, sideOf(session, sessions)
		bySide[i] = sessionName{day, "", side}
		byTime[i] = sessionName{day, e.Date.Time, side}
		inOrder[i] = sessionName{day, ordinal(i), ""}
		if !e.Date.IsZero() {
			inOrder[i].which += " that day"
		}
		ofOneEntry = ofOneEntry && e == sessions[0].Entry
		isTimed = isTimed && e.Date.Time != ""
	}
	switch {
	case ofOneEntry && areApart(bySide):
		return bySide
	case isTimed && areApart(byTime):
		return byTime
	}
	return inOrder
}

// sideOf says on which side of its entry's work a session stands: before it, or after it where another stands before it.
func sideOf(session *model.Pulls, sessions []*model.Pulls) string {
	if session.State == "before" {
		return "before"
	}
	if slices.ContainsFunc(sessions, func(other *model.Pulls) bool { return other.Entry == session.Entry && other.State == "before" }) {
		return "after"
	}
	return ""
}

func areApart(names []sessionName) bool {
	seen := map[sessionName]bool{}
	for _, name := range names {
		seen[name] = true
	}
	return len(seen) == len(names)
}

// ordinal is a place in a row, counted from 0, in words as far as they are short.
func ordinal(i int) string {
	words := [...]string{"first", "second", "third", "fourth", "fifth", "sixth"}
	if i < len(words) {
		return words[i]
	}
	return "number " + strconv.Itoa(i+1)
}
