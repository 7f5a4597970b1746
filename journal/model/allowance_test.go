package model_test

import (
	"strings"
	"testing"
)

// An allowance that can't be told what it means is one finding, at it, and makes no bound.
func TestAllowancesThatSayNothing(t *testing.T) {
	for _, c := range []struct{ what, limit, want string }{
		{"with a service bound too", "high = \"0.05 mm\"\nservice = \"..0.08 mm\"\nallowance = \"0.03 mm\"", "defined-twice"},
		{"without standard", "allowance = \"0.03 mm\"", "missing-key"},
		{"beside a bare nominal", "nominal = \"0.05 mm\"\nallowance = \"0.03 mm\"", "missing-key"},
		{"as an interval", "high = \"0.05 mm\"\nallowance = \"0.03..0.05 mm\"", "bad-quantity"},
		{"with a tolerance of its own", "high = \"0.05 mm\"\nallowance = \"0.03 ± 0.01 mm\"", "bad-quantity"},
		{"of another dimension", "high = \"0.05 mm\"\nallowance = \"0.03 N\"", "wrong-dimension"},
		{"of a temperature", "high = \"90 °C\"\nallowance = \"5 °C\"", "bad-quantity"},
		{"on the side that standard leaves open", "high = \"0.05 mm\"\nallowance = \"-0.03 mm\"", "service-inside"},
		{"beside a bound that can't be read", "high = \"0,05 mm\"\nallowance = \"0.03 mm\"", "decimal-comma"},
		{"beside bounds that are changed about", "low = \"0.08 mm\"\nhigh = \"0.05 mm\"\nallowance = \"0.03 mm\"", "reversed-limit"},
		{"around a nominal", "nominal = \"0.05 mm\"\ntolerance = \"0.01 mm\"\nallowance = \"0.03 mm\"", ""},
		{"with low and high, below", "low = \"0.02 mm\"\nhigh = \"0.05 mm\"\nallowance = \"-0.01 mm\"", ""},
	} {
		path := "clearance.rocker"
		if strings.Contains(c.limit, "°C") {
			path = "oil.temp"
		}
		r := compile(t, "-- limits.toml --\n["+path+"]\n"+c.limit+"\n", "")
		var got []string
		for _, f := range r.Findings {
			got = append(got, f.Rule)
		}
		if said := strings.Join(got, " "); said != c.want {
			t.Errorf("%s: %q, want %q", c.what, said, c.want)
		}
		for _, l := range r.Journal.Limits {
			if worn := l.Worn[0].Is || l.Worn[1].Is; worn != (c.want == "") && c.want != "defined-twice" {
				t.Errorf("%s: a service bound: %v", c.what, worn)
			}
		}
	}
}
