package parse

import (
	"fmt"
	"path"
	"strings"

	"example.org/locknut/journal/markdown"
	"example.org/locknut/journal/source"
)

// Entry is one entry as it was decoded, but for its body. While its head can't be read it has no fields.
type Entry struct {
	File     *source.File
	Path     string       // below `entries/`, without `.md`
	Fence    source.Range // the line that opens the head: the place for what the head lacks
	Fields   *Fields      // nil while the head is broken
	Date     Date         // from the head, else from the file's name; none for a plan
	Named    Date         // from the file's name, be it that the head says another
	DateBad  bool         // the head has a date that can't be read, be it that the head can't
	Found    []Reading    // of a head that is broken those that can be seen in it, unread
	Set      []Reading
	BodyFrom int // offset at which the body begins
}

// DecodeEntry decodes the head of a Markdown file below `entries/`, and leaves its body to [Entry.ReadBody]. It returns nil for a file that is
// no entry.
func DecodeEntry(file *source.File) (*Entry, []source.Finding) {
	name := strings.TrimSuffix(strings.TrimPrefix(file.Name, "entries/"), ".md")
	room := nodeRooms.Get().(*nodeRoom)
	d := &decoder{file: file, entry: name, nodes: *room}
	defer func() {
		*room = d.nodes
		nodeRooms.Put(room)
	}()
	if !d.readable(MaxEntry) {
		return &Entry{File: file, Path: name, Fence: file.Whole(), Date: dateInName(path.Base(name)), BodyFrom: len(file.Text)}, d.findings
	}
	h, ok, skip := d.findHead()
	if skip {
		return nil, d.findings
	}
	e := &Entry{File: file, Path: name, Fence: h.fence, BodyFrom: h.body}
	if ok {
		d.head = file.At(h.start, h.end)
		d.decodeHead(e, h)
	} else {
		e.Date = dateInName(path.Base(name))
	}
	return e, d.findings
}

// ReadBody reads the entry's body. What it says has no bearing on what counts, so the heads can be linked meanwhile.
func (e *Entry) ReadBody(options markdown.Options) *markdown.Body {
	options.Title = e.Fields.Text("title").Text
	body := markdown.Render(e.File, e.BodyFrom, len(e.File.Text), options)
	for i := range body.Findings {
		body.Findings[i].Entry = e.Path
	}
	return body
}

func (d *decoder) decodeHead(e *Entry, h head) {
	named := dateInName(path.Base(e.Path))
	e.Date, e.Named = named, named
	root := d.document(h.start, h.end)
	if root == nil {
		seen, _ := locate(d.file, h.start, h.end)
		e.DateBad = childFolded(seen, "date") != nil
		e.Found, e.Set = seenReadings(d.file, seen, InFound), seenReadings(d.file, seen, InSet)
		return
	}
	d.top = root
	e.Fields = d.table(root, entryKeys)
	if f := e.Fields.Get("date"); f != nil {
		e.Date = f.Dates[0]
		if !named.IsZero() && named.CompareDay(e.Date) != 0 {
			d.report("date-disagrees", source.Warning, e.Date.At, "date", fmt.Sprintf("the head says `%s`, the file's name %s", e.Date, named), "the head counts; rename the file or mend the date")
		}
	} else if n := childFolded(root, "date"); n != nil {
		e.DateBad = true
		d.standIn(n, named)
	}
	for state, into := range map[string]*[]Reading{"found": &e.Found, "set": &e.Set} {
		if f := e.Fields.Get(state); f != nil {
			*into = f.Readings
		}
	}
}

// standIn says, where the head's date can't be read, that the one in the file's name stands in for it.
func (d *decoder) standIn(date *node, named Date) {
	at := date.place()
	for i := range d.findings {
		if f := &d.findings[i]; !named.IsZero() && f.At.Start >= at.Start && f.At.End <= at.End {
			f.Do += fmt.Sprintf("; until then the day in the file's name counts, %s", named)
		}
	}
}

// seenReadings returns the readings of a head that can't be read, as far as the locator sees any: each stands for nothing but that something was measured.
func seenReadings(file *source.File, head *node, state State) []Reading {
	table := childFolded(head, state.String())
	if table == nil || !table.isTable() {
		return nil
	}
	readings := (&decoder{file: file}).readingTree(table, state)
	for i := range readings {
		readings[i].Value, readings[i].Unread = Value{}, true
	}
	return readings
}
