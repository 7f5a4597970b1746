package parse

import (
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"

	"example.org/locknut/journal/source"
)

// Sizes that a file may have, in bytes: sheets, entries, and CSV files.
const (
	MaxSheet = 4 << 20
	MaxEntry = 128 << 10
	MaxCSV   = 256 << 20
)

// document locates the keys of a TOML text and holds it against the decoder, unless it is so plain that there is nothing to be held. It
// returns nil where the text is broken: values come only from text that both accept. A day that there is not is no more than a value that can't be read:
// the decoder is asked about a text with a number in its place.
func (d *decoder) document(start, end int) *node {
	root, breaks := d.nodes.locate(d.file, start, end)
	text := d.file.Text[start:end]
	for _, b := range breaks {
		d.broken(b)
		if !b.isDay() {
			root = nil
			continue
		}
		text = text[:b.at.Start-start] + "0" + strings.Repeat(" ", b.at.End-b.at.Start-1) + text[b.at.End-start:]
	}
	if root == nil || root.isPlain() {
		return root
	}
	var decoded map[string]any
	if _, err := toml.Decode(text, &decoded); err != nil {
		d.refused(err, start)
		return nil
	}
	bind(root, decoded)
	return root
}

// broken reports a place where the text stops being TOML.
func (d *decoder) broken(b tomlBreak) {
	rule, do := breakWords(b)
	fixes := breakFixes(b)
	if m := slashDate.FindStringSubmatch(b.at.Text()); m != nil && b.kind == breakUnquoted {
		rule = "slash-date"
		b.message, do, fixes = slashDay(b.at, m[0], m)
	}
	d.report(rule, source.Error, b.at, d.file.Name, b.message, do, fixes...)
	if !b.also.IsZero() {
		d.note(b.also, "the first one")
	}
}

// isDay reports whether what breaks the text is a day that is none, or is not written as one: it ends where it stands.
func (b tomlBreak) isDay() bool {
	return b.kind == breakBadTime || b.kind == breakUnquoted && slashDate.MatchString(b.at.Text())
}

// breakWords returns the rule that a break falls under, and what to do.
func breakWords(b tomlBreak) (rule, do string) {
	switch b.kind {
	case breakDeeper:
		return "value-and-deeper", "a path holds a value or deeper paths: write each position out"
	case breakRedefined:
		return "defined-twice", "keep one of the two"
	case breakCurlyQuotes:
		return "curly-quotes", "use straight quotes: `\"`"
	case breakUnquoted:
		return "unquoted-value", "put the value in quotes"
	case breakInchMark:
		return "inch-mark", "write `in` for inches, or put the text in single quotes"
	case breakApostrophe:
		return "inch-mark", "put the text in double quotes"
	case breakBadNumber:
		return "unquoted-value", "put the figure with its unit in quotes, as in `\"0.08 mm\"`; the decimal sign is a point"
	case breakBadTime:
		return "bad-date", "write the day as year-month-day, without quotes: `2026-04-18`"
	case breakNoComma:
		return "bad-toml", "put a comma after it"
	case breakExtraComma:
		return "bad-toml", "take the comma out"
	case breakUnclosedArray, breakUnclosedTable, breakHeaderUnclosed:
		return "bad-toml", "close the bracket"
	case breakBadEscape:
		return "backslash", "write `/` between folders; a backslash itself is written twice"
	case breakUnclosedString:
		return "bad-toml", "close the text with the same quote"
	case breakNoEquals:
		return "bad-toml", "write `key = value`"
	case breakNoValue:
		return "bad-toml", "write a value after `=`, or take the line out"
	}
	return "bad-toml", "mend this place; until then the file's values are not read"
}

// breakFixes returns the edits that mend a break, where they are plain.
func breakFixes(b tomlBreak) []source.Fix {
	text := b.at.Text()
	switch b.kind {
	case breakCurlyQuotes:
		straight := strings.NewReplacer("“", `"`, "”", `"`, "„", `"`, "‘", "'", "’", "'").Replace(text)
		if straight != text {
			return []source.Fix{source.Replace("use straight quotes", b.at, straight)}
		}
	case breakUnquoted:
		if !strings.ContainsAny(text, "\"\\\n") {
			return []source.Fix{source.Replace("put it in quotes", b.at, `"`+strings.TrimSpace(text)+`"`)}
		}
	case breakInchMark:
		if !strings.Contains(text, "'") {
			return []source.Fix{source.Replace("put it in single quotes", b.at, "'"+strings.TrimSuffix(strings.TrimPrefix(text, `"`), `"`)+"'")}
		}
	case breakApostrophe:
		if !strings.ContainsAny(text, "\"\\") {
			return []source.Fix{source.Replace("put it in double quotes", b.at, `"`+strings.TrimSuffix(strings.TrimPrefix(text, "'"), "'")+`"`)}
		}
	case breakBadNumber:
		if !strings.ContainsAny(text, "\"\\\n") {
			return []source.Fix{source.Replace("put it in quotes", b.at, `"`+strings.TrimSpace(text)+`"`)}
		}
	case breakBadEscape:
		if strings.HasPrefix(text, `\`) {
			return []source.Fix{source.Replace("write `/`", b.at, "/"+strings.TrimPrefix(text, `\`))}
		}
	}
	return nil
}

// refused reports what the decoder refuses though the locator let it through. Its own rendering is never shown: it counts columns in
// bytes.
func (d *decoder) refused(err error, start int) {
	at := d.file.Whole()
	message := err.Error()
	var broken toml.ParseError
	if errors.As(err, &broken) {
		message = broken.Message
		at = d.file.At(start+broken.Position.Start, start+broken.Position.Start+max(broken.Position.Len, 1))
	}
	d.report("bad-toml", source.Error, at, d.file.Name, strings.TrimSuffix(message, "."), "mend this place; until then the file's values are not read")
}

// bind puts the decoder's texts into the located nodes: places are the locator's, values the decoder's.
func bind(n *node, decoded any) {
	switch value := decoded.(type) {
	case string:
		if n.isString() {
			n.text = value
		}
	case map[string]any:
		for _, key := range n.keys {
			if deeper, ok := value[key.key]; ok {
				bind(key, deeper)
			}
		}
	case []any:
		for i := range min(len(n.items), len(value)) {
			bind(n.items[i], value[i])
		}
	case []map[string]any:
		for i := range min(len(n.items), len(value)) {
			bind(n.items[i], value[i])
		}
	}
}

// isTable reports whether the node holds keys.
func (n *node) isTable() bool { return n.kind == nodeTable || n.kind == nodeInline }

// isString reports whether the node is a text.
func (n *node) isString() bool { return n.kind == nodeString || n.kind == nodeMultiline }

// place returns the tightest place that stands for the node: its header if it is a table, else its value, else its key.
func (n *node) place() source.Range {
	switch {
	case !n.header.IsZero():
		return n.header
	case !n.at.IsZero():
		return n.at
	}
	return n.keyAt
}

// words says what the kind is, as in "it holds …".
func (k nodeKind) words() string {
	switch k {
	case nodeTable, nodeInline:
		return "a table"
	case nodeTables:
		return "a list of tables"
	case nodeArray:
		return "a list"
	case nodeString, nodeMultiline:
		return "a text"
	case nodeInteger, nodeFloat:
		return "a bare number"
	case nodeBool:
		return "true or false"
	case nodeTime:
		return "a date"
	}
	return "nothing that can be read"
}

// readable reports a file that is no text that can be decoded: too big, or not UTF-8.
func (d *decoder) readable(limit int) bool {
	text := d.file.Text
	if size := max(d.file.Size, int64(len(text))); size > int64(limit) {
		d.report("too-big", source.Error, d.file.Whole(), d.file.Name, fmt.Sprintf("the file has %d bytes; at most %d are read", size, limit), "split it")
		return false
	}
	if utf8.ValidString(text) {
		return true
	}
	at := 0
	for at < len(text) {
		r, size := utf8.DecodeRuneInString(text[at:])
		if r == utf8.RuneError && size == 1 {
			break
		}
		at += size
	}
	d.report("not-utf8", source.Error, d.file.At(at, at+1), d.file.Name, "the file is not UTF-8 text from here on", "save it as UTF-8")
	return false
}

// body returns where the text begins, after a byte order mark.
func (d *decoder) body() int {
	if strings.HasPrefix(d.file.Text, source.BOM) {
		return len(source.BOM)
	}
	return 0
}
