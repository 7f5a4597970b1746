package render

import (
	"crypto/sha256"
	"encoding/hex"
	"net/url"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// place is somewhere on the site: a page, and perhaps an id on it. The zero place is nowhere: what leads there is plain text.
type place struct{ page, id string }

// maxName is how many bytes of a thing's name its file's name keeps: file systems take 255, less the folder's and the ending's.
const maxName = 180

// fileName folds a name so that it can be the name of a file on any system, a USB stick's too. It has no `/`.
func fileName(name string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r == '/':
			b.WriteByte('.')
		case unicode.IsSpace(r) || unicode.IsControl(r) || r == utf8.RuneError || strings.ContainsRune("_\\<>:\"|?*#%", r):
			b.WriteByte('-')
		default:
			b.WriteRune(r)
		}
	}
	folded := strings.TrimLeft(b.String(), ".")
	if len(folded) > maxName {
		sum := sha256.Sum256([]byte(name))
		cut := maxName
		for !utf8.RuneStart(folded[cut]) {
			cut--
		}
		folded = folded[:cut] + "~" + hex.EncodeToString(sum[:4])
	}
	if folded == "" {
		return "-"
	}
	if before, after, _ := strings.Cut(folded, "."); isDevice(before) {
		folded = before + "-"
		if after != "" {
			folded += "." + after
		}
	}
	return folded
}

// isDevice reports whether some systems take a name for a device, whatever its ending (from memory).
func isDevice(name string) bool {
	switch name {
	case "con", "prn", "aux", "nul":
		return true
	}
	return len(name) == 4 && (strings.HasPrefix(name, "com") || strings.HasPrefix(name, "lpt")) && name[3] >= '1' && name[3] <= '9'
}

// assign gives each name a page of its own in a folder. Names that fold to one address are told apart by a number, the first keeping
// the plain one.
func assign(folder string, names []string) map[string]string {
	pages := make(map[string]string, len(names))
	used := map[string]bool{}
	for _, name := range names {
		if _, again := pages[name]; again {
			continue
		}
		base := folder + "/" + fileName(name)
		address := base
		for n := 2; used[address]; n++ {
			address = base + "~" + strconv.Itoa(n)
		}
		used[address] = true
		pages[name] = address + ".html"
	}
	return pages
}

// anchor returns the id that an identity has on a page: an id holds no blanks.
func anchor(id string) string {
	if isEncoded(id) {
		return id
	}
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || unicode.IsControl(r) || r == utf8.RuneError {
			return '-'
		}
		return r
	}, id)
}

// address returns the relative address of a place from a page.
func address(from string, to place) string {
	pieces := addressPieces(from, to)
	return strings.Join(pieces[:], "")
}

// addressPieces returns the pieces of an address: the way up, the page, the mark before the id, the id.
func addressPieces(from string, to place) (pieces [4]string) {
	if to.id != "" {
		pieces[2], pieces[3] = "#", encode(to.id)
		if to.page == from {
			return pieces
		}
	}
	if strings.Contains(from, "/") {
		pieces[0] = "../"
	}
	pieces[1] = encode(to.page)
	return pieces
}

// encode percent-encodes a path, or an id, whose `/` stand for themselves.
func encode(path string) string {
	if isEncoded(path) {
		return path
	}
	parts := strings.Split(path, "/")
	for i, part := range parts {
		parts[i] = url.PathEscape(part)
	}
	return strings.Join(parts, "/")
}

// isEncoded reports whether nothing in a path needs encoding, as in nearly all.
func isEncoded[T string | []byte](path T) bool {
	for i := range len(path) {
		if !addressByte[path[i]] {
			return false
		}
	}
	return true
}

// addressByte tells the bytes that stand for themselves in an address.
var addressByte = func() (plain [256]bool) {
	for b := range plain {
		c := byte(b)
		plain[b] = c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c >= 'A' && c <= 'Z' || c == '-' || c == '.' || c == '/' || c == '_' || c == '~'
	}
	return plain
}()

// The places of things. Each is nowhere for a thing that has no page, or that is never published.

func (s *site) entryPlace(e *model.Entry) place {
	if e == nil || !s.ShowsEntry(e) {
		return place{}
	}
	return place{page: s.entryPages[e.Index]}
}

func (s *site) pathPlace(path string) place { return place{page: s.pathPages[path]} }

func (s *site) partPlace(part *model.Part) place {
	if part == nil {
		return place{}
	}
	return place{page: s.partPages[part.Name]}
}

func (s *site) toolPlace(tool *model.Tool) place {
	if tool == nil {
		return place{}
	}
	return place{page: s.toolPages[tool.Name]}
}

func (s *site) tagPlace(tag string) place { return place{page: s.tagPages[tag]} }

func (s *site) rulePlace(rule string) place { return place{page: s.rulePages[rule]} }

func (s *site) findingPlace(f *source.Finding) place {
	return place{s.found.page[f], anchor(f.ID())}
}

// valuePlace is the row of a value: on its entry's page, or on its path's where it comes from no entry.
func (s *site) valuePlace(v *model.Value) place {
	switch {
	case v == nil || !s.ShowsValue(v):
		return place{}
	case v.Entry != nil:
		return place{s.entryPages[v.Entry.Index], anchor(v.ID())}
	case s.pathPages[v.Path] == "":
		return place{}
	case s.rowPages[v] != "":
		return place{s.rowPages[v], anchor(v.ID())}
	}
	return place{s.pathPages[v.Path], anchor(v.ID())}
}

// numberPlace is where a worked-out number stands: on the page of its family, or on that of the entry that left it so.
func (s *site) numberPlace(n *derive.Number) place {
	switch {
	case n == nil || !s.ShowsNumber(n):
		return place{}
	case n.Entry == nil:
		return place{s.familyPages[n.Family.Name], anchor(n.ID())}
	case n.Reason != "":
		return place{}
	case n.Found:
		return place{s.entryPages[n.Entry.Index], anchor(n.ID())}
	case !isNews(n):
		return s.numberPlace(s.current[n.Path])
	}
	return place{s.entryPages[n.Entry.Index], anchor(n.ID())}
}
