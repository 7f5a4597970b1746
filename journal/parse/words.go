package parse

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.org/locknut/journal/source"
)

func (d *decoder) text(f *Field, n *node) bool {
	if !n.isString() {
		return d.wrongKind(f, n)
	}
	if strings.TrimSpace(n.text) == "" {
		d.report("empty-value", source.Note, n.at, f.Key.Name, fmt.Sprintf("`%s` is empty", f.Key.Name), "fill it in or take the line out")
		return false
	}
	text := Text{Text: n.text, At: n.at}
	if f.Key.Kind == KindMarkdown {
		text.strand = n.alone()
	}
	f.Texts = append(f.Texts, text)
	return true
}

func (d *decoder) choice(f *Field, n *node) bool {
	if !n.isString() {
		return d.wrongKind(f, n)
	}
	folded := Fold(n.text)
	for _, c := range f.Key.Choices {
		if Fold(c) == folded {
			f.Texts = append(f.Texts, Text{Text: c, At: n.at})
			return true
		}
	}
	do := "one of: " + strings.Join(f.Key.Choices, ", ")
	var fixes []source.Fix
	if near := source.Nearest(folded, f.Key.Choices); near != "" {
		fixes = append(fixes, source.Replace(fmt.Sprintf("write `%s`", near), n.at, strconv.Quote(near)))
	}
	d.report("unknown-word", source.Error, n.at, f.Key.Name, fmt.Sprintf("`%s` is not a word that `%s` knows", n.text, f.Key.Name), do, fixes...)
	return false
}

func (d *decoder) name(f *Field, n *node) bool {
	if !n.isString() {
		return d.wrongKind(f, n)
	}
	if !d.goodName(n.text, n.at, n) {
		return false
	}
	f.Names = append(f.Names, Name{Name: Fold(n.text), Typed: n.text, At: n.at})
	return true
}

func (d *decoder) path(f *Field, n *node) bool {
	if !n.isString() {
		return d.wrongKind(f, n)
	}
	for _, segment := range strings.Split(n.text, ".") {
		if !d.goodName(segment, n.at, n) {
			return false
		}
	}
	f.Names = append(f.Names, Name{Name: FoldPath(n.text), Typed: n.text, At: n.at})
	return true
}

// subject decodes what a finding is about: a name or a path is folded, a file or a link stays as it was typed.
func (d *decoder) subject(f *Field, n *node) bool {
	if !n.isString() {
		return d.wrongKind(f, n)
	}
	name := Name{Name: n.text, Typed: n.text, At: n.at}
	switch words := strings.Split(n.text, "."); {
	case n.text == "":
		return d.goodName("", n.at, n)
	case !slices.ContainsFunc(words, func(word string) bool { return !isName(word) }):
		name.Name = FoldPath(n.text)
	}
	f.Names = append(f.Names, name)
	return true
}

// goodName reports whether a word may be a name, or a segment of a path: letters, digits and `-`.
func (d *decoder) goodName(word string, at source.Range, n *node) bool {
	if isName(word) {
		return true
	}
	message := fmt.Sprintf("`%s` is not a name: names are letters, digits and `-`", word)
	var fixes []source.Fix
	if offer := nameFrom(word); isName(offer) && n != nil && n.isString() {
		fixes = append(fixes, source.Replace(fmt.Sprintf("write `%s`", offer), n.span(0, len(n.text)), escapedIn(n.at, strings.Replace(n.text, word, offer, 1))))
	}
	if word == "" {
		message = "a name is empty"
	}
	d.report("bad-name", source.Error, at, Fold(word), message, "use letters, digits and `-`", fixes...)
	return false
}

func isName(word string) bool {
	tells := false // a dash alone names nothing
	for _, r := range word {
		if !isNameRune(r) {
			return false
		}
		tells = tells || r != '-' && r != '_'
	}
	return tells
}

func isNameRune(r rune) bool {
	return r == '-' || r == '_' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= 0x80 && isLetter(r)
}

// nameFrom returns the name that a text was probably meant to be.
func nameFrom(text string) string {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !isNameRune(r) })
	return strings.Join(words, "-")
}

func (d *decoder) whole(f *Field, n *node) bool {
	number, err := strconv.Atoi(strings.ReplaceAll(n.text, "_", ""))
	if n.kind != nodeInteger || err != nil {
		return d.wrongKind(f, n)
	}
	f.Whole = number
	return true
}

func (d *decoder) cylinders(f *Field, n *node) bool {
	if n.kind == nodeInteger {
		if !d.whole(f, n) {
			return false
		}
		if f.Whole < 1 || f.Whole > 48 {
			d.report("wrong-kind", source.Error, n.at, f.Key.Name, fmt.Sprintf("an engine has 1 to 48 cylinders, not `%s`", n.text), f.Key.Doc)
			return false
		}
		for i := 1; i <= f.Whole && f.Whole > 1; i++ {
			f.Names = append(f.Names, Name{Name: strconv.Itoa(i), Typed: strconv.Itoa(i), At: n.at})
		}
		return true
	}
	good := d.each(f, n, d.name)
	if !good || d.emptyList(f.Key, n) || !d.namesOnce(f) {
		f.Names = nil // which cylinder a name stands for can't be told from some of them
		return false
	}
	f.Whole = len(f.Names)
	return true
}

func (d *decoder) namesOnce(f *Field) bool {
	seen := map[string]Name{}
	for _, name := range f.Names {
		if first, twice := seen[name.Name]; twice {
			d.report("defined-twice", source.Error, name.At, f.Key.Name, fmt.Sprintf("`%s` and `%s` are one name", first.Typed, name.Typed), "give each a name of its own")
			d.note(first.At, "the first one")
			return false
		}
		seen[name.Name] = name
	}
	return true
}

// order decodes an order of tightening: whole numbers, each once.
func (d *decoder) order(f *Field, n *node) bool {
	if !d.text(f, n) {
		return false
	}
	f.Texts = nil
	var words []string
	seen := map[int]bool{}
	for start := 0; start < len(n.text); {
		if isBetween(n.text[start]) {
			start++
			continue
		}
		end := start
		for end < len(n.text) && !isBetween(n.text[end]) {
			end++
		}
		word := n.text[start:end]
		number, err := strconv.Atoi(word)
		if err != nil || number < 1 || seen[number] {
			d.report("bad-order", source.Error, n.span(start, end), f.Key.Name,
				fmt.Sprintf("`%s` is not the next number of an order, which holds each bolt's number once", word), "write the numbers of the bolts in the order in which they are tightened")
			return false
		}
		seen[number] = true
		words = append(words, word)
		start = end
	}
	for i := 1; i <= max(1, len(words)); i++ {
		if !seen[i] {
			d.report("bad-order", source.Error, n.at, f.Key.Name, fmt.Sprintf("the order names %d bolts but not bolt %d", len(words), i), "write each bolt's number once")
			return false
		}
	}
	f.Texts = append(f.Texts, Text{Text: strings.Join(words, " "), At: n.at})
	return true
}

// isBetween reports whether a byte stands between the numbers of an order.
func isBetween(b byte) bool { return isBlank(b) || b == ',' || b == '-' || b == '\n' }
