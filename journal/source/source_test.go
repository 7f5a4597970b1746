package source

import (
	"strings"
	"testing"
	"testing/fstest"
)

// The columns are counted by hand: characters from 1, a tab as one, a byte order mark as none.
func TestPositions(t *testing.T) {
	for _, c := range []struct {
		name, text, before string // before: what stands in front of the place
		line, column       int
	}{
		{"start of a file", "a = 1", "", 1, 1},
		{"first line", "bore = 53", "bore = ", 1, 8},
		{"end of a file", "a = 1", "a = 1", 1, 6},
		{"end of a file that ends its line", "a = 1\n", "a = 1\n", 2, 1},
		{"third line", "a\nbb\nccc", "a\nbb\nc", 3, 2},
		{"the line end itself", "ab\ncd", "ab", 1, 3},
		{"an empty line", "a\n\nb", "a\n", 2, 1},
		{"Windows line ends", "a\r\nbb\r\nc", "a\r\nbb\r\n", 3, 1},
		{"between the two of a Windows line end", "a\r\nb", "a\r", 1, 3},
		{"behind a tab", "\ta = 1", "\t", 1, 2},
		{"behind tabs and blanks", "\t \ta", "\t \t", 1, 4},
		{"behind a byte order mark", BOM + "ab", BOM + "a", 1, 2},
		{"start of a file with a byte order mark", BOM + "ab", "", 1, 1},
		{"second line below a byte order mark", BOM + "a\nb", BOM + "a\n", 2, 1},
		{"a mark that isn't at the start counts", "a" + BOM + "b", "a" + BOM, 1, 3},
		{"behind the micro sign", "5 µm x", "5 µm ", 1, 6},
		{"behind the degree sign", "19 °C x", "19 °C ", 1, 7},
		{"behind a character of four bytes", "\U0001F527x", "\U0001F527", 1, 2},
		{"nothing at all", "", "", 1, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			if !strings.HasPrefix(c.text, c.before) {
				t.Fatalf("%q does not begin with %q", c.text, c.before)
			}
			line, column := NewFile("x", c.text).Position(len(c.before))
			if line != c.line || column != c.column {
				t.Errorf("place behind %q in %q is %d:%d, want %d:%d", c.before, c.text, line, column, c.line, c.column)
			}
		})
	}
}

func TestPositionsOutsideTheFileAreDrawnIn(t *testing.T) {
	f := NewFile("x", "ab\nc")
	for _, c := range []struct{ offset, line, column int }{{-5, 1, 1}, {4, 2, 2}, {400, 2, 2}} {
		if line, column := f.Position(c.offset); line != c.line || column != c.column {
			t.Errorf("offset %d is at %d:%d, want %d:%d", c.offset, line, column, c.line, c.column)
		}
	}
}

func TestAtMakesRangesOfWholeCharacters(t *testing.T) {
	for _, c := range []struct {
		name, text string
		start, end int
		want       string
	}{
		{"as asked", "bore", 1, 3, "or"},
		{"all of it", "bore", 0, 4, "bore"},
		{"the wrong way round", "bore", 3, 1, "or"},
		{"empty: the character there", "bore", 1, 1, "o"},
		{"empty at the end: the one before", "bore", 4, 4, "e"},
		{"outside before", "bore", -9, -3, "b"},
		{"outside behind", "bore", 7, 9, "e"},
		{"through the micro sign", "5µm", 2, 3, "µ"},
		{"empty inside the micro sign", "5µm", 2, 2, "µ"},
		{"up to the middle of a degree sign", "9°C", 0, 2, "9°"},
		{"empty before a degree sign", "9°C", 1, 1, "°"},
		{"empty at the end behind a degree sign", "9°", 3, 3, "°"},
		{"inside a character of four bytes", "\U0001F527", 1, 2, "\U0001F527"},
		{"a byte order mark is a character", BOM + "a", 0, 0, BOM},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := NewFile("x", c.text).At(c.start, c.end)
			if r.Text() != c.want || r.IsWhole() || r.IsZero() {
				t.Errorf("At(%d, %d) of %q is %q, want %q", c.start, c.end, c.text, r.Text(), c.want)
			}
		})
	}
}

func TestAtInAnEmptyFileIsTheWholeFile(t *testing.T) {
	f := NewFile("empty.toml", "")
	r := f.At(0, 3)
	if !r.IsWhole() || r.File != f || r.Text() != "" {
		t.Errorf("place in an empty file is %+v, want the whole file", r)
	}
	if line, column, endLine, endColumn := r.Position(); line+column+endLine+endColumn != 0 {
		t.Errorf("a whole file has the position %d:%d to %d:%d, want none", line, column, endLine, endColumn)
	}
}

func TestRangePositions(t *testing.T) {
	f := NewFile("x", BOM+"temp = \"19 °C\"\r\nbore = 5\n")
	start := strings.Index(f.Text, "19")
	line, column, endLine, endColumn := f.At(start, start+len("19 °C")).Position()
	if line != 1 || column != 9 || endLine != 1 || endColumn != 14 {
		t.Errorf("`19 °C` stands from %d:%d to %d:%d, want from 1:9 to 1:14", line, column, endLine, endColumn)
	}
	if !(Range{}).IsZero() || (Range{}).Text() != "" {
		t.Errorf("the zero range is not zero, or holds %q", Range{}.Text())
	}
	if line, column, _, _ := (Range{}).Position(); line != 0 || column != 0 {
		t.Errorf("the zero range stands at %d:%d, want nowhere", line, column)
	}
}

func TestRangeTo(t *testing.T) {
	f, other := NewFile("x", "a = [1, 2]"), NewFile("y", "a")
	for _, c := range []struct {
		name  string
		r, to Range
		want  string
	}{
		{"forwards", f.At(0, 1), f.At(5, 6), "a = [1"},
		{"backwards", f.At(5, 6), f.At(0, 1), "a = [1"},
		{"into another file", f.At(0, 1), other.At(0, 1), "a"},
		{"to the whole file", f.At(0, 1), f.Whole(), "a"},
		{"to nothing", f.At(0, 1), Range{}, "a"},
		{"from nothing", Range{}, f.At(0, 1), ""},
	} {
		if got := c.r.To(c.to).Text(); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

func TestLines(t *testing.T) {
	for _, c := range []struct {
		name, text string
		n          int
		want       string
		start      int
	}{
		{"first", "a\nb", 1, "a", 0},
		{"last without a line end", "a\nbc", 2, "bc", 2},
		{"behind the last line end", "a\n", 2, "", 2},
		{"Windows line ends", "a\r\nb\r\n", 1, "a", 0},
		{"second of Windows line ends", "a\r\nb\r\n", 2, "b", 3},
		{"a byte order mark is left out", BOM + "a\nb", 1, "a", 3},
		{"a byte order mark alone", BOM, 1, "", 3},
		{"empty file", "", 1, "", 0},
		{"line nought", "a", 0, "", 1},
		{"line that isn't there", "a", 2, "", 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			text, start := NewFile("x", c.text).Line(c.n)
			if text != c.want || start != c.start {
				t.Errorf("line %d of %q is %q from %d, want %q from %d", c.n, c.text, text, start, c.want, c.start)
			}
		})
	}
}

func TestIdentityOfFindings(t *testing.T) {
	f := NewFile("limits.toml", "a = 1\n")
	for _, c := range []struct {
		name string
		f    Finding
		want string
	}{
		{"in an entry", Finding{Rule: "worn", Entry: "2026/cam", Subject: "lash.intake", Origin: "set", At: f.At(0, 1)}, "worn/2026/cam/set/lash.intake"},
		{"in a sheet", Finding{Rule: "bad-name", Subject: "a", At: f.At(0, 1)}, "bad-name/limits.toml/a"},
		{"about a whole file", Finding{Rule: "too-big", At: f.Whole()}, "too-big/limits.toml"},
		{"about no file", Finding{Rule: "overdue", Subject: "oil.change"}, "overdue//oil.change"},
	} {
		if got := c.f.ID(); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// A line more above a finding must not change who it is; two alike are told apart by their order.
func TestNumberSortsAndTellsAlikeApart(t *testing.T) {
	a, b := NewFile("a.toml", "x = 1\ny = 2\n"), NewFile("b.toml", "x")
	findings := []Finding{
		{Rule: "z", At: b.At(0, 1)},
		{Rule: "b", Subject: "x", At: a.At(6, 7), Message: "second"},
		{Rule: "b", Subject: "x", At: a.At(0, 1), Message: "first"},
		{Rule: "a", Subject: "x", At: a.At(6, 7)},
		{Rule: "none"},
		{Rule: "b", Subject: "x", At: a.At(6, 7), Message: "later message"},
	}
	for range 2 { // numbering again changes nothing
		Number(findings)
		var ids []string
		for _, f := range findings {
			ids = append(ids, f.ID())
		}
		want := "none/ b/a.toml/x a/a.toml/x b/a.toml/x~2 b/a.toml/x~3 z/b.toml"
		if got := strings.Join(ids, " "); got != want {
			t.Errorf("identities in order\n%s\nwant\n%s", got, want)
		}
	}
	if findings[3].Message != "later message" || findings[4].Message != "second" {
		t.Errorf("findings at one place stand as %q, %q; want them in the order of their messages", findings[3].Message, findings[4].Message)
	}
}

func TestReplaceIsOneEditOverTheRange(t *testing.T) {
	f := NewFile("x", "lash = 1")
	fix := Replace("write `2`", f.At(7, 8), "2")
	if len(fix.Edits) != 1 || fix.Edits[0] != (Edit{File: f, Start: 7, End: 8, Text: "2"}) || fix.Title != "write `2`" {
		t.Errorf("got %+v", fix)
	}
}

func TestWordsOfSeverityAndState(t *testing.T) {
	for got, want := range map[string]string{
		Note.String(): "note", Warning.String(): "warning", Error.String(): "error", Severity(0).String(): "severity(0)",
		Open.String(): "open", Settled.String(): "settled", Accepted.String(): "accepted",
	} {
		if got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

// Distances worked out by hand from the definition (optimal string alignment: no piece is edited twice). The third pair is the
// usual one that tells it from the unrestricted distance, which is 2.
func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"lash", "lash", 0}, {"", "lash", 4}, {"ca", "abc", 3}, {"tolerence", "tolerance", 1}, {"lahs", "lash", 1}, {"nominl", "nominal", 1},
		{"baasis", "basis", 1}, {"torqe", "torque", 1}, {"bore", "stroke", 4}, {"größe", "grösse", 2}, {"µ", "u", 1},
	} {
		if got := Distance(c.a, c.b); got != c.want {
			t.Errorf("%q to %q: %d, want %d", c.a, c.b, got, c.want)
		}
		if got := Distance(c.b, c.a); got != c.want {
			t.Errorf("%q to %q: %d, want %d as the other way round", c.b, c.a, got, c.want)
		}
	}
}

func TestNearest(t *testing.T) {
	known := []string{"low", "high", "nominal", "tolerance", "source", "service", "thread", "threads"}
	for _, c := range []struct{ word, want string }{
		{"tolerence", "tolerance"},
		{"tolrence", "tolerance"}, // eight letters: two wrong
		{"nominel", "nominal"},
		{"nomiel", ""}, // six letters: two wrong are too many
		{"hihg", "high"},
		{"threds", "threads"},
		{"threadss", "threads"}, // nearer than `thread`
		{"low", ""},             // it is known
		{"threads", ""},         // known, though `thread` is near
		{"piston", ""},
		{"", ""},
	} {
		if got := Nearest(c.word, known); got != c.want {
			t.Errorf("nearest to %q is %q, want %q", c.word, got, c.want)
		}
	}
	if got := Nearest("bat", []string{"cat", "hat"}); got != "cat" {
		t.Errorf("of two as near got %q, want the first, %q", got, "cat")
	}
}

func TestFirstLine(t *testing.T) {
	long := strings.Repeat("long ", 200)
	files := fstest.MapFS{"a.md": {Data: []byte("# one\ntwo")}, "b.md": {Data: []byte("alone")}, "c.md": {Data: []byte(long + "\nrest")}, "d.md": {}, "e.md": {Data: []byte("\nsecond")}}
	for name, want := range map[string]string{"a.md": "# one", "b.md": "alone", "c.md": long, "d.md": "", "e.md": "", "none.md": ""} {
		if got := FirstLine(files, name); got != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
}
