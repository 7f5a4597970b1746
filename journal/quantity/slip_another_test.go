package quantity

import (
	"strings"
	"testing"
)

// A second figure behind a limit's own is a slip; what is offered is plain.
func TestFiguresBehindAComma(t *testing.T) {
	for _, r := range []struct{ text, offers string }{
		{"20 N·m, ⌜47 N·m⌟", "20 N·m then 47 N·m"},
		{"20 N·m ,  ⌜47 N·m⌟ ", "20 N·m then 47 N·m "},
		{"20 N·m, then ⌜47 N·m⌟", "20 N·m then 47 N·m"},
		{"20 N·m, and ⌜35 lbf·ft⌟", "20 N·m then 35 lbf·ft"},
		{"20 N·m, ⌜47 N·m⌟, oiled", ""},
		{"47 N·m, after ⌜20 N·m⌟", ""},
		{"47 N·m, oiled; ⌜50 N·m⌟ dry", ""},
		{"15 N·m, ⌜90°⌟", "15 N·m then 90°"},
		{"15 N·m, then ⌜90°⌟", "15 N·m then 90°"},
		{"20 N·m then 47 N·m, ⌜90°⌟", "20 N·m then 47 N·m then 90°"},
		{"20 N·m then 30 N·m, ⌜47 N·m⌟", "20 N·m then 30 N·m then 47 N·m"},
		{"..20 N·m, ⌜47 N·m⌟", ""},
		{"0.10 mm, ⌜0.15 mm⌟", ""},
		{"0.10 mm, ⌜0.006 in⌟", ""}, // 0.152 mm
		{"0.10.. mm, ⌜0.15 mm⌟", ""},
		{"5 %, ⌜10 %⌟", ""},
	} {
		text, start, end := corners(t, r.text)
		slip := Another(text)
		if slip == nil {
			t.Errorf("%q is let through", text)
			continue
		}
		checkSlip(t, text, slip)
		if slip.Kind != "bad-quantity" || strings.Join(slip.Offers, "|") != r.offers || slip.Start != start || slip.End != end {
			t.Errorf("%q: %s %q at %q\nwant %q", text, slip.Kind, slip.Offers, text[slip.Start:slip.End], r.offers)
		}
	}
	for _, text := range []string{"20 N·m", "20 N·m then 47 N·m", "20 N·m, oiled", "95 N·m, 70 lbf·ft", "0.10 mm, 0.004 in", "20 N·m, M8", "20 N·m, 12 mm hex", "20 N·m, adapter at 90°", "20 N·m, 90° adapter", "20 N·m, in 2 steps",
		"0.10 mm, the leaf of 0.08 mm goes", "0.08 ± 0.02 mm, 0.15 mm worn", "0.05..0.10 mm, 0.15 mm", "aligned, 20 N·m", "-", "", "20 N·m, 20 N·m", "20 N·m, 47", "0,10 mm, 0.15 mm"} {
		if slip := Another(text); slip != nil {
			t.Errorf("%q: %s", text, slip.Message)
		}
	}
}

// Least is a floor that isn't nought.
func TestLeast(t *testing.T) {
	for text, want := range map[string]string{
		"49 mm": "`49 mm` is less than there is anywhere", "50 mm": "", "3 m": "", "3.1 m": "`3.1 m` is more than there is anywhere", "40..60 mm": "`40..60 mm` is less than there is anywhere", "..60 mm": "",
	} {
		w, slip := Parse(text)
		if slip != nil {
			t.Fatal(slip)
		}
		_, slip = w.Resolve(Want{Dimensions: []Dimension{Length}, Least: 0.05, Most: 3})
		if slip == nil && want != "" || slip != nil && slip.Message != want {
			t.Errorf("%s: %+v, want %q", text, slip, want)
		}
	}
}

// Half of the last digits either way: 95 N·m is 94.5 to 95.5, 70 lbf·ft 94.2 to 95.6 (1 lbf·ft = 1.3558179483314004 N·m, NIST SP 811, recomputed).
func TestFiguresThatAgree(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want bool
	}{{"95 N·m", "70 lbf·ft", true}, {"95 N·m", "70.0 lbf·ft", true}, {"95.0 N·m", "70.5 lbf·ft", false}, {"20 N·m", "20.5 N·m", true}, {"20 N·m", "20.6 N·m", false}} {
		a, _ := Parse(c.a)
		b, _ := Parse(c.b)
		p, _ := a.Resolve(Want{})
		q, _ := b.Resolve(Want{})
		if p.Agrees(q) != c.want || q.Agrees(p) != c.want {
			t.Errorf("%s and %s: %t", c.a, c.b, !c.want)
		}
	}
}
