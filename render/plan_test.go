package render

import (
	"fmt"
	"maps"
	"strings"
	"testing"
)

// By hand: 210 + 31 + 19 GBP are 260 GBP; 3.4 less 5.9 kg is −2.5 kg; the sprocket takes out nothing whose mass is known.
func TestPlan(t *testing.T) {
	m := rendered(t, inMemory(map[string]string{
		"build.toml": "fitted = [\"pipe-std\"]\n[units]\nmoney = \"GBP\"\n",
		"parts.toml": "[pipe-std]\ntitle = \"Standard pipe\"\nslot = \"exhaust\"\nmass = \"5.9 kg\"\ngives = [\"silencing\"]\n" +
			"[pipe-hill]\ntitle = \"Hill pipe\"\nslot = \"exhaust\"\nmass = \"3.4 kg\"\nprice = 210\nneeds = [\"larger-jets\", \"silencing\"]\nthen = [\"torque.exhaust-nut\"]\nclaim = { power = \"1.5..2 hp\" }\n" +
			"[sprocket]\nslot = \"rear-sprocket\"\nmass = \"0.58 kg\"\nprice = 31\n",
		"entries/gearing.md": "```toml\ntitle = \"Gearing for the short hill\"\nexpects = [\"chain.slack\"]\nspent = [{ for = \"chain\", price = 19 }]\n```\n",
	}))
	checkSite(t, m)
	got := words(m, "plan.html")
	for _, want := range []string{
		"Planned work Gearing for the short hill",
		"Hill pipe Standard pipe 3.4 kg −2.5 kg 210 GBP larger-jets torque .exhaust-nut power 1.5..2.0 hp", "sprocket rear-sprocket 0.58 kg 31 GBP",
		"Cost to come 260 GBP", "Mass to come −2.5 kg",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("it doesn't say %q:\n%s", want, got)
		}
	}
	if got := words(m, "entries/gearing.html"); !strings.Contains(got, "Will read chain .slack") {
		t.Errorf("the plan doesn't say what it will read:\n%s", got)
	}
	// A part that is needed needs another, which needs the first: a ring is gone round once. 20 hp and 1.5 to 2.5 make 21.5 to 22.5 hp.
	m = rendered(t, inMemory(map[string]string{
		"build.toml":            "[goals]\npower.peak = \"22 hp\"\n",
		"parts.toml":            "[cam]\nneeds = [\"stiff-springs\"]\nclaim = { power = \"1.5..2.5 hp\" }\n[springs]\ntitle = \"Hill springs\"\ngives = [\"stiff-springs\"]\nneeds = [\"caps\", \"cam\"]\n[caps]\n",
		"entries/2026-03-01.md": "```toml\nbought = [\"springs\"]\n[found]\npower.peak = \"20.0 hp\"\n```\n",
	}))
	checkSite(t, m)
	got = words(m, "plan.html")
	for _, want := range []string{"stiff-springs ( Hill springs gives it, on the shelf, and needs caps (planned) and cam )", "If their claims hold power .peak 21.5..22.5 hp ; the goal is 22 hp"} {
		if !strings.Contains(got, want) {
			t.Errorf("it doesn't say %q:\n%s", want, got)
		}
	}
	if m := rendered(t, inMemory(map[string]string{"build.toml": ""})); m.Page("plan.html") != nil || strings.Contains(everything(m), "plan.html") {
		t.Error("a journal without a plan has a page for it")
	}
}

// By hand. Power: the two pipes are alternatives, 20 hp and 1 of the cam and 1.5 to 3 of one pipe make 22.5 to 24 hp. Money: 31 and 10 of the plan come whichever
// goes in; the one pipe costs 210 and 12 for its stud, the other 180, so 221 to 263 GBP; the pipe in euros costs nothing in pounds. Mass: 3.4 or 4.0 less 5.9 kg.
func TestAlternativesAreNotAdded(t *testing.T) {
	files := map[string]string{
		"build.toml": "fitted = [\"pipe-std\"]\n[units]\nmoney = \"GBP\"\n[goals]\npower.peak = \"25 hp\"\n",
		"parts.toml": "[pipe-std]\nslot = \"exhaust\"\nmass = \"5.9 kg\"\n" +
			"[pipe-a]\nslot = \"exhaust\"\nmass = \"3.4 kg\"\nprice = 210\nclaim = { power = \"1.5..2.5 hp\" }\n" +
			"[pipe-b]\nslot = \"exhaust\"\nmass = \"4.0 kg\"\nprice = 180\nclaim = { power = \"3 hp\" }\n" +
			"[cam]\nslot = \"camshaft\"\nprice = 31\nclaim = { power = \"1 hp\" }\n",
		"entries/2026-03-01.md": "```toml\n[found]\npower.peak = \"20.0 hp\"\n```\n",
		"entries/plan.md":       "```toml\nspent = [{ for = \"chain\", price = 10 }, { for = \"stud\", price = 12, part = \"pipe-a\" }]\n```\n",
	}
	for _, c := range []struct{ from, to, cost, mass, power string }{
		{"", "", "221..263 GBP , with one part in each place", "−2.5..−1.9 kg , with one part in each place", "22.5..24.0 hp , with one part in each place; the goal is 25 hp"},
		{"price = 180", "price = 222", "263 GBP , with one part in each place", "−2.5..−1.9 kg , with one part in each place", "22.5..24.0 hp , with one part in each place"},
		{"price = 180", "price = \"200 EUR\"", "0..200 EUR and 41..263 GBP , with one part in each place", "−2.5..−1.9 kg , with one part", "22.5..24.0 hp , with one part"},
		{"[pipe-b]\nslot = \"exhaust\"", "[pipe-b]\nslot = \"manifold\"", "443 GBP Mass", "−2.5 kg If", "25.5..26.5 hp ; the goal is 25 hp"},
		{"1.5..2.5 hp", "3.0 hp", "221..263 GBP", "−2.5..−1.9 kg", "24.0 hp , with one part in each place; the goal is 25 hp"},
	} {
		changed := maps.Clone(files)
		changed["parts.toml"] = strings.Replace(files["parts.toml"], c.from, c.to, 1)
		m := rendered(t, inMemory(changed))
		checkSite(t, m)
		got := words(m, "plan.html")
		for _, want := range []string{"Cost to come " + c.cost, "Mass to come " + c.mass, "If their claims hold power .peak " + c.power} {
			if !strings.Contains(got, want) {
				t.Errorf("with %s it doesn't say %q:\n%s", c.to, want, got)
			}
		}
		if want := "To come, by the plan " + strings.TrimSuffix(c.cost, " Mass"); !strings.Contains(words(m, "spend.html"), want) {
			t.Errorf("with %s the money doesn't say %q:\n%s", c.to, want, words(m, "spend.html"))
		}
	}
}

// Parts that all need and give one thing, and chains of needs: what is told of them grows with their number and not with the ways through them. Eight of
// thirty givers are named; in a web, where each need has ten givers with ten needs, no row tells of more than 40 and the last eight.
func TestAPlanThatIsAWebStaysShort(t *testing.T) {
	var parts strings.Builder
	for i := range 30 {
		fmt.Fprintf(&parts, "[part-%d]\ngives = [\"grip\"]\nneeds = [\"grip\"]\n", i)
	}
	m := rendered(t, inMemory(map[string]string{"build.toml": "", "parts.toml": parts.String(), "entries/2026-03-01.md": "```toml\nbought = [\"part-29\"]\n```\n"}))
	checkSite(t, m)
	if want := "part-0 grip ( part-29 gives it, on the shelf, and needs grip; part-1 gives it, planned, and needs grip; part-10 gives it"; !strings.Contains(words(m, "plan.html"), want) {
		t.Errorf("it doesn't say %q", want)
	}
	if got := strings.Count(words(m, "plan.html"), "; and 21 more)"); got != 30 {
		t.Errorf("%d rows say how many more give it, want 30", got)
	}
	if size := len(m.Page("plan.html")); size > 200_000 {
		t.Errorf("the plan takes %d bytes", size)
	}

	parts.Reset()
	for i := range 100 {
		fmt.Fprintf(&parts, "[part-%d]\ngives = [\"grip-%d\"]\nneeds = [", i, i%10)
		for k := range 10 {
			fmt.Fprintf(&parts, "\"grip-%d\", ", k)
		}
		parts.WriteString("]\n")
	}
	m = rendered(t, inMemory(map[string]string{"build.toml": "", "parts.toml": parts.String()}))
	if size := len(m.Page("plan.html")); size > 100*20_000 {
		t.Errorf("the plan takes %d bytes", size)
	}

	// Deeper than four needs, that there are more.
	parts.Reset()
	for i := range 7 {
		fmt.Fprintf(&parts, "[link-%d]\nneeds = [\"link-%d\"]\n", i, i+1)
	}
	parts.WriteString("[link-7]\n")
	m = rendered(t, inMemory(map[string]string{"build.toml": "", "parts.toml": parts.String()}))
	checkSite(t, m)
	if want := "link-0 link-1 (planned, and needs link-2 (planned, and needs link-3 (planned, and needs link-4 (planned, and needs more))))"; !strings.Contains(words(m, "plan.html"), want) {
		t.Errorf("it doesn't say %q:\n%s", want, words(m, "plan.html"))
	}
}
