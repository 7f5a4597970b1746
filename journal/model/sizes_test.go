package model_test

import (
	"strings"
	"testing"
)

// A clearance that nobody reads is known again once both sizes have been: until then the old ones are stale, and nothing is worked out from them.
func TestAClearanceIsReadByItsSizes(t *testing.T) {
	const files = `
-- build.toml --
[engine]
cylinders = ["left", "right"]
-- limits.toml --
[clearance.piston]
of = ["bore", "piston"]
low = "0.015 mm"
high = "0.045 mm"
-- parts.toml --
[std]
slot = "pistons"
[hill]
slot = "pistons"
then = ["clearance.piston"]
[hill.limits.clearance.piston]
of = ["bore", "piston.skirt"]
low = "0.030 mm"
high = "0.060 mm"
[plain]
slot = "pistons"
then = ["clearance.piston.left"]
-- 2026-01-01.md --
[found]
bore = "53.01 mm"
piston = "52.98 mm"
[[later]]
do = "Pistons again"
reading = "clearance.piston"
after = "1 month"
-- 2026-01-02.md --
`
	for _, c := range []struct{ what, more, missing, number string }{
		{"nothing asks", "", "", "clearance.piston.left 0.03, clearance.piston.right 0.03"},
		{"all of it", "fitted = [\"hill\"]", "bore.left bore.right piston.skirt", ""},
		{"one of the two", "fitted = [\"hill\"]\n[set]\nbore = \"53.01 mm\"", "piston.skirt", ""},
		{"one of the two, before it went in", "fitted = [\"hill\"]\n[set]\nbore = \"53.01 mm\"\n[found]\npiston.skirt = \"52.97 mm\"", "piston.skirt", ""},
		{"one cylinder", "fitted = [\"hill\"]\n[set]\nbore = \"53.01 mm\"\npiston.skirt.left = \"52.97 mm\"", "", "clearance.piston.left 0.04"},
		{"both", "fitted = [\"hill\"]\n[set]\nbore = \"53.01 mm\"\npiston.skirt = \"52.97 mm\"", "", "clearance.piston.left 0.04, clearance.piston.right 0.04"},
		{"both of one cylinder", "fitted = [\"plain\"]\n[set]\nbore.left = \"53.01 mm\"\npiston.left = \"52.97 mm\"", "", "clearance.piston.left 0.04"},
		{"a cylinder by what speaks for both", "fitted = [\"plain\"]\n[set]\nbore.left = \"53.01 mm\"\npiston = \"52.97 mm\"", "", "clearance.piston.left 0.04, clearance.piston.right 0.04"},
		{"one that can't be read", "fitted = [\"hill\"]\n[set]\nbore = \"53.01 zz\"\npiston.skirt = \"52.97 mm\"", "", ""},
		{"itself", "fitted = [\"hill\"]\n[set]\nclearance.piston = \"0.04 mm\"", "", ""},
		{"expected", "expects = [\"clearance.piston\"]\n[set]\nbore = \"53.01 mm\"", "piston", "clearance.piston.left 0.03, clearance.piston.right 0.03"},
	} {
		of := files
		if !strings.Contains(c.more, "plain") { // nothing names a cylinder's clearance
			of = strings.Replace(of, "then = [\"clearance.piston.left\"]\n", "", 1)
		}
		r := compile(t, of+c.more+"\n", "")
		var missing, numbers []string
		for _, q := range r.Journal.Requests {
			missing = append(missing, q.Missing...)
			if !q.Sizes {
				t.Errorf("%s: the request is not one for sizes", c.what)
			}
		}
		for _, n := range r.Numbers {
			if n.Family.Name == "clearance" {
				numbers = append(numbers, n.Path+" "+n.Shown().Number)
			}
		}
		if got := strings.Join(missing, " "); got != c.missing {
			t.Errorf("%s: missing %q, want %q", c.what, got, c.missing)
		}
		if got := strings.Join(numbers, ", "); got != c.number {
			t.Errorf("%s: worked out %q, want %q", c.what, got, c.number)
		}
	}
	one := compile(t, "-- limits.toml --\n[clearance.piston]\nof = [\"bore\", \"piston\"]\nlow = \"0.015 mm\"\n-- 2026-01-01.md --\n[found]\nbore = \"53.01 mm\"\npiston.skirt = \"52.97 mm\"\n", "")
	if len(one.Numbers) != 1 || one.Numbers[0].Shown().String() != "0.04 mm" {
		t.Errorf("one cylinder, its piston read at its skirt alone: %+v", one.Numbers)
	}
	for _, c := range []struct {
		more string
		open bool
	}{
		{"[found]\nbore = \"53.01 mm\"\n", true},
		{"[found]\nbore = \"53.01 mm\"\npiston = \"52.97 mm\"\n", false},
	} {
		r := compile(t, files+c.more, "")
		if open := len(r.Upkeep) > 0; open != c.open {
			t.Errorf("after\n%s the work for later is open: %t", c.more, open)
		}
	}
}
