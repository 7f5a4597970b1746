// Package markdown turns the body of an entry into HTML with numbered holes.
//
// It hides CommonMark (goldmark) and the colouring of code (chroma). One body goes in, as a slice of its file; out come pieces
// of HTML, the holes between them where the renderer puts links, values, charts and pictures of the journal, and the tasks,
// headings and slips of the text, each with its range in the file. The body is parsed once and its tree never outlives the call.
// The one invariant: whatever the builder typed, the pieces are whole, escaped HTML: no tag and no address of the builder's
// reaches them unread.
//
// The dialect is CommonMark with tables, strikethrough, task lists, bare web addresses and footnotes.
package markdown

import (
	"sync"

	"example.org/locknut/journal/source"
)

// Rules of the findings that [Render] makes. All are warnings.
const (
	RuleRawHTML        = "raw-html"        // HTML in the text: shown as typed
	RuleLinkScheme     = "link-scheme"     // an address that begins with something a page must not follow
	RuleBadAddress     = "bad-address"     // a web address that can't be read
	RuleLinkPathSlip   = "link-path-slip"  // a blank, a back-slash or a drive letter in the path of a link or picture
	RuleOutsidePicture = "outside-picture" // a picture that is not in the journal
	RuleUnusedFootnote = "unused-footnote" // a footnote that nothing refers to
	RuleTaskSlip       = "task-slip"       // brackets at the beginning of a list item that are no box of a step
)

// Schemes of the journal's own that a link or picture may begin with. Each makes a hole.
const (
	SchemePart  = "part"
	SchemeLimit = "limit"
	SchemeTool  = "tool"
	SchemeEntry = "entry"
	SchemeValue = "value"
	SchemeChart = "chart"
)

// Body is what one body holds. Ranges are places in the file that the body was cut from.
type Body struct {
	// Title is the body's first block where that is a level-1 heading and the page's own title does not stand elsewhere
	// (see [Options.Title]). It is not in the HTML then. Nil otherwise.
	Title *Heading

	// Pieces are the HTML round the holes, always one more than Holes. Pieces[0] comes first, and Pieces[n+1] is what follows
	// hole n. A picture in the text of a linking hole is a hole of its own, which follows its link in Holes; [Hole.Inside]
	// counts those, and the pieces after them are the rest of the link's text. [Body.Append] puts it all together.
	// Nil where the HTML was not asked for.
	Pieces []string

	Holes    []Hole         // in the order in which they are shown; footnotes come last
	Blocks   []Block        // the outermost blocks that hold holes; nil where the HTML was not asked for
	Tasks    []Task         // steps of task lists, in order
	Headings []Heading      // all headings but the Title, in order
	RawHTML  []source.Range // pieces of HTML that were typed
	Findings []source.Finding
}

// Hole is a place in the HTML that the renderer fills: a link or a picture with a scheme of the journal's own, or with a
// relative address.
type Hole struct {
	N        int    // its place in [Body.Holes]
	Scheme   string // one of the Scheme constants, or "" for a relative address
	Target   string // what follows the scheme, percent-decoded, back-slashes of a path put right. May be empty. Not an address: never write it into a page unread
	Fragment string // what follows `#` in a relative link or an `entry:` link, percent-decoded
	Title    string // the link's own title, plain text
	Text     string // plain text of the link, or the words that stand in for a picture
	TextHTML string // the text as HTML, up to the first picture in it; empty for a picture
	Inside   int    // how many of the holes after it stand in its text: pictures of a linked picture

	Picture bool // `![…](…)`
	Bare    bool // `<part:cam-212>`: the text is only the address again
	Alone   bool // a picture that shares its paragraph with nothing but pictures. It may be filled with a block such as `figure`; any other hole takes phrasing content only
	InTitle bool // it stands in the [Body.Title], so it is not in the HTML

	At       source.Range // the whole link, from its first bracket to its last
	TargetAt source.Range // the address with its scheme, for a reference link where it is defined; the whole link where it is empty
	TextAt   source.Range // what stands between the square brackets; the whole link where nothing does
}

// Block is an outermost block of the body (a paragraph, a list, a table …; all footnotes are one) with holes in it, and where it
// ends: Offset bytes into Pieces[Piece]. Something put there follows the block.
type Block struct {
	First, End    int // Holes[First:End] stand in it
	Piece, Offset int
}

// Task is one step of a task list.
type Task struct {
	Text  string     // plain text of the step's first paragraph; empty for a box without words
	Holes []TextHole // the links in it that are holes, in order
	Done  bool
	At    source.Range // the text of its first line; its box where there is none
}

// TextHole is where the words of a link stand in a plain text.
type TextHole struct {
	N        int // the link's place in [Body.Holes]
	From, To int // the words are Text[From:To]
}

// Heading is a heading of the body.
type Heading struct {
	Level int          // as typed
	Shown int          // its level in the HTML, 2 to 6: the page has its own level 1, the body's highest come next, and none is skipped on the way down
	Text  string       // plain text
	ID    string       // unique in the page, letters of every script kept; empty for the [Body.Title]
	At    source.Range // its text, without the marks
}

// Options say how a body is rendered.
type Options struct {
	Title    string       // the page's title where it stands elsewhere (the head of an entry): a first heading that says something else is then kept
	SkipHTML bool         // only look: no pieces and no blocks
	Code     *Highlighter // colours code blocks; nil leaves them plain
	Taken    []string     // ids that the page gives to things of its own
}

// Render reads the body that stands from start to end in the file. Any text is a body: what can't be right is shown as it was
// typed, with a finding. It may be called from several goroutines at once. The findings leave Entry to the caller.
func Render(f *source.File, start, end int, opts Options) *Body {
	start = max(0, min(start, len(f.Text)))
	end = max(start, min(end, len(f.Text)))
	room := rooms.Get().(*room)
	defer rooms.Put(room)
	room.source = append(room.source[:0], f.Text[start:end]...)
	src := room.source
	root, places := parse(src)
	r := &reading{file: f, offset: start, src: src, room: room, places: places, root: root, opts: opts, body: &Body{}}
	r.read()
	if !opts.SkipHTML {
		r.write()
	}
	return r.body
}

// room is what one call needs and the next can use again: all that outlives a call is copied out of it.
type room struct{ source, html []byte }

var rooms = sync.Pool{New: func() any { return &room{} }}

// Append writes the body to dst. It calls fill for each hole outside the title: text is the HTML of the hole's text, pictures
// in it filled already. After each outermost block that has holes it calls after with these; after may be nil.
func (b *Body) Append(
	dst []byte,
	fill func(dst []byte, h *Hole, text string) []byte,
	after func(dst []byte, holes []Hole) []byte,
) []byte {
	if len(b.Pieces) == 0 {
		return dst
	}
	i, blocks := 0, b.Blocks
	for i < len(b.Holes) && b.Holes[i].InTitle {
		i++
	}
	dst, blocks = b.appendPiece(dst, i, blocks, after)
	for i < len(b.Holes) {
		h := &b.Holes[i]
		text := h.TextHTML
		for j := i + 1; j <= i+h.Inside; j++ {
			text += string(fill(nil, &b.Holes[j], "")) + b.Pieces[j+1]
		}
		dst = fill(dst, h, text)
		dst, blocks = b.appendPiece(dst, i+1, blocks, after)
		i += 1 + h.Inside
	}
	return dst
}

func (b *Body) appendPiece(dst []byte, n int, blocks []Block, after func([]byte, []Hole) []byte) ([]byte, []Block) {
	piece, from := b.Pieces[n], 0
	for len(blocks) > 0 && blocks[0].Piece == n {
		block := blocks[0]
		dst = append(dst, piece[from:block.Offset]...)
		if after != nil {
			dst = after(dst, b.Holes[block.First:block.End])
		}
		from, blocks = block.Offset, blocks[1:]
	}
	return append(dst, piece[from:]...), blocks
}
