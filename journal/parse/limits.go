package parse

import (
	"fmt"
	"slices"
	"sort"
	"strconv"
	"strings"

	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// Limit is one limit as it was written, or a table above limits that they inherit from.
type Limit struct {
	Path   string         // folded
	Spell  string         // as typed
	PathAt source.Range   // the last segment of its path
	Places []source.Range // of the segments of its path
	Fields *Fields        // nil for a limit in one line
	Line   *Value         // a limit in one line: figures are its bounds, words what it expects
	Unread bool           // its figures could not be read: it holds nothing to anything, but it is there
}

// limitTree decodes a tree of limits: those of `limits.toml`, or of a part.
func (d *decoder) limitTree(t *node) []*Limit {
	var limits []*Limit
	d.limitsBelow(t, Limit{}, &limits)
	return limits
}

// limitsBelow decodes a table of limits; where says where it stands.
func (d *decoder) limitsBelow(table *node, where Limit, limits *[]*Limit) {
	path := where.segments()
	own := &node{kind: table.kind, at: table.at, keyAt: table.keyAt, header: table.header}
	seen := map[string]*node{}
	var deeper []*node
	var meant []string // keys that mistyped ones are like
	for _, n := range table.keys {
		segment := foldSegment(n.key)
		if first := seen[segment]; first != nil {
			d.spelledTwice(first, n)
			continue
		}
		seen[segment] = n
		key := limitKeys.child(segment)
		switch {
		case key != nil && len(path) > 0 && (!n.isTable() || segment == "when"):
			own.keys = append(own.keys, n)
		case key != nil && len(path) == 0 && !n.isTable():
			d.report("unknown-key", source.Error, n.keyAt, segment, fmt.Sprintf("`%s` stands above the first limit, where it holds for nothing", n.key), "move it below the header of a limit, such as `[lash]`")
		case key != nil:
			d.report("unknown-key", source.Error, n.keyAt, segment, fmt.Sprintf("`%s` is a key of a limit and can't be a path", n.key), "call the path something else")
		case segment == "found" || segment == "set" || detailKeys.child(segment) != nil:
			d.notInLimits(n, segment)
		case d.nearLimitKey(table, n, segment, path):
			if near := source.Nearest(segment, limitKeys.names()); near == "nominal" { // without which the others hold nothing
				meant = append(meant, near)
			}
		case d.otherWordForKey(table, n, segment, path):
		case d.goodName(n.key, n.keyAt, nil):
			deeper = append(deeper, n)
		}
	}
	if len(own.keys) > 0 {
		limit := &where
		limit.Fields = d.table(own, limitKeys)
		for _, key := range meant {
			if limit.Fields.Get(key) == nil {
				limit.Fields.Bad = append(limit.Fields.Bad, key) // it stands there, and can't be read
			}
		}
		limit.Fields.At = table.place()
		d.difference(limit.Fields)
		limit.Unread = limit.Fields.IsBad("nominal", "tolerance", "plus", "minus", "low", "high", "expect", "service", "allowance", "when")
		*limits = append(*limits, limit)
	}
	for _, n := range deeper {
		at := Limit{Path: below(where.Path, foldSegment(n.key)), Spell: below(where.Spell, n.key), PathAt: n.keyAt, Places: append(slices.Clip(where.Places), n.keyAt)}
		if n.isTable() {
			d.limitsBelow(n, at, limits)
			continue
		}
		d.lineLimit(n, at, limits)
	}
}

// segments returns the segments of the limit's path, none above the first.
func (l *Limit) segments() []string {
	if l.Path == "" {
		return nil
	}
	return strings.Split(l.Path, ".")
}

// notInLimits reports a name that no reading's path can have, so that a limit there would hold for nothing.
func (d *decoder) notInLimits(n *node, segment string) {
	do := "known keys: " + strings.Join(limitKeys.names(), ", ")
	if segment == "engine-temp" {
		do = "write it as `when = { engine-temp = … }`"
	}
	d.report("unknown-key", source.Error, n.keyAt, segment, fmt.Sprintf("`%s` is neither a key of a limit nor a path", n.key), do)
}

// nearLimitKey reports a name that is no path but a mistyped key of a limit: one letter off, with a value of the sort that the key holds.
func (d *decoder) nearLimitKey(table, n *node, segment string, path []string) bool {
	near := source.Nearest(segment, limitKeys.names())
	if len(path) == 0 || near == "" || n.isTable() || len([]rune(segment)) < 3 {
		return false
	}
	if p := FindPattern(strings.Join(path, ".") + "." + segment); p != nil && p.names(len(path), segment) {
		return false
	}
	if n.isString() {
		written, slip := quantity.Parse(n.text)
		isFigure := slip != nil || written.Kind != quantity.Words
		wantsFigure := limitKeys.child(near).Kind == KindFigure || limitKeys.child(near).Kind == KindFigures
		if isFigure != wantsFigure {
			return false
		}
	}
	if (near == "plus" || near == "minus") && childFolded(table, "nominal") == nil {
		return false // neither holds anything without a nominal beside it: `torque.plug` is a spark plug's
	}
	d.report("unknown-key", source.Error, n.keyAt, segment, fmt.Sprintf("`%s` is not a key of a limit", n.key),
		fmt.Sprintf("did you mean `%s`? A path of that name has a table of its own: `[%s.%s]`", near, strings.Join(path, "."), segment),
		source.Replace(fmt.Sprintf("write `%s`", near), n.keyAt, near))
	return true
}

// otherWords are what others call the keys of a limit.
var otherWords = map[string]string{
	"limit": "low", "limits": "low", "standard": "low", "range": "low", "bounds": "low", "min": "low", "minimum": "low", "lo": "low",
	"max": "high", "maximum": "high", "hi": "high", "wear": "service", "wear-limit": "service", "service-limit": "service", "target": "nominal", "spec": "nominal",
}

// otherWordForKey reports a name that is no path but another word for a key: it stands in a table that is a limit itself, which a path below would
// leave without its figure.
func (d *decoder) otherWordForKey(table, n *node, segment string, path []string) bool {
	key := otherWords[segment]
	isLimit := func(other *node) bool {
		return slices.Contains([]string{"nominal", "tolerance", "plus", "minus", "low", "high", "expect", "service", "allowance", "also", "of"}, foldSegment(other.key))
	}
	isEnd := slices.Contains([]string{"min", "minimum", "lo", "max", "maximum", "hi"}, segment) // which no reading is called
	if key == "" || len(path) == 0 || !n.isString() || !isEnd && !slices.ContainsFunc(table.keys, isLimit) {
		return false
	}
	do := fmt.Sprintf("call it `%s`", key)
	if written, slip := quantity.Parse(n.text); slip == nil && written.Kind == quantity.Interval && key == "low" {
		do = "write its two ends as `low` and `high`"
	}
	d.report("unknown-key", source.Error, n.keyAt, segment, fmt.Sprintf("`%s` is not a key of a limit", n.key),
		do+fmt.Sprintf("; a path of that name has a table of its own: `[%s.%s]`", strings.Join(path, "."), segment))
	return true
}

// names reports whether the pattern has that very word at a depth, and not just any name.
func (p *Pattern) names(depth int, word string) bool {
	return depth < len(p.segments) && p.segments[depth].kind == 'w' && p.segments[depth].fits(word)
}

// lineLimit decodes a limit written in one line.
func (d *decoder) lineLimit(n *node, limit Limit, limits *[]*Limit) {
	subject := limit.Path
	if !n.isString() {
		limit.Unread = true
		*limits = append(*limits, &limit)
		if n.kind != nodeArray && n.kind != nodeTables && n.kind != nodeBad && n.kind != nodeMissing {
			d.report("wrong-kind", source.Error, n.place(), subject, fmt.Sprintf("`%s` holds %s; a limit in one line is a text", n.key, n.kind.words()), "write it as `\"0.08 ± 0.02 mm\"`")
			return
		}
		if n.kind != nodeBad && n.kind != nodeMissing {
			d.report("unknown-key", source.Error, n.keyAt, subject, fmt.Sprintf("`%s` is not a key of a limit, and a limit in one line is a text", n.key),
				"known keys: "+strings.Join(limitKeys.names(), ", "))
		}
		return
	}
	value, ok := d.value(n, subject)
	if !ok || !d.checkBound(&value, subject) || !d.checkAnother(&value, subject) {
		limit.Unread = true
		*limits = append(*limits, &limit)
		return
	}
	if value.IsBlank() {
		d.report("empty-value", source.Note, n.at, subject, fmt.Sprintf("the limit `%s` is empty", subject), "fill it in or take the line out")
		return
	}
	limit.Line = &value
	*limits = append(*limits, &limit)
}

// difference checks the two paths of a limit that is held by a difference; where they aren't two, `of` can't be read.
func (d *decoder) difference(fields *Fields) {
	of := fields.Get("of")
	if of == nil || fields.IsBad("of") {
		return
	}
	switch {
	case len(of.Names) != 2:
		d.report("wrong-kind", source.Error, of.At, "of", fmt.Sprintf("`of` holds %s; it wants two", countOf(len(of.Names), "path")), "name what is measured, and what to take from it: `of = [\"bore\", \"piston\"]`")
	case of.Names[0].Name == of.Names[1].Name:
		d.report("defined-twice", source.Error, of.Names[1].At, "of", fmt.Sprintf("`of` names `%s` twice: less itself it is always nought", of.Names[1].Typed), "name what is measured, and what to take from it: `of = [\"bore\", \"piston\"]`")
	default:
		return
	}
	fields.Bad = append(fields.Bad, "of")
	fields.List = slices.DeleteFunc(fields.List, func(f *Field) bool { return f == of })
}

// countOf says how many of a thing there are.
func countOf(n int, thing string) string {
	if n == 1 {
		return "one " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// UnitChoice is a row of `[units]`: what a dimension is shown in, the leading unit first; none where that can't be read.
type UnitChoice struct {
	Dimension quantity.Dimension
	Units     []*quantity.Unit
	Currency  string
	At        source.Range
}

// dimensionName returns the name of a dimension in `[units]`: `torque`, `spring-rate`, `money`.
func dimensionName(d quantity.Dimension) string {
	name := d.String()
	for _, words := range []string{"number of ", "speed of "} {
		name = strings.TrimPrefix(name, words)
	}
	return strings.ReplaceAll(name, " ", "-")
}

func (d *decoder) units(f *Field, n *node) {
	byName := map[string]quantity.Dimension{}
	for _, u := range quantity.Units() {
		byName[dimensionName(u.Dimension)] = u.Dimension
	}
	names := make([]string, 0, len(byName))
	for name := range byName {
		names = append(names, name)
	}
	sort.Strings(names)
	seen := map[string]*node{}
	for _, key := range n.keys {
		if first := seen[Fold(key.key)]; first != nil {
			d.spelledTwice(first, key)
			continue
		}
		seen[Fold(key.key)] = key
		dimension, known := byName[Fold(key.key)]
		if !known {
			do := "known here: " + strings.Join(names, ", ")
			var fixes []source.Fix
			if near := source.Nearest(Fold(key.key), names); near != "" {
				do, fixes = fmt.Sprintf("did you mean `%s`?", near), []source.Fix{source.Replace(fmt.Sprintf("write `%s`", near), key.keyAt, near)}
			}
			d.report("unknown-key", source.Error, key.keyAt, Fold(key.key), fmt.Sprintf("`%s` is not a dimension", key.key), do, fixes...)
			continue
		}
		texts := &Field{Key: &Key{Name: Fold(key.key), Kind: KindTexts, Doc: "a unit, or two"}}
		if !d.each(texts, key, d.text) || d.emptyList(texts.Key, key) {
			f.Units = append(f.Units, UnitChoice{Dimension: dimension, At: key.keyAt})
			continue
		}
		if choice := d.unitChoice(dimension, texts); choice != nil {
			choice.At = key.keyAt
			f.Units = append(f.Units, *choice)
			continue
		}
		f.Units = append(f.Units, UnitChoice{Dimension: dimension, At: key.keyAt})
	}
}

func (d *decoder) unitChoice(dimension quantity.Dimension, texts *Field) *UnitChoice {
	choice := &UnitChoice{Dimension: dimension}
	for _, text := range texts.Texts {
		units := unitsOf(text.Text, dimension)
		switch len(units) {
		case 0:
			d.report("unknown-unit", source.Error, text.At, texts.Key.Name, fmt.Sprintf("`%s` is not a unit of %s", text.Text, dimension), "see `locknut explain units`")
			return nil
		case 1:
			choice.Units = append(choice.Units, units[0])
		default:
			d.unitUnclear(text, units, texts.Key.Name)
			return nil
		}
	}
	if dimension == quantity.Money {
		choice.Currency = choice.Units[0].Currency
	}
	return choice
}

// unitsOf returns the units of a dimension that a spelling may mean.
func unitsOf(spelling string, dimension quantity.Dimension) []*quantity.Unit {
	var units []*quantity.Unit
	for _, u := range quantity.UnitsSpelled(spelling) {
		if u.Dimension == dimension {
			units = append(units, u)
		}
	}
	return units
}

// unitUnclear reports a spelling that several units share.
func (d *decoder) unitUnclear(text Text, units []*quantity.Unit, subject string) {
	rule := "ambiguous-unit"
	if units[0].Currency != "" {
		rule = "money-unclear"
	}
	var fixes []source.Fix
	written, _ := quantity.Parse("1 " + text.Text)
	if _, slip := written.Resolve(quantity.Want{Dimensions: dims(units[0].Dimension)}); slip != nil {
		for _, offer := range slip.Offers {
			symbol := strings.TrimPrefix(offer, "1 ")
			fixes = append(fixes, source.Replace(fmt.Sprintf("write `%s`", symbol), text.At, strconv.Quote(symbol)))
		}
	}
	d.report(rule, source.Error, text.At, subject, fmt.Sprintf("`%s` may be any of several units", text.Text), "say which", fixes...)
}

// sizes decodes the sizes of shims that can be bought: a range with a step, or a list.
func (d *decoder) sizes(f *Field, n *node) bool {
	if n.kind == nodeArray {
		if !d.each(f, n, d.figure) || d.emptyList(f.Key, n) {
			return false
		}
		for _, v := range f.Figures {
			q, _ := v.Resolve(f.Key.Want())
			f.Sizes = append(f.Sizes, q.SI())
		}
		return true
	}
	if !n.isString() {
		return d.wrongKind(f, n)
	}
	bad := func(why string) bool {
		d.report("bad-quantity", source.Error, n.at, f.Key.Name, fmt.Sprintf("`%s` is not a range of sizes: %s", n.text, why), "write it as `1.20..3.50 mm by 0.05`")
		return false
	}
	span, by, found := strings.Cut(n.text, " by ")
	if !found {
		return bad("it has no ` by ` and step")
	}
	written, slip := quantity.Parse(strings.TrimSpace(span))
	if slip != nil || written.Kind != quantity.Interval {
		return bad("before `by` stands no interval")
	}
	whole, slip := written.Resolve(f.Key.Want())
	if slip != nil || !whole.HasLow || !whole.HasHigh {
		return bad("before `by` stands no length from least to most")
	}
	by = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(by), whole.Unit.Symbol))
	step, err := strconv.ParseFloat(by, 64)
	if err != nil || !(step > 0) || !isPlainNumber(by) {
		return bad("after `by` stands no step")
	}
	count := (whole.High - whole.Low) / step
	if rounded := float64(int(count + 0.5)); rounded > 499 || quantity.Compare(count, rounded, 1) != 0 {
		return bad("the step does not go into it a whole number of times, 500 at the most")
	}
	for i := 0; i <= int(count+0.5); i++ {
		size := whole
		size.Value = whole.Low + float64(i)*step
		size.Kind = quantity.Figure
		f.Sizes = append(f.Sizes, size.SI())
	}
	return true
}
