package derive_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
)

// Sessions of one line each: the dyno, what is fitted or set before its pulls, and the peak; and the stages that they make, with the reason of one that can't be told, worked out by hand.
func TestStagesJoinWhatCanBeCompared(t *testing.T) {
	const otherDyno = "the two sessions were on two dynos"
	for _, c := range []struct {
		name     string
		sessions []string
		stages   []string
		aside    string // entries that stand aside
	}{
		{"one dyno", []string{"road 20", "road cam 22", "road pipe 23"}, []string{"1→2 cam 2", "2→3 pipe 1"}, ""},
		{"another in between", []string{"road 20", "road cam 22", "brake 25", "road pipe 23"}, []string{"1→2 cam 2", "2→4 pipe 1"}, "3"},
		{"another after the change", []string{"road 20", "brake cam 25", "road 22", "road pipe 23"}, []string{"1→3 cam 2", "3→4 pipe 1"}, "2"},
		{"another at the end", []string{"road 20", "road cam 22", "brake 25"}, []string{"1→2 cam 2"}, "3"},
		{"another from then on", []string{"road 20", "road cam 22", "brake 25", "brake pipe 27"}, []string{"1→2 cam 2", "3→4 pipe 2"}, ""},
		{"parts on both sides of it", []string{"road 20", "brake cam 25", "road pipe 23"}, []string{"1→2 cam " + otherDyno, "2→3 pipe " + otherDyno}, ""},
		{"something set between", []string{"road 20", "brake set 25"}, []string{"1→2  " + otherDyno}, ""},
		{"the same dyno again", []string{"road 20", "road 21", "road cam 23"}, []string{"1→2  1", "2→3 cam 2"}, ""},
	} {
		files := fstest.MapFS{"tools.toml": {Data: []byte("[road]\n[brake]\n")}, "parts.toml": {Data: []byte("[cam]\n[pipe]\n")}, "build.toml": {Data: []byte("units.power = \"hp\"\n")}}
		for i, session := range c.sessions {
			words := strings.Fields(session)
			head := ""
			if len(words) > 2 {
				head = map[bool]string{true: "[set]\njet.main = \"118\"\n", false: "fitted = [\"" + words[1] + "\"]\n"}[words[1] == "set"]
			}
			files[fmt.Sprintf("entries/2026-03-%02d-x.md", i+1)] = &fstest.MapFile{Data: fmt.Appendf(nil, "```toml\n%s[[pulls]]\ndyno = \"%s\"\npeak = \"%s hp\"\n```\n", head, words[0], words[len(words)-1])}
		}
		r := compile(t, files)
		var stages, aside []string
		for _, s := range r.Sums.Stages {
			parts := ""
			for _, p := range s.In {
				parts += p.Name
			}
			told := s.Reason
			if n := numberAt(r.Numbers, s.Path); n.Reason == "" {
				told = fmt.Sprintf("%.0f", n.Unit.FromSI(n.Estimate.Value))
			}
			stages = append(stages, fmt.Sprintf("%d→%d %s %s", s.From.Entry.Index+1, s.To.Entry.Index+1, parts, told))
		}
		for _, a := range r.Sums.Aside {
			aside = append(aside, fmt.Sprint(a.Pulls.Entry.Index+1))
		}
		if got, want := strings.Join(stages, "; "), strings.Join(c.stages, "; "); got != want {
			t.Errorf("%s: %s, want %s", c.name, got, want)
		}
		if got := strings.Join(aside, " "); got != c.aside {
			t.Errorf("%s: aside %q, want %q", c.name, got, c.aside)
		}
	}
}
