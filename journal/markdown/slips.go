package markdown

import (
	"bytes"
	"regexp"
	"strings"

	"example.org/locknut/journal/source"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"
)

// slip is a link or picture that is none, since its address holds a blank.
type slip struct {
	start, end        int
	target, targetEnd int
	picture           bool
}

// slipReach is how far round a `](` a slip is looked for. It bounds the work on a text that is all brackets.
const slipReach = 999

// findSlip looks at a `]` that closed no link. It reports the link that was meant if an address with blanks in it follows in
// round brackets on the same line.
func findSlip(src []byte, closing, lineEnd int) (slip, bool) {
	rest := src[closing:min(lineEnd, closing+slipReach)]
	if len(rest) < 2 || rest[1] != '(' {
		return slip{}, false
	}
	length := closingBracket(rest[2:])
	if length < 0 {
		return slip{}, false
	}
	target, end := closing+2, closing+2+length
	inside := src[target:end]
	target += len(inside) - len(bytes.TrimLeft(inside, " \t"))
	address := withoutTitle(bytes.Trim(inside, " \t"))
	if !bytes.ContainsAny(address, " \t") || bytes.ContainsAny(address, "<>\"") {
		return slip{}, false
	}
	open := openingBracket(src[max(0, closing-slipReach):closing])
	if open < 0 {
		return slip{}, false
	}
	start := max(0, closing-slipReach) + open
	picture := start > 0 && src[start-1] == '!'
	if picture {
		start--
	} else if !looksLikeAddress(string(address)) {
		return slip{}, false
	}
	return slip{start: start, end: end + 1, target: target, targetEnd: target + len(address), picture: picture}, true
}

// closingBracket returns the offset of the `)` that closes a text, brackets in pairs passed over, or -1.
func closingBracket(text []byte) int {
	depth := 0
	for i, c := range text {
		switch c {
		case '(':
			depth++
		case ')':
			if depth--; depth < 0 {
				return i
			}
		}
	}
	return -1
}

// openingBracket returns the offset of the last `[` on the text's last line that no `]` closes, or -1.
func openingBracket(text []byte) int {
	depth := 0
	for i := len(text) - 1; i >= 0 && text[i] != '\n'; i-- {
		escaped := i > 0 && text[i-1] == '\\'
		switch {
		case escaped:
		case text[i] == ']':
			depth++
		case text[i] == '[':
			if depth--; depth < 0 {
				return i
			}
		}
	}
	return -1
}

// withoutTitle cuts a title in quotes off the end of what stands in the round brackets of a link.
func withoutTitle(inside []byte) []byte {
	last := len(inside) - 1
	if last < 1 || inside[last] != '"' && inside[last] != '\'' {
		return inside
	}
	open := bytes.LastIndexByte(inside[:last], inside[last])
	if open < 1 || inside[open-1] != ' ' {
		return inside
	}
	return bytes.TrimRight(inside[:open], " \t")
}

func (r *reading) reportHTML(at source.Range) {
	text := at.Text()
	f := source.Finding{
		Rule:    RuleRawHTML,
		Message: "`" + clip(text) + "` is HTML, which is shown as it is typed",
		Do:      "write it in Markdown, or put it in back-quotes to show it as code",
	}
	if strings.HasPrefix(text, "<!--") {
		f.Message = "the comment `" + clip(text) + "` is shown as it is typed"
		f.Do = "take it out; a comment in the TOML head is never published"
	} else if !strings.ContainsAny(text, "`\n") {
		f.Fixes = []source.Fix{{Title: "show it as code", Edits: []source.Edit{{Text: "`" + text + "`"}}}}
	}
	r.report(f, clip(text), at)
}

func (r *reading) reportSlip(s slip) {
	at := r.at(s.target, s.targetEnd)
	address := string(r.src[s.target:s.targetEnd])
	what := "link"
	if s.picture {
		what = "picture"
	}
	better := "<" + address + ">"
	switch scheme, _ := splitScheme(address); scheme {
	case "":
	case "http", "https":
		better = strings.Join(strings.Fields(address), "%20")
	default:
		better = strings.Join(strings.Fields(address), "-")
	}
	advice := "write `" + clip(better) + "`"
	r.report(source.Finding{
		Rule:    RuleLinkPathSlip,
		Message: "the address `" + clip(address) + "` has a blank in it, so there is no " + what,
		Do:      advice,
		Fixes:   []source.Fix{{Title: advice, Edits: []source.Edit{{Text: better}}}},
	}, address, at)
}

func (r *reading) reportUnused(start int) {
	end := start
	for end < len(r.src) && r.src[end] != ':' && r.src[end] != '\n' {
		end++
	}
	label := string(r.src[start:end])
	r.report(source.Finding{
		Rule:    RuleUnusedFootnote,
		Message: "the footnote `" + clip(label) + "` is not shown, since nothing refers to it",
		Do:      "put `" + clip(label) + "` where it belongs in the text",
	}, label, r.at(start, end))
}

// taskSlip is what stands for a box and is none: nothing, blanks too many, or a tick of another kind between the brackets.
var taskSlip = regexp.MustCompile(`^\[[ \t]*([xX×✓✔☑]?)[ \t]*\]`)

// readTaskSlip reports a list item whose first paragraph begins with a box that is not written as one: its step is in no list of open ones.
func (r *reading) readTaskSlip(block ast.Node) {
	item, ok := block.Parent().(*ast.ListItem)
	if !ok || item.FirstChild() != block || block.Lines().Len() == 0 {
		return
	}
	words, ok := block.FirstChild().(*ast.Text)
	line := block.Lines().At(0)
	start, end := r.trim(line.Start, line.Stop)
	if !ok || words.Segment.Start != start { // a box or a link stands there
		return
	}
	m := taskSlip.FindSubmatchIndex(r.src[start:end])
	if m == nil || start+m[1] < end && r.src[start+m[1]] == '(' {
		return
	}
	box, better := r.at(start, start+m[1]), "[ ]"
	if m[3] > m[2] {
		better = "[x]"
	}
	text := better
	if start+m[1] < end && !util.IsSpace(r.src[start+m[1]]) {
		text += " "
	}
	r.report(source.Finding{
		Rule:    RuleTaskSlip,
		Message: "`" + clip(string(r.src[start:end])) + "` is not read as a step: its box is not written as one",
		Do:      "write `" + better + "` and a blank after it",
		Fixes:   []source.Fix{{Title: "write `" + better + "`", Edits: []source.Edit{{Text: text}}}},
	}, string(r.src[start:end]), box)
}

// report completes a finding: all of them are warnings, and an edit without a file is one at the finding's place.
func (r *reading) report(f source.Finding, subject string, at source.Range) {
	f.Severity, f.At, f.Subject = source.Warning, at, clean(subject)
	for i := range f.Fixes {
		for j := range f.Fixes[i].Edits {
			edit := &f.Fixes[i].Edits[j]
			edit.File, edit.Start, edit.End = at.File, at.Start, at.End
		}
	}
	r.body.Findings = append(r.body.Findings, f)
}
