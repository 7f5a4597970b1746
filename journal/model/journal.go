// Package model is the linked journal: what the builder's files say together. Decoded files go in; values over time with the limits
// in force and their verdicts, the parts that were fitted, stale readings, requests and resolved links come out.
//
// It alone sees two files at once. Its one invariant: every value that could be read stands in [Journal.Values] exactly once, in the
// order in which it became true, but for a plan's, which stands in its entry alone; and a value that could not be read stands nowhere and causes
// nothing.
package model

import (
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/markdown"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// Sources are the decoded files of a journal.
type Sources struct {
	Build   *parse.Build
	Limits  []*parse.LimitFile
	Parts   []*parse.PartFile
	Tools   []*parse.ToolFile
	Entries []*parse.Entry
	Data    map[string]*parse.CSV // by name below the journal; nil for one that can't be read
	Files   map[string]bool       // every file below the journal
	Photos  []Photo               // the files in `photos/`, by name
	Theme   Theme
}

// Theme is what the builder has put into `theme/`.
type Theme struct {
	Styles []*parse.Style // by name
	Files  []ThemeFile    // the fonts and pictures that they name and that are there, by name
}

// ThemeFile is a font or a picture of the builder's theme.
type ThemeFile struct {
	Name    string
	Content []byte // nil where there is a reason
	Reason  string // why it can't be put on a site, in words that go on from its name; empty if it can
}

// Find returns the file of a name, nil if there is none.
func (t *Theme) Find(name string) *ThemeFile {
	for i := range t.Files {
		if t.Files[i].Name == name {
			return &t.Files[i]
		}
	}
	return nil
}

// Photo is a picture in `photos/`.
type Photo struct {
	File   *source.File // its name; the text is not kept
	Reason string       // why it can't be read as a picture; empty if it can
	Shown  bool         // an entry, or the front page, shows it
}

// Journal is a linked journal.
type Journal struct {
	Build     *parse.Build
	Title     string
	Machine   string
	Year      int
	Meter     *quantity.Unit // unit of the meter
	Cylinders []string       // their names; none where there is but one
	Units     Units
	Hide      map[string]bool // what is never published
	Tags      []string        // of all entries, also of those after the moment that counts; sorted

	Limits  []*Limit // of the sheets and of the parts, by path
	Parts   []*Part  // by name
	Tools   []*Tool  // by name
	Entries []*Entry // dated ones in order of time, then plans by path
	Values  []*Value // in order of time
	Goals   []Goal
	Fuel    *calc.Fuel // nil where none is named that is known
	Target  *Target    // of the mixture; nil for none
	Asked   parse.Date // the day as of which things are due, where one was asked for
	Today   parse.Date // the day as of which things are due: the one that was asked for, else that of the newest entry; none where there is neither
	Photos  []Photo
	Theme   Theme
	URL     string     // address at which the site will stand, with a `/` at its end; empty where none is given, or none that can be read
	Home    []*Mention // the links in the words for the front page

	Fitted    []*Part // what is fitted now, in order of fitting
	Requests  []*Request
	Accepts   []*Accept
	Changes   []Change
	Withheld  []string // kinds of file that are broken, whose absence proves nothing
	Positions *Positions

	FuelUnread   bool // what the fuel is can't be read
	TargetUnread bool // nor what the mixture is held to

	sheetLimits *limitTree
	partsLimit  bool                        // a part has limits of its own
	differences []*Limit                    // those that are held by the difference of two paths
	places      map[string]*place           // by position
	anyUnread   bool                        // something can't be read, at one of them at least
	named       map[*parse.Pattern][]string // what is read right below a cylinder, where a limit asks
	parts       map[string]*Part
	tools       map[string]*Tool
	entries     map[string]*Entry
	addresses   map[string]*Entry     // by address; nil where several have one
	late        map[string]bool       // addresses of the entries after the moment that counts
	changed     []int                 // the moments at which parts went in or came out, in order
	anew        map[string][]*SetAnew // lashes that were set though no shim was written, by position of the shim, in order of time
	shimRanges  map[string]ShimRange  // by side of the engine
}

// Entry is one entry.
type Entry struct {
	*parse.Entry
	Index        int // in Journal.Entries
	Title        string
	TitleAt      source.Range
	Plan         bool // it has no date
	Meter        *quantity.Quantity
	MeterWas     *quantity.Quantity
	MeterDoubted *quantity.Quantity // its own meter, where that is not believed; Meter is nil then
	LeapFrom     *Entry             // the entry from which to this one the meter went further than can be; of the first entry the next
	MeterThen    *quantity.Quantity // its own meter, else the last one before
	EngineTemp   *quantity.Quantity
	Bought       []Ref
	Fitted       []Ref
	Removed      []Ref
	With         []Ref
	Tags         []string
	Spent        []Spent
	Values       []*Value // found, brought, set, degreed and pulled, in that order; of a plan by their place in the file
	Pulls        []*Pulls
	Degreeings   []*Degreeing // those whose file could be read
	Logs         []*Log       // likewise
	FittedThen   []*Part      // what was fitted when it ended; of a plan what would be, were it carried out now
	Body         *markdown.Body
	Links        []*Mention // in the body

	number int  // in Sources.Entries
	before bool // it stands for the moment at which the entry found the engine, see [Journal.AsFound]
}

// Address is the entry's address on the site, without `.html`: its path with `.` for `/`, in lower case.
func (e *Entry) Address() string { return address(e.Path) }

// Spent is money that an entry spent beside the prices of parts.
type Spent struct {
	For   string
	Price quantity.Quantity
	Part  Ref // the part that it belongs to, if any
	At    source.Range
}

// Ref is a name in an entry that refers to a part or a tool.
type Ref struct {
	parse.Name
	Part *Part // nil if no part has that name
	Tool *Tool // nil if no tool has that name
}

// Part is one part.
type Part struct {
	*parse.Part
	Title   string
	Slot    string
	Price   *quantity.Quantity
	Brings  []parse.Reading
	Limits  []*Limit
	Stays   []Stay // in order of time
	Bought  *Entry // nil if no entry bought it
	AsMade  bool   // the machine came with it
	limits  *limitTree
	brought []*Value // what it brings while it is in
}

// Stay is one time that a part was in: from an entry (nil: the machine came with it) to an entry (nil: it is in now).
type Stay struct {
	From, To *Entry
	Renewed  bool // it went in new, in the place of one of its kind
}

// IsFitted reports whether the part is in now.
func (p *Part) IsFitted() bool { return len(p.Stays) > 0 && p.Stays[len(p.Stays)-1].To == nil }

// Gives reports whether the part is, or gives, what another needs.
func (p *Part) Gives(need string) bool {
	return p.Name == need || slices.ContainsFunc(p.Fields.Names("gives"), func(n parse.Name) bool { return n.Name == need })
}

// IsPlanned reports whether no entry ever bought or fitted the part.
func (p *Part) IsPlanned() bool { return p.Bought == nil && len(p.Stays) == 0 }

// Tool is a measuring tool, or a person or shop who measured.
type Tool struct {
	*parse.Tool
	Title         string
	For           []parse.Name
	Leaves        []quantity.Quantity
	Length        *quantity.Quantity
	Range         *quantity.Quantity
	Resolution    *quantity.Quantity
	Error         *quantity.Quantity
	Uncertainty   *quantity.Quantity
	Repeatability *quantity.Quantity
	Unread        bool // something of what it is for, or of how far off it may be, can't be read
}

// Request asks for readings at a path after a moment.
type Request struct {
	Path    string
	At      source.Range // where it is asked for: in the entry's text where there is a place
	From    source.Range // the line that asks: in the part, or in the entry
	Entry   *Entry
	Part    *Part // nil for what the entry itself expects
	Order   int
	Missing []string // positions that nothing has read since
	Sizes   bool     // some of them are those of sizes that the path is worked out from
}

// Accept is an accepted finding.
type Accept struct {
	Entry   *Entry
	Finding parse.Name
	Path    string
	PathAt  source.Range // where that stands; nowhere where there is none
	Why     string
	At      source.Range
	Used    bool // it matched a finding
	Firm    bool // it matched a finding that can't be accepted
}

// Mention is one of our own links in the body of an entry or the front page.
type Mention struct {
	Hole   int // number of the hole in the body
	Entry  *Entry
	Value  *Value // of a value: link
	Part   *Part
	Tool   *Tool
	Limit  *Limit
	Target *Entry
	File   string // of a relative link or picture: the file below the journal
	Path   string // of a value: or limit: link
	Late   bool   // it leads to an entry after the moment that counts
	Worked bool   // of a value: link: the path is that of a worked-out number
	Unread bool   // of a value: link: what stands there can't be read
	Broken string // why it leads nowhere; empty if it does lead somewhere
	Near   string // of a broken link: the name that was most likely meant
}

// Part returns the part of that folded name, nil if there is none.
func (j *Journal) Part(name string) *Part { return j.parts[name] }

// Tool returns the tool of that folded name, nil if there is none.
func (j *Journal) Tool(name string) *Tool { return j.tools[name] }

// Entry returns the entry of that path, nil if there is none.
func (j *Journal) Entry(path string) *Entry { return j.entries[path] }

// History returns the values that spoke for a position, in order of time.
func (j *Journal) History(position string) []*Value { return j.placeAt(position).values }

// IsWithheld reports whether files of a kind (`limits`, `parts`, `tools`, `entries`) are broken, so that nothing can be concluded from
// what they lack.
func (j *Journal) IsWithheld(kind string) bool {
	for _, k := range j.Withheld {
		if k == kind {
			return true
		}
	}
	return false
}

// IsFitUnclear reports whether it can't be told what is fitted, because an entry's list of parts can't be read.
func (j *Journal) IsFitUnclear() bool {
	if j.IsWithheld("entries") || j.Build.Fields == nil || j.Build.Fields.IsBad("fitted") {
		return true
	}
	for _, e := range j.Entries {
		if e.Fields.IsBad("fitted", "removed", "bought") {
			return true
		}
	}
	for _, p := range j.Parts {
		if p.Fields.IsBad("slot") {
			return true
		}
	}
	return false
}

// Current returns the value in force now at a path: its newest that is not stale, else what a fitted part brings, else the sheet's.
// Where its positions have different ones it returns nil.
func (j *Journal) Current(path string) *Value {
	return j.at(path, j.end())
}
