package rule

import (
	"fmt"
	"regexp"
	"strings"

	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// staleProse reports figures in the text of a `value:` link that are not, or no longer, those of the value.
func staleProse(c *Context) {
	for _, l := range c.links() {
		if l.hole.Text == "?" || l.hole.Picture || c.linkWithheld(l.hole.Scheme) {
			continue
		}
		if l.Worked {
			c.staleNumber(l)
		}
		if l.Value == nil {
			continue
		}
		said, ok := figureIn(l.hole.Text, l.Value.Quantity.Unit)
		if !ok || says(said, l.Value.Quantity) {
			continue
		}
		c.report(source.Finding{Severity: source.Warning, At: l.hole.TextAt, Subject: l.Value.Path, Origin: "prose", Entry: l.entry(),
			Message: fmt.Sprintf("the text says %s; `%s` is %s", said.Shown(), l.Value.Path, shown(l.Value)),
			Do:      "mend the text, or write `?` to have the figure filled in",
			Notes:   []source.Remark{{At: l.Value.At(), Message: "read here"}},
			Fixes:   []source.Fix{source.Replace("write `?`", l.hole.TextAt, "?")}}, l.order)
	}
}

// staleNumber reports a figure in the text that is not that of the worked-out number which it links to.
func (c *Context) staleNumber(l link) {
	n := c.workedOut(l.Path, l.Entry)
	if n == nil || n.Reason != "" {
		return
	}
	is := quantity.Quantity{Kind: quantity.Figure, Unit: n.Unit, Value: n.Unit.FromSI(n.Estimate.Value)}
	said, ok := figureIn(l.hole.Text, n.Unit)
	if !ok || says(said, is) {
		return
	}
	c.report(source.Finding{Severity: source.Warning, At: l.hole.TextAt, Subject: l.Path, Origin: "prose", Entry: l.entry(),
		Message: fmt.Sprintf("the text says %s; `%s` works out at %s", said.Shown(), l.Path, n.Shown()),
		Do:      "mend the text, or write `?` to have the figure filled in",
		Fixes:   []source.Fix{source.Replace("write `?`", l.hole.TextAt, "?")}}, l.order)
}

// figure finds what may be a figure with its unit in running text.
var figure = regexp.MustCompile(`(?:\.\.\s?)?[-+−]?\d[\d\x{20}\x{a0}\x{2009}\x{202f}]*(?:\.\d+)?(?:\s?\.\.\s?(?:[-+−]?\d[\d\x{20}\x{a0}\x{2009}\x{202f}]*(?:\.\d+)?)?)?`)

// figureIn returns the first figure of a unit's dimension in a text. A bare number is in that unit.
func figureIn(text string, unit *quantity.Unit) (quantity.Quantity, bool) {
	if unit == nil {
		return quantity.Quantity{}, false
	}
	want := quantity.Want{Dimensions: []quantity.Dimension{unit.Dimension}}
	for _, at := range figure.FindAllStringIndex(text, -1) {
		number := strings.TrimRight(text[at[0]:at[1]], " \u00a0\u2009\u202f")
		rest := text[at[0]+len(number):]
		for _, length := range unitLengths(rest) {
			if q, ok := readAs(number+rest[:length], want); ok {
				return q, true
			}
		}
		want := want
		want.Bare = unit
		if next := strings.TrimLeft(rest, " "); next == "" || strings.ContainsAny(next[:1], ",.;:)") {
			if q, ok := readAs(number, want); ok {
				return q, true
			}
		}
	}
	return quantity.Quantity{}, false
}

// unitLengths returns how much of a text may be a unit: two words, or one, without the marks that end a clause; longest first.
func unitLengths(rest string) []int {
	var lengths []int
	words := strings.SplitAfterN(rest, " ", 4)
	length := 0
	for i, word := range words {
		length += len(word)
		if i == 3 {
			break
		}
		if trimmed := len(strings.TrimRight(rest[:length], " ,.;:)!?")); trimmed > 0 {
			lengths = append([]int{trimmed}, lengths...)
		}
	}
	return lengths
}

func readAs(text string, want quantity.Want) (quantity.Quantity, bool) {
	written, slip := quantity.Parse(strings.TrimSpace(text))
	if slip != nil || written.Kind != quantity.Figure && written.Kind != quantity.Interval || written.Words != "" {
		return quantity.Quantity{}, false
	}
	q, slip := written.Resolve(want)
	return q, slip == nil
}

// says reports whether a figure in the text is the one that it links to, to the digits that the text has, in any unit. A text that leaves the dead centre out leaves the side
// out too.
func says(said, is quantity.Quantity) bool {
	is, ok := is.In(said.Unit)
	if !ok {
		return false
	}
	from, told := said.Event.Centre()
	centre, counted := is.Event.Centre()
	if told && counted && from != centre {
		return false
	}
	if !told && is.Event.IsBefore() {
		is.Value, is.Low, is.High, is.HasLow, is.HasHigh = -is.Value, -is.High, -is.Low, is.HasHigh, is.HasLow
	}
	half := said.Step/2 + 1e-9
	if said.Kind == quantity.Interval || is.Kind == quantity.Interval {
		return said.HasLow == is.HasLow && said.HasHigh == is.HasHigh && near(said.Low, is.Low, half) && near(said.High, is.High, half)
	}
	return near(said.Value, is.Value, half)
}

func near(a, b, by float64) bool { return a-b <= by*(1+1e-9) && b-a <= by*(1+1e-9) }
