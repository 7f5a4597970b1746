package rule

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// nearPath reports readings at a path that is nearly, or in another order, one that is known: a mistyped path must never switch its check
// off. Where the right path has a limit it is an error. Limits, and what asks for a path to be read, are held to the path table and to what is read likewise.
func nearPath(c *Context) {
	for _, w := range c.paths().wrong {
		severity := source.Warning
		if w.sized || w.held {
			severity = source.Error // nothing is worked out, or nothing held to its limit
		}
		c.report(source.Finding{Severity: severity, At: w.At, Subject: w.Name.Name, Entry: w.entry, Message: fmt.Sprintf("nothing is called `%s`; `%s` is", w.Name.Name, w.right),
			Do: fmt.Sprintf("write `%s`, or accept it if this is another thing", w.right)}, -1)
	}
	for _, m := range c.misread() {
		c.misreadAt(m)
	}
}

// misread are the readings of one state of an entry that one mistyped word of their paths keeps from the paths that are meant.
type misread struct {
	values      []*model.Value
	meant       []string // of each value
	path, right string   // up to the mistyped word
	word        int      // which word of the path that is, from nought
}

// misread returns the readings at mistyped paths: those of one entry that one mistyped word has in common together, for it may have been typed once.
func (c *Context) misread() []*misread {
	type typed struct {
		entry       *model.Entry
		origin      model.Origin
		path, right string
	}
	known := c.paths().known
	meant, found := map[string]string{}, map[typed]*misread{}
	var list []*misread
	for _, v := range c.Journal.Values {
		if !v.IsReading() {
			continue
		}
		right, done := meant[v.Path]
		if !done {
			right = c.rightPath(v.Path, known)
			meant[v.Path] = right
		}
		if right == "" {
			continue
		}
		at := differsAt(v.Path, right)
		key := typed{v.Entry, v.Origin, upTo(v.Path, at), upTo(right, at)}
		m := found[key]
		if m == nil {
			m = &misread{path: key.path, right: key.right, word: at}
			found[key] = m
			list = append(list, m)
		}
		m.values, m.meant = append(m.values, v), append(m.meant, right)
	}
	return list
}

// misreadAt reports readings at one mistyped path, at the key of their grid where the word stands in that.
func (c *Context) misreadAt(m *misread) {
	v := m.values[0]
	path, right, more := v.Path, m.meant[0], ""
	if len(m.values) > 1 {
		path, right, more = m.path, m.right, fmt.Sprintf(", for %d readings here", len(m.values))
	}
	severity, open := source.Warning, false
	for i, v := range m.values {
		if len(c.Journal.Governing(m.meant[i])) > 0 {
			severity = source.Error
		}
		open = open || !v.Settled
	}
	f := c.value(v, severity, fmt.Sprintf("nothing else is called `%s`; `%s` is%s", path, right, more), fmt.Sprintf("write `%s`, or accept it if this is another thing", right))
	f.At, f.Subject = v.PathAt(), path
	if key, words := v.Written.GridKey(); m.word < words {
		f.At = key
	}
	if len(m.values) == 1 {
		f.Fixes = pathFix(v, right)
	}
	if open {
		f.State = source.Open
	}
}

// pathFix replaces the last segment where the others are right.
func pathFix(v *model.Value, right string) []source.Fix {
	wrong, good := strings.Split(v.Path, "."), strings.Split(right, ".")
	last := len(wrong) - 1
	if len(wrong) != len(good) || !slices.Equal(wrong[:last], good[:last]) || strings.Contains(v.PathAt().Text(), ".") {
		return nil
	}
	return []source.Fix{source.Replace(fmt.Sprintf("write `%s`", good[last]), v.PathAt(), good[last])}
}

// upTo returns the segments of a path up to one of them, itself included.
func upTo(path string, segment int) string {
	for i := range len(path) {
		if path[i] == '.' {
			if segment == 0 {
				return path[:i]
			}
			segment--
		}
	}
	return path
}

// misnamed is a path that a sheet or an entry names, and the one that is meant.
type misnamed struct {
	parse.Name
	entry  string
	right  string
	sized  bool // it names a size that was measured, so that only what was read will do
	held   bool // a column of a file is read there, and what is meant has a limit
	worked bool // it may name a number that is worked out
}

// naming is what the paths of a journal are called.
type naming struct {
	known map[string]bool // those that limits, parts, tools, goals and the sheet name, those that entries ask for, and those that they all stand below
	wrong []misnamed      // limits, and what parts bring, at a path that is nearly one of the path table, and what is asked for at one that is nearly known or read
}

// isWrong reports whether what is asked for at a path is another that is misnamed.
func (n naming) isWrong(path string) bool {
	return slices.ContainsFunc(n.wrong, func(w misnamed) bool { return w.Name.Name == path })
}

// isAnyWrongBeside reports whether a limit, or what is asked for, is misnamed right beside a path: it may have been meant for any there.
func (n naming) isAnyWrongBeside(path string) bool {
	return slices.ContainsFunc(n.wrong, func(w misnamed) bool { return parse.Above(w.Name.Name) == parse.Above(path) })
}

// isWrongSize reports whether a path stands at or below a size that is misnamed.
func (n naming) isWrongSize(path string) bool {
	return slices.ContainsFunc(n.wrong, func(w misnamed) bool { return w.sized && parse.IsAtOrBelow(path, w.Name.Name) })
}

func (c *Context) naming() naming {
	known := map[string]bool{}
	for path := range parse.SheetPaths() {
		learn(known, path)
	}
	wrong := c.wrongLimits(known)
	for _, part := range c.Journal.Parts {
		for _, r := range part.Brings {
			if right := c.rightBrought(r.Path, known); right != "" {
				wrong = append(wrong, misnamed{Name: parse.Name{Name: r.Path, At: r.PathAt}, right: right})
				continue
			}
			learn(known, r.Path)
		}
	}
	read := maps.Clone(known)
	var logged []string
	for _, v := range c.Journal.Values {
		if v.IsReading() {
			learn(read, v.Path)
		} else {
			logged = append(logged, v.Path)
		}
	}
	wrong = append(wrong, c.misnamedColumns(read)...)
	for _, path := range logged {
		learn(read, path)
	}
	meant := map[string]string{}
	for _, asked := range c.requests() {
		right, done := meant[asked.Name.Name]
		if !done {
			right = c.rightPath(asked.Name.Name, read)
		}
		if !done && right == "" && asked.worked {
			right = c.rightLimit(asked.Name.Name)
		}
		meant[asked.Name.Name] = right
		if right == "" {
			learn(known, asked.Name.Name)
			continue
		}
		asked.right = right
		wrong = append(wrong, asked)
	}
	return naming{known, wrong}
}

// requests are the paths that parts, tools, goals and entries name, to be read or reached.
func (c *Context) requests() []misnamed {
	var all []misnamed
	add := func(names []parse.Name, entry string) {
		for _, name := range names {
			all = append(all, misnamed{Name: name, entry: entry})
		}
	}
	for _, l := range c.Journal.Limits {
		for _, name := range l.Fields.Names("of") {
			all = append(all, misnamed{Name: name, sized: true})
		}
	}
	for _, part := range c.Journal.Parts {
		add(part.Fields.Names("then"), "")
	}
	for _, tool := range c.Journal.Tools {
		add(tool.Fields.Names("for"), "")
	}
	for _, goal := range c.Journal.Goals {
		all = append(all, misnamed{Name: parse.Name{Name: goal.Path, At: goal.PathAt}, worked: true})
	}
	for _, e := range c.Journal.Entries {
		add(e.Fields.Names("expects"), e.Path)
		for _, later := range e.Fields.Tables("later") {
			add(later.Names("reading"), e.Path)
		}
	}
	return all
}

// misnamedColumns are the paths that lists of files give to columns, and that are nearly ones which are known or read by hand: each once an entry.
func (c *Context) misnamedColumns(known map[string]bool) []misnamed {
	var all []misnamed
	for _, e := range c.Journal.Entries {
		for _, key := range parse.DataTables {
			for _, table := range e.Fields.Tables(key) {
				for _, named := range table.Readings("paths") {
					right := c.rightPath(named.Path, known)
					if right == "" || slices.ContainsFunc(all, func(w misnamed) bool { return w.entry == e.Path && w.Name.Name == named.Path }) {
						continue
					}
					all = append(all, misnamed{Name: parse.Name{Name: named.Path, At: named.PathAt}, entry: e.Path, right: right, held: len(c.Journal.Governing(right)) > 0})
				}
			}
		}
	}
	return all
}

// learn adds a path, and those that it stands below.
func learn(known map[string]bool, path string) {
	for ; path != "" && !known[path]; path = parse.Above(path) {
		known[path] = true
	}
}

// rightPath returns the known path that a path is nearly, "" where it is right itself or nothing is near.
func (c *Context) rightPath(path string, known map[string]bool) string {
	if known[path] {
		return ""
	}
	words := strings.Split(path, ".")
	fits := parse.FindPattern(path) != nil
	if !fits {
		if right := reordered(words, func(order []string) bool {
			return known[strings.Join(order, ".")] || parse.FitsNamed(order, c.Journal.Cylinders)
		}); right != "" {
			return right
		}
	}
	if right := c.rightBelowCylinder(words, known); right != "" {
		return right
	}
	for i := len(words); i > 0; i-- {
		if i < len(words) && known[strings.Join(words[:i], ".")] && fits {
			return "" // below a known path, at names that are free
		}
		for _, right := range c.candidates(words[:i], known) {
			return strings.Join(append(right, words[i:]...), ".")
		}
	}
	return ""
}

// rightBelowCylinder returns the path with the name of a valve, or of a ring, below a cylinder that has a limit for every cylinder and is nearly the path's last; "" where that name is read at another
// cylinder too, or none is near.
func (c *Context) rightBelowCylinder(words []string, known map[string]bool) string {
	pattern := parse.FindPattern(strings.Join(words, "."))
	if pattern == nil || !pattern.NamesBelowCylinder() {
		return ""
	}
	depth, _ := pattern.Cylinders()
	if len(words) != depth+2 || !slices.Contains(c.Journal.Cylinders, words[depth]) {
		return ""
	}
	named := func(name string) string { return strings.Join(append(slices.Clone(words[:depth]), name), ".") }
	for _, l := range c.Journal.Limits {
		if !l.EachCylinder || !known[l.Path] || l.Path == named(words[depth+1]) || parse.Above(l.Path) != strings.Join(words[:depth], ".") {
			continue
		}
		if name := parse.LastSegment(l.Path); c.isNearWord(words[depth+1], name) && !c.isReadElsewhere(words, depth) {
			return strings.Join(append(slices.Clone(words[:depth+1]), name), ".")
		}
	}
	return ""
}

// isReadElsewhere reports whether the last name of a path is read below another cylinder too.
func (c *Context) isReadElsewhere(words []string, depth int) bool {
	return slices.ContainsFunc(c.Journal.Cylinders, func(cylinder string) bool {
		other := slices.Clone(words)
		other[depth] = cylinder
		return cylinder != words[depth] && len(c.Journal.History(strings.Join(other, "."))) > 0
	})
}

// candidates returns the known paths of as many segments that differ in one, by a letter.
func (c *Context) candidates(words []string, known map[string]bool) [][]string {
	var found [][]string
	for i, word := range words {
		for _, near := range c.segmentsAt(words, i, known) {
			if !c.isNearWord(word, near) {
				continue
			}
			right := slices.Clone(words)
			right[i] = near
			found = append(found, right)
		}
	}
	return found
}

// segmentsAt returns the words that known paths have at a place where the other segments are those given, sorted.
func (c *Context) segmentsAt(words []string, at int, known map[string]bool) []string {
	var segments []string
	for _, path := range slices.Sorted(maps.Keys(known)) {
		other := strings.Split(path, ".")
		if len(other) == len(words) && slices.Equal(other[:at], words[:at]) && slices.Equal(other[at+1:], words[at+1:]) {
			segments = append(segments, other[at])
		}
	}
	return append(segments, parse.SegmentsAt(words, at)...)
}

// isNearWord reports whether two segments differ by one letter, in words of four letters or more; digits and the names of cylinders are
// never mistaken for one another.
func (c *Context) isNearWord(a, b string) bool {
	if a == b || max(len([]rune(a)), len([]rune(b))) < 4 || source.Distance(a, b) != 1 {
		return false
	}
	if slices.Contains(c.Journal.Cylinders, a) && slices.Contains(c.Journal.Cylinders, b) {
		return false
	}
	return digitsOf(a) == digitsOf(b)
}

func digitsOf(word string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return r
		}
		return -1
	}, word)
}

// reordered returns the path with the same segments in another order that is right, "" where none is.
func reordered(words []string, isRight func(order []string) bool) string {
	if len(words) < 2 || len(words) > 5 {
		return ""
	}
	right := ""
	permute(words, 0, func(order []string) bool {
		if slices.Equal(order, words) || !isRight(order) {
			return false
		}
		right = strings.Join(order, ".")
		return true
	})
	return right
}

// permute calls visit with every order of the words until it returns true.
func permute(words []string, from int, visit func([]string) bool) bool {
	if from == len(words) {
		return visit(words)
	}
	for i := from; i < len(words); i++ {
		order := slices.Clone(words)
		order[from], order[i] = order[i], order[from]
		if permute(order, from+1, visit) {
			return true
		}
	}
	return false
}
