package source

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
)

// Severity says how bad a finding is. Its zero value is invalid.
type Severity uint8

// The severities, from the mildest.
const (
	Note    Severity = 1 + iota // worth knowing
	Warning                     // look at it
	Error                       // wrong, or can't be read
)

// String returns the word that is printed: `note`, `warning` or `error`.
func (s Severity) String() string {
	switch s {
	case Note:
		return "note"
	case Warning:
		return "warning"
	case Error:
		return "error"
	}
	return "severity(" + strconv.Itoa(int(s)) + ")"
}

// State says whether a finding still asks for something.
type State uint8

// The states of a finding. Only open ones count.
const (
	Open     State = iota // it holds now
	Settled               // a newer reading has taken the place of the one it is about, or another finding speaks for it
	Accepted              // the builder has accepted it, with a reason
)

// String returns the word that is printed: `open`, `settled` or `accepted`.
func (s State) String() string {
	switch s {
	case Settled:
		return "settled"
	case Accepted:
		return "accepted"
	}
	return "open"
}

// Finding is something about the builder's text: what is wrong, where, and what to do. It is not a Go error, which would be about
// the world.
type Finding struct {
	Rule     string   // name of the rule, in kebab-case
	Severity Severity // never zero
	State    State
	At       Range    // as tight as it can be; a whole file where no text can be blamed
	Message  string   // what is wrong, with the figures: lower case, no full stop, the builder's text in back-quotes
	Do       string   // what to do about it; may be empty
	Fixes    []Fix    // edits that would mend it, best first
	Notes    []Remark // other places that took part

	// Subject, Origin and Entry make the identity, which survives edits elsewhere in the file.
	Subject string // the path, part, tool, key or file that it is about
	Origin  string // where the value came from (found, set, sheet …); may be empty
	Entry   string // path of the entry without `.md`, or empty

	nth int // set by Number: which of several alike this is, from 2
}

// Remark is a second place that took part in a finding, with what it has to do with it. A remark without text prints its line
// under the name that Message gives.
type Remark struct {
	At      Range
	Message string
}

// Fix is one way to mend a finding.
type Fix struct {
	Title string
	Edits []Edit
}

// Edit puts a text in the place of the bytes from Start to End of a file. Unlike a [Range] it may be empty: then it inserts.
type Edit struct {
	File       *File
	Start, End int
	Text       string
}

// Replace returns the fix that puts text in the place of a range. The title says what it does, as an order.
func Replace(title string, at Range, text string) Fix {
	return Fix{Title: title, Edits: []Edit{{File: at.File, Start: at.Start, End: at.End, Text: text}}}
}

// ID returns the identity of the finding: rule, entry (or file), origin and subject. It holds no line, so it survives edits
// elsewhere; [Number] tells several alike apart.
func (f Finding) ID() string {
	holder := f.Entry
	if holder == "" && f.At.File != nil {
		holder = f.At.File.Name
	}
	parts := []string{f.Rule, holder}
	for _, part := range []string{f.Origin, f.Subject} {
		if part != "" {
			parts = append(parts, part)
		}
	}
	id := strings.Join(parts, "/")
	if f.nth > 1 {
		id += "~" + strconv.Itoa(f.nth)
	}
	return id
}

// Number sorts findings by file, place, rule and message and numbers those whose identities are alike, so that every [Finding.ID]
// among them is different.
func Number(findings []Finding) {
	slices.SortStableFunc(findings, compareFindings)
	seen := map[string]int{}
	for i := range findings {
		f := &findings[i]
		f.nth = 0
		id := f.ID()
		seen[id]++
		f.nth = seen[id]
	}
}

func compareFindings(a, b Finding) int {
	return cmp.Or(
		cmp.Compare(fileName(a.At), fileName(b.At)),
		cmp.Compare(a.At.Start, b.At.Start),
		cmp.Compare(a.At.End, b.At.End),
		cmp.Compare(a.Rule, b.Rule),
		cmp.Compare(a.Message, b.Message),
	)
}

func fileName(r Range) string {
	if r.File == nil {
		return ""
	}
	return r.File.Name
}
