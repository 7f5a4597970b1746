package markdown

import (
	"net/url"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.org/locknut/journal/source"
)

var ownSchemes = []string{SchemePart, SchemeLimit, SchemeTool, SchemeEntry, SchemeValue, SchemeChart}

var allSchemes = append(slices.Clone(ownSchemes), "http", "https", "mailto")

// fate says what becomes of an address.
type fate uint8

const (
	toHole  fate = iota // the renderer fills it
	outside             // written out as it is
	refused             // the text alone stands
)

// target is an address that was read.
type target struct {
	fate     fate
	scheme   string
	path     string // what follows the scheme, percent-decoded
	fragment string
	href     string // for an outside address: what goes into the page, not yet escaped for HTML
	trouble  *source.Finding
}

// readTarget reads an address: raw is as typed, address has its escapes and entities resolved. A finding in it still needs its
// place.
func readTarget(raw, address string, picture bool) target {
	scheme, rest := splitScheme(address)
	switch {
	case len(scheme) == 1 && (strings.HasPrefix(rest, `\`) || strings.HasPrefix(rest, "/")):
		return target{fate: refused, trouble: &source.Finding{
			Rule:    RuleLinkPathSlip,
			Message: "`" + clip(address) + "` is a place on one computer, outside the journal",
			Do:      "copy the file into the journal's folder and name it from there, as in `photos/head.jpg`",
		}}
	case scheme == "" && strings.HasPrefix(rest, "//"):
		return target{fate: refused, trouble: &source.Finding{
			Rule:    RuleLinkScheme,
			Message: "the address `" + clip(address) + "` does not say how it is reached",
			Do:      "write `https:` before it",
			Fixes:   []source.Fix{{Title: "write `https:` before it", Edits: []source.Edit{{Text: "https:" + raw}}}},
		}}
	case scheme == "":
		return readPath(raw, rest, picture)
	case slices.Contains(ownSchemes, scheme):
		t := target{fate: toHole, scheme: scheme}
		if scheme == SchemeEntry {
			rest, t.fragment = splitFragment(rest)
		}
		t.path = decode(rest)
		return t
	case slices.Contains(allSchemes, scheme):
		return readOutside(scheme, address, picture)
	}
	return unknownScheme(scheme, address, rest)
}

// splitScheme cuts an address at the `:` that ends its scheme (RFC 3986, 3.1), which it returns in lower case.
func splitScheme(address string) (scheme, rest string) {
	for i := 0; i < len(address); i++ {
		c := address[i]
		switch {
		case c == ':' && i > 0:
			return strings.ToLower(address[:i]), address[i+1:]
		case 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z':
		case i > 0 && ('0' <= c && c <= '9' || c == '+' || c == '-' || c == '.'):
		default:
			return "", address
		}
	}
	return "", address
}

func splitFragment(rest string) (path, fragment string) {
	path, fragment, _ = strings.Cut(rest, "#")
	return path, decode(fragment)
}

// decode resolves percent signs. A text in which they mean nothing, or something that no file name holds, is kept as it is.
func decode(text string) string {
	if !strings.Contains(text, "%") {
		return text
	}
	decoded, err := url.PathUnescape(text)
	if err != nil || !utf8.ValidString(decoded) || strings.ContainsFunc(decoded, unicode.IsControl) {
		return text
	}
	return decoded
}

// readPath reads a relative address. A back-slash before a letter or digit is no escape, so it was meant as a `/`, and so were
// the others beside it.
func readPath(raw, path string, picture bool) target {
	t := target{fate: toHole}
	if slashed := strings.ReplaceAll(raw, `\`, "/"); hasPathSlash(raw) {
		path = slashed
		t.trouble = &source.Finding{
			Rule:    RuleLinkPathSlip,
			Message: "the path `" + clip(raw) + "` has back-slashes, which only one kind of computer reads",
			Do:      "write `" + clip(slashed) + "`",
			Fixes:   []source.Fix{{Title: "write `" + clip(slashed) + "`", Edits: []source.Edit{{Text: slashed}}}},
		}
	}
	if !picture { // a picture has no places in it, and `#` is a letter of its name
		path, t.fragment = splitFragment(path)
	}
	t.path = decode(path)
	return t
}

func hasPathSlash(raw string) bool {
	for i := 0; i+1 < len(raw); i++ {
		if raw[i] != '\\' {
			continue
		}
		next, _ := utf8.DecodeRuneInString(raw[i+1:])
		if unicode.IsLetter(next) || unicode.IsDigit(next) {
			return true
		}
		i++
	}
	return false
}

// readOutside reads an address on the web or of a mailbox. A page asks for nothing outside the journal, so a picture there is
// only linked to.
func readOutside(scheme, address string, picture bool) target {
	if scheme == "mailto" && !picture {
		return target{fate: outside, scheme: scheme, href: escapeAddress(address)}
	}
	if scheme == "mailto" {
		return target{fate: refused, trouble: &source.Finding{
			Rule:    RuleLinkScheme,
			Message: "a picture can't be at a mailbox, `" + clip(address) + "`",
			Do:      "leave out the `!`",
		}}
	}
	href := escapeAddress(address)
	parsed, err := url.Parse(href)
	if err != nil || parsed.Host == "" || !portInRange(parsed.Port()) {
		return target{fate: refused, trouble: &source.Finding{
			Rule:    RuleBadAddress,
			Message: "the web address `" + clip(address) + "` can't be read",
			Do:      "copy it again from the browser's address bar",
		}}
	}
	if parsed.User != nil {
		return target{fate: refused, trouble: &source.Finding{
			Rule:    RuleBadAddress,
			Message: "the web address at `" + clip(parsed.Host) + "` holds a user's name, which would be published",
			Do:      "take out all between `//` and `@`",
		}}
	}
	t := target{fate: outside, scheme: scheme, href: href}
	if picture {
		t.trouble = &source.Finding{
			Rule:    RuleOutsidePicture,
			Message: "the picture at `" + clip(parsed.Host) + "` is only linked to: a page shows nothing from outside the journal",
			Do:      "save it in the journal's folder `photos` and name it from there",
		}
	}
	return t
}

func portInRange(port string) bool {
	if port == "" {
		return true
	}
	n, err := strconv.Atoi(port)
	return err == nil && n <= 65535
}

func unknownScheme(scheme, address, rest string) target {
	f := &source.Finding{
		Rule:    RuleLinkScheme,
		Message: "a link can't begin with `" + clip(scheme) + ":`, so only its text is shown",
		Do:      "begin it with `" + strings.Join(allSchemes, ":`, `") + ":` or a file's path",
	}
	if near := source.Nearest(scheme, allSchemes); near != "" {
		f.Do = "write `" + near + ":`"
		f.Fixes = []source.Fix{{Title: "write `" + clip(near+":"+rest) + "`", Edits: []source.Edit{{Text: near + ":" + rest}}}}
	}
	return target{fate: refused, trouble: f}
}

// escapeAddress percent-encodes what no address may hold (RFC 3986, 2.1 to 2.3): blanks, quotes, angle brackets and the like, a
// percent sign that begins no code, a second `#`, square brackets outside the host. Letters and digits of every script stay, as
// HTML allows.
func escapeAddress(address string) string {
	host := 0 // square brackets are right before here
	if _, rest := splitScheme(address); strings.HasPrefix(rest, "//") {
		host = len(address) - len(rest) + 2
		if stop := strings.IndexAny(address[host:], "/?#"); stop >= 0 {
			host += stop
		} else {
			host = len(address)
		}
	}
	var b strings.Builder
	fragment := false
	for i, r := range address {
		size := utf8.RuneLen(r)
		if r == utf8.RuneError {
			_, size = utf8.DecodeRuneInString(address[i:])
		}
		typed := address[i : i+size]
		keep := r != utf8.RuneError && addressRune(r)
		switch r {
		case '%':
			keep = i+2 < len(address) && isHex(address[i+1]) && isHex(address[i+2])
		case '#':
			keep, fragment = !fragment, true
		case '[', ']':
			keep = i < host
		}
		if keep {
			b.WriteString(typed)
			continue
		}
		for _, c := range []byte(typed) {
			b.WriteByte('%')
			b.WriteByte("0123456789ABCDEF"[c>>4])
			b.WriteByte("0123456789ABCDEF"[c&15])
		}
	}
	return b.String()
}

func addressRune(r rune) bool {
	if r < utf8.RuneSelf {
		return 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z' || '0' <= r && r <= '9' || strings.ContainsRune("-._~!$&'()*+,;=:@/?", r)
	}
	return unicode.IsLetter(r) || unicode.IsNumber(r) || unicode.IsMark(r)
}

func isHex(c byte) bool {
	return '0' <= c && c <= '9' || 'a' <= c && c <= 'f' || 'A' <= c && c <= 'F'
}

var fileEnding = regexp.MustCompile(`\.[A-Za-z0-9]{2,4}$`)

// looksLikeAddress tells `[the head](photos/the head.jpg)` from `[1] (see there)`.
func looksLikeAddress(text string) bool {
	scheme, rest := splitScheme(text)
	if scheme != "" && !strings.HasPrefix(rest, " ") && slices.Contains(allSchemes, scheme) {
		return true
	}
	return fileEnding.MatchString(text) || strings.HasPrefix(text, "./") || strings.HasPrefix(text, "../")
}
