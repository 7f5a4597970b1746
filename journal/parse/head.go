package parse

import (
	"fmt"
	"strings"

	"example.org/locknut/journal/source"
)

// head is where the TOML of an entry stands.
type head struct {
	fence      source.Range // the opening fence's line
	start, end int          // the TOML
	body       int          // where the body begins
}

// findHead finds the fenced block of TOML that begins an entry. It reports why there is none; skip says that the file is no entry at
// all, and not one that is broken.
func (d *decoder) findHead() (h head, ok, skip bool) {
	text, start := d.file.Text, 0
	if strings.HasPrefix(text, source.BOM) {
		start = len(source.BOM)
	}
	line, next := cutLine(text, start)
	for strings.TrimSpace(line) == "" && next < len(text) {
		start = next
		line, next = cutLine(text, start)
	}
	first := d.file.At(start, start+len(line))
	none := head{fence: first, body: len(text)}
	if body, foreign := d.foreignFence(start, next, strings.TrimSpace(line)); foreign {
		none.body = body
		return none, false, false
	}
	mark, language := fence(line)
	switch {
	case mark != "" && strings.EqualFold(language, "toml"):
		return d.closeHead(first, mark, next)
	case mark != "" && strings.Contains(strings.ToLower(language), "toml"):
		d.report("front-matter-fence", source.Error, first, "head", fmt.Sprintf("the first block is fenced as `%s`, not as `toml`", language), "write the fence as "+mark[:3]+"toml",
			source.Replace("fence it as `toml`", first, mark+"toml"))
		none.body = belowFence(text, mark, next)
		return none, false, false
	}
	if late, body, found := d.lateFence(start); found {
		none.body = body
		d.report("front-matter-late", source.Error, late, "head", "the `toml` block is not the first thing in the entry", "move it above everything else: nothing but blank lines may stand before it")
		return none, false, false
	}
	d.report("skipped-file", source.Note, d.file.Whole(), "head", "no entry: the file does not begin with a block fenced as `toml`", "begin it with a block fenced as `toml`, or leave it as it is")
	return none, false, true
}

// belowFence returns the offset below the fence that closes a block; the text's end where none does. A head that can't be used is never
// a part of the body: its comments are private.
func belowFence(text, mark string, start int) int {
	for at := start; at < len(text); {
		line, next := cutLine(text, at)
		if closes(line, mark) {
			return next
		}
		at = next
	}
	return len(text)
}

// cutLine returns the line that starts at an offset, without its end, and where the next one starts.
func cutLine(text string, start int) (line string, next int) {
	rest := text[start:]
	if i := strings.IndexByte(rest, '\n'); i >= 0 {
		return strings.TrimSuffix(rest[:i], "\r"), start + i + 1
	}
	return rest, len(text)
}

// fence returns the fence that a line opens with, and the word after it.
func fence(line string) (mark, language string) {
	trimmed := strings.TrimLeft(line, " ")
	if len(line)-len(trimmed) > 3 {
		return "", ""
	}
	for _, c := range []string{"`", "~"} {
		rest := strings.TrimLeft(trimmed, c)
		if n := len(trimmed) - len(rest); n >= 3 {
			if c == "`" && strings.Contains(rest, "`") {
				return "", ""
			}
			language, _, _ = strings.Cut(strings.TrimSpace(rest), " ")
			return trimmed[:n], language
		}
	}
	return "", ""
}

func closes(line, mark string) bool {
	m, language := fence(line)
	return m != "" && m[0] == mark[0] && len(m) >= len(mark) && language == ""
}

func (d *decoder) closeHead(first source.Range, mark string, start int) (head, bool, bool) {
	text := d.file.Text
	for at := start; at < len(text); {
		line, next := cutLine(text, at)
		if closes(line, mark) {
			return head{fence: first, start: start, end: at, body: next}, true, false
		}
		at = next
	}
	d.report("front-matter-unclosed", source.Error, first, "head", "the `toml` block is never closed, so the whole entry stands in it", "close it with "+mark+" on a line of its own, below the last value")
	return head{fence: first, body: len(text)}, false, false
}

// foreignFence reports a head that is fenced in a way of other tools, and returns where the body begins below it.
func (d *decoder) foreignFence(start, next int, line string) (body int, foreign bool) {
	body = len(d.file.Text)
	if line != "---" && line != "+++" {
		return body, false
	}
	start += strings.Index(d.file.Text[start:], line)
	edits := []source.Edit{{File: d.file, Start: start, End: start + len(line), Text: "```toml"}}
	closed := false
	for at := next; at < len(d.file.Text) && !closed; {
		other, after := cutLine(d.file.Text, at)
		if strings.TrimSpace(other) == line {
			edits = append(edits, source.Edit{File: d.file, Start: at, End: at + len(other), Text: "```"})
			closed, body = true, after
		}
		at = after
	}
	if line == "---" && !closed {
		return body, false // a thematic break: the file is plain Markdown
	}
	fixes := []source.Fix{{Title: "fence it as a `toml` block", Edits: edits}}
	if !closed {
		fixes = nil
	}
	d.report("foreign-fence", source.Error, d.file.At(start, start+len(line)), "head", fmt.Sprintf("the head is fenced with `%s`", line),
		"fence it as a code block: ```toml above it, ``` below", fixes...)
	return body, true
}

// lateFence finds a block fenced as TOML that is not the first thing in the file, and where the body begins below it.
func (d *decoder) lateFence(start int) (late source.Range, body int, found bool) {
	text, open := d.file.Text, ""
	for at := start; at < len(text); {
		line, next := cutLine(text, at)
		mark, language := fence(line)
		switch {
		case open != "" && closes(line, open):
			open = ""
		case open == "" && mark != "" && strings.EqualFold(language, "toml"):
			return d.file.At(at, at+len(line)), belowFence(text, mark, next), true
		case open == "" && mark != "":
			open = mark
		}
		at = next
	}
	return source.Range{}, 0, false
}
