package report

import (
	"slices"
	"sort"
	"strings"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/rule"
	"example.org/locknut/journal/source"
)

// Manual is what can be explained, or the part of it that somebody asked for.
type Manual struct {
	Rules   []Page // what can be found wrong
	Numbers []Page // what is worked out
	Keys    []Key
	Paths   []Path
	Units   []*quantity.Unit
	Whole   bool // each is to be shown in full, not as a line in a list
}

// Page is the page of a rule or of a family of numbers.
type Page struct {
	Name   string
	Clause string // from its title
	Firm   bool   // of a rule: its findings can't be accepted

	page func(name string) string
}

// Text returns the page itself, in Markdown. Most that a manual holds are never asked for theirs.
func (p Page) Text() string { return p.page(p.Name) }

// Key is a key of a file that builders write.
type Key struct {
	*parse.Key
	File string // as in `build.toml`, or `entry`; `value` for a value with details
	Name string // with the tables that it stands in: `engine.bore`
}

// Path is a row of the table of paths that mean something.
type Path struct {
	*parse.Pattern
	Worked bool   // a worked-out number stands there; it is never read
	Asked  string // the path that somebody asked for, where it is one of the row's
}

// files are the kinds of file that builders write, as the reference orders them, and what a value of an entry may be written as.
var files = []string{"build.toml", "limits.toml", "parts.toml", "tools.toml", "entry", "value"}

// Everything returns the whole manual: rules, numbers and paths in their own order, keys by file, units by dimension.
func Everything() Manual {
	var m Manual
	for _, r := range rule.All {
		page := NewPage(r.Name, rule.Title(r.Name), rule.Page)
		page.Firm = r.Firm
		m.Rules = append(m.Rules, page)
	}
	sort.SliceStable(m.Rules, func(i, j int) bool { return m.Rules[i].Name < m.Rules[j].Name })
	for _, f := range derive.All {
		m.Numbers = append(m.Numbers, NewPage(f.Name, derive.Title(f.Name), derive.Page))
	}
	for _, file := range files {
		table := parse.Tables()[file]
		if file == "value" {
			table = parse.Tables()["value with details"]
		}
		m.Keys = append(m.Keys, keysBelow(file, "", table.Keys)...)
	}
	for i := range parse.Paths {
		m.Paths = append(m.Paths, Path{Pattern: &parse.Paths[i]})
	}
	for i := range parse.Worked {
		m.Paths = append(m.Paths, Path{Pattern: &parse.Worked[i], Worked: true})
	}
	m.Units = quantity.Units()
	return m
}

// NewPage makes a page of its name, its title, "# `name`: clause", and what returns its text by the name.
func NewPage(name, title string, page func(name string) string) Page {
	_, clause, _ := strings.Cut(title, ":")
	return Page{Name: name, Clause: strings.TrimSpace(clause), page: page}
}

func keysBelow(file, prefix string, keys []parse.Key) []Key {
	var all []Key
	for i := range keys {
		name := prefix + keys[i].Name
		all = append(all, Key{Key: &keys[i], File: file, Name: name})
		all = append(all, keysBelow(file, name+".", keys[i].Keys)...)
	}
	return all
}

// fullUpTo is how many things are shown in full; of more there is a list.
const fullUpTo = 12

// Find returns what a name means: rules, numbers, keys of any file, paths and units of that name together, or a kind of them (`rules`,
// `keys`, `build.toml`). Where nothing has that very name it returns what the word occurs in: `lash` finds the paths of lash and what is
// found and worked out there. Where nothing does, the Manual is empty, and near is the name most like it; "" if none is.
func (m Manual) Find(name string) (found Manual, near string) {
	name = strings.TrimSpace(name)
	word := parse.FoldPath(strings.Join(strings.Fields(name), "-"))
	if kind, ok := m.kind(word); ok {
		return kind, ""
	}
	if exact := m.named(name, word); !exact.IsEmpty() {
		exact.Whole = exact.count() <= fullUpTo
		return exact, ""
	}
	if about := m.about(word); !about.IsEmpty() {
		about.Whole = len(about.Rules)+len(about.Numbers) == 1 && about.count() == 1
		return about, ""
	}
	return Manual{}, source.Nearest(word, m.names())
}

// IsEmpty reports whether there is nothing in it.
func (m Manual) IsEmpty() bool { return m.count() == 0 }

func (m Manual) count() int {
	return len(m.Rules) + len(m.Numbers) + len(m.Keys) + len(m.Paths) + len(m.Units)
}

// kind returns all of a kind.
func (m Manual) kind(word string) (Manual, bool) {
	switch strings.TrimSuffix(word, "s") {
	case "rule", "finding", "warning":
		return Manual{Rules: m.Rules}, true
	case "number":
		return Manual{Numbers: m.Numbers}, true
	case "key":
		return Manual{Keys: m.Keys}, true
	case "path":
		return Manual{Paths: m.Paths}, true
	case "unit":
		return Manual{Units: m.Units}, true
	}
	if slices.Contains(files, word) {
		return m.keep(func(string, func() string) bool { return false }, func(k Key) bool { return k.File == word }, nil, nil), true
	}
	return Manual{}, false
}

// named returns what has that very name; and beside it, for a single word, what belongs to the name: the keys of a table that is called
// so, the paths that it is a step of, and the units of a dimension of that name.
func (m Manual) named(name, word string) Manual {
	spelled := quantity.UnitsSpelled(name)
	steps := strings.Split(word, ".")
	beginsPaths := slices.ContainsFunc(m.Paths, func(p Path) bool { return strings.HasPrefix(p.Path, word+".") })
	isDetail := func(k Key) bool { return beginsPaths && k.File == "entry" && strings.Contains(k.Name, ".") } // of a table, and no name of what stands at those paths
	exact := m.keep(
		func(page string, _ func() string) bool { return page == word },
		func(k Key) bool {
			return k.Key.Name == word && !isDetail(k) || k.Name == word || k.File+"."+k.Name == word
		},
		func(p Path) bool { return strings.ToLower(p.Path) == word || len(steps) > 1 && fits(p.Path, steps) },
		func(u *quantity.Unit) bool { return name != "" && slices.Contains(spelled, u) })
	if exact.IsEmpty() || len(steps) > 1 {
		for i := range exact.Paths {
			exact.Paths[i].Asked = word
		}
		return exact
	}
	return m.keep(
		func(page string, _ func() string) bool { return page == word },
		func(k Key) bool { return slices.Contains(strings.Split(k.Name, "."), word) },
		func(p Path) bool { return isWord(p.Path, word) },
		func(u *quantity.Unit) bool {
			return slices.Contains(spelled, u) || dashed(u.Dimension.String()) == word
		})
}

// about returns what a word occurs in: in names as one of their words, in the clause that says what a thing is, and anywhere on the page
// of a number.
func (m Manual) about(word string) Manual {
	singular := strings.TrimSuffix(word, "s")
	in := func(texts ...string) bool {
		return slices.ContainsFunc(texts, func(text string) bool { return hasWord(text, word) || singular != word && hasWord(text, singular) })
	}
	return m.keep(
		func(page string, text func() string) bool { return in(page) || in(text()) },
		func(k Key) bool { return k.Key.Name == word || in(k.Name, k.Doc) },
		func(p Path) bool { return isWord(p.Path, word) || in(p.Path, p.Doc) },
		func(u *quantity.Unit) bool { return in(u.Dimension.String()) || dashed(u.Dimension.String()) == word })
}

// hasWord reports whether a text has a word, which is in lower case, among its own. It doesn't lower the text: all pages are long, and the
// first byte, of which case is one bit, rules most places out.
func hasWord(text, word string) bool {
	if word == "" {
		return false
	}
	for i := range len(text) - len(word) + 1 {
		end := i + len(word)
		if text[i]|0x20 == word[0]|0x20 && (i == 0 || !isOfWord(text[i-1])) && (end == len(text) || !isOfWord(text[end])) &&
			strings.EqualFold(text[i:end], word) {
			return true
		}
	}
	return false
}

// isOfWord reports whether a sign is of a word.
func isOfWord(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c > 0x7f
}

// keep returns what passes. A page is asked by its name and its text: all of it for a number, the clause for a rule, whose page is full of
// examples.
func (m Manual) keep(page func(name string, text func() string) bool, key func(Key) bool, path func(Path) bool, unit func(*quantity.Unit) bool) Manual {
	var kept Manual
	for _, r := range m.Rules {
		if page(r.Name, func() string { return r.Clause }) {
			kept.Rules = append(kept.Rules, r)
		}
	}
	for _, n := range m.Numbers {
		if page(n.Name, n.Text) {
			kept.Numbers = append(kept.Numbers, n)
		}
	}
	for _, k := range m.Keys {
		if key(k) {
			kept.Keys = append(kept.Keys, k)
		}
	}
	for _, p := range m.Paths {
		if path != nil && path(p) {
			kept.Paths = append(kept.Paths, p)
		}
	}
	for _, u := range m.Units {
		if unit != nil && unit(u) {
			kept.Units = append(kept.Units, u)
		}
	}
	return kept
}

// isWord reports whether a word with a dash is one of a path's words.
func isWord(path, word string) bool {
	return slices.Contains(strings.FieldsFunc(path, func(r rune) bool { return strings.ContainsRune(".(|)", r) }), word)
}

func dashed(text string) string { return strings.ReplaceAll(text, " ", "-") }

// words cuts a text into its words, in lower case.
func words(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r > 0x7f) })
}

// fits reports whether a path, or the beginning of one, fits a row of the path table.
func fits(pattern string, steps []string) bool {
	segments := strings.Split(pattern, ".")
	for i, step := range steps {
		switch {
		case i >= len(segments):
			return false
		case segments[i] == "…":
			return true
		case segments[i] == "CYL" || segments[i] == "NAME":
			continue
		case !slices.Contains(strings.Split(strings.Trim(segments[i], "()"), "|"), step):
			return false
		}
	}
	return true
}

// names returns all that can be asked for by one word.
func (m Manual) names() []string {
	all := slices.Concat([]string{"rules", "numbers", "keys", "paths", "units"}, files)
	for _, p := range slices.Concat(m.Rules, m.Numbers) {
		all = append(all, p.Name)
	}
	for _, k := range m.Keys {
		all = append(all, k.Name, k.Key.Name)
	}
	for _, p := range m.Paths {
		all = append(all, words(p.Path)...)
	}
	for _, u := range m.Units {
		all = append(all, dashed(u.Dimension.String()), u.Name)
	}
	return all
}
