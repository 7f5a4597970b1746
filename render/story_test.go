package render

import (
	"html"
	"maps"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

func atProcessors(n int, run func()) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(n))
	run()
}

// tags are what a reader does not see as words: drawings have tests of their own.
var tags = regexp.MustCompile(`(?s)<svg.*?</svg>|<[^>]*>`)

// words returns what a reader sees of a page, blanks folded.
func words(m *Memory, name string) string {
	text := html.UnescapeString(tags.ReplaceAllString(string(m.Page(name)), " "))
	return strings.Join(strings.Fields(text), " ")
}

// lineWith returns the first line of a page's HTML that holds a text, as a reader sees it.
func lineWith(t *testing.T, m *Memory, name, text string) string {
	t.Helper()
	for line := range strings.Lines(string(m.Page(name))) {
		if strings.Contains(line, text) {
			return strings.Join(strings.Fields(html.UnescapeString(tags.ReplaceAllString(line, " "))), " ")
		}
	}
	t.Fatalf("%s has no line with %q:\n%s", name, text, m.Page(name))
	return ""
}

const thinSpace = "\u202f" // narrow no-break space (Unicode 17.0, General Punctuation, from memory)

// shed is a small journal that has something of everything.
func shed() map[string]string {
	return map[string]string{
		"build.toml": `title = "Shed twin"
[site]
home = "The lash is [?](value:lash.intake.left) and the [cam](part:cam) is in; see [the second day](entry:2026-03-02-two#what-came-next)."
[units]
torque = ["N·m", "lbf·ft"]
money = "GBP"
[machine]
name = "Curlew 250"
[goals]
power.peak = "30 hp"
[engine]
cylinders = ["left", "right"]
bore = "53.0 mm"
stroke = "56.4 mm"
`,
		"limits.toml": `[lash]
intake = "0.08 ± 0.02 mm"
[oil]
temp = "80 ± 5 °C"
[torque.drain-plug]
low = "18 N·m"
high = "26 N·m"
[chain.slack]
nominal = "30 mm"
plus = "10 mm"
service = "..50 mm"
`,
		"parts.toml": `[cam]
title = "Hill cam"
slot = "camshaft"
price = 145.25
then = ["lash"]
[cam.brings.cam.intake]
opens = "16° BTDC"
`,
		"tools.toml": `[quillgauge]
title = "Quill gauge"
for = ["lash"]
`,
		"entries/2026-03-01-one.md": "```toml\nmeter = 11820\nbought = [\"cam\"]\nfitted = [\"cam\"]\nwith = [\"quillgauge\"]\nhours = 7.25\ntags = [\"quiet\"]\n" +
			"spent = [{ for = \"oil\", price = 9.40 }]\n\n[found]\nlash.intake.left = \"0.13 mm\"\n\n[set]\nlash.intake.left = \"0.08 mm\"\noil.temp = \"84 °C\"\ntorque.drain-plug = \"22 N·m\"\nchain.slack = \"45 mm\"\n```\n\n" +
			"# The first day\n\nFound [?](value:found/lash.intake.left), left [0.08 mm](value:lash.intake.left) with the [gauge](tool:quillgauge).\n\n![A dented tank](photos/tank.jpg)\n\n- [x] drained\n- [ ] filled\n",
		"entries/2026-03-02-two.md": "```toml\ntitle = \"The second day\"\n```\n\nAs on [the day before](2026-03-01-one.md).\n\n## What came next\n\nRain.\n",
		"entries/later.md":          "```toml\ntitle = \"A plan\"\nfitted = [\"cam\"]\n```\n\nSome day.\n",
		"photos/tank.jpg":           "not a picture that is copied",
	}
}

func with(files map[string]string, more map[string]string) map[string]string {
	all := maps.Clone(files)
	maps.Copy(all, more)
	return all
}

func TestFiguresOfAnEntry(t *testing.T) {
	m := rendered(t, inMemory(shed()))
	checkSite(t, m)
	const entry = "entries/2026-03-01-one.html"
	// The expected figures are worked out by hand from the journal above: 0.05 of 0.02 mm is 250 %, 4 of 5 °C is 80 %, and 22 N·m is
	// 22/1.355 818 = 16.2 lbf·ft (NIST SP 811 (2008), B.8, foot pound-force, from memory).
	for _, c := range []struct{ id, row string }{
		{"2026-03-01-one/found/lash.intake.left", "lash .intake .left found 0.13~mm ✕ out , above 0.08 ± 0.02~mm +0.05~mm 250% of the tolerance Quill gauge"},
		{"2026-03-01-one/set/lash.intake.left", "set 0.08~mm ✓ in 0.08 ± 0.02~mm 0.00~mm Quill gauge"},
		{"2026-03-01-one/set/oil.temp", "oil .temp set 84~°C ✓ in 80 ± 5~°C +4~°C 80% of the tolerance"},
		{"2026-03-01-one/set/torque.drain-plug", "torque .drain-plug set 22~N·m ( 16.2~lbf·ft ) ✓ in 18..26~N·m ( 13.3..19.1~lbf·ft )"},
		{"2026-03-01-one/set/chain.slack", "chain .slack set 45~mm ◐ worn , above 30~mm , 30..40~mm ; service up to 50~mm +15~mm 150% of the tolerance"},
		{"2026-03-01-one/part:cam/cam.intake.opens", "cam .intake .opens brought by Hill cam 16~° BTDC – no limit"},
	} {
		want := strings.ReplaceAll(strings.ReplaceAll(c.row, "16~°", "16°"), "~", thinSpace)
		got := lineWith(t, m, entry, `<tr id="`+c.id+`"`)
		// strings.Fields takes the thin space for a blank; put it back where a unit follows.
		if got != strings.Join(strings.Fields(want), " ") {
			t.Errorf("%s:\ngot  %s\nwant %s", c.id, got, want)
		}
	}
	if text := string(m.Page(entry)); !strings.Contains(text, "0.13"+thinSpace+"mm") || strings.Contains(text, "0.13 mm</span>") {
		t.Error("no thin no-break space between number and unit")
	}
}

func TestAMereTargetIsCalledOne(t *testing.T) {
	m := rendered(t, inMemory(with(shed(), map[string]string{
		"limits.toml":           "[gap.plug]\nnominal = \"0.70 mm\"\n",
		"entries/2026-03-09.md": "```toml\n[set]\ngap.plug.left = \"0.75 mm\"\nfloat.crank = \"0.1 mm\"\n```\n",
	})))
	for id, verdict := range map[string]string{"2026-03-09/set/gap.plug.left": "– target", "2026-03-09/set/float.crank": "– no limit"} {
		if got := lineWith(t, m, "entries/2026-03-09.html", `<tr id="`+id+`"`); !strings.Contains(got, verdict) {
			t.Errorf("%s: %q, want %q in it", id, got, verdict)
		}
	}
}

// A difference below the last digit of its figures: 0.0004 in of 0.0500 in is 0.4 thou, and of a tolerance of 1 in it is 0.04 %.
func TestADeviationIsNeverRoundedToNothing(t *testing.T) {
	inch := quantity.UnitShown("in")
	for _, c := range []struct {
		inches, step float64
		want         string
	}{
		{0, 0.001, "0.000~in"}, {0.0004, 0.001, "+0.0004~in"}, {-0.0004, 0.001, "−0.0004~in"}, {0.00001, 0.001, "less than 0.0001~in"}, {0.002, 0.001, "+0.002~in"},
	} {
		p := &page{}
		p.difference(c.inches*0.0254, inch, c.step*0.0254) // 1 in is 25.4 mm (NIST SP 811 (2008), B.8, from memory)
		want := `<span class="figure">` + strings.ReplaceAll(c.want, "~", thinSpace) + `</span>`
		if string(p.bytes) != want {
			t.Errorf("%g in: %s, want %s", c.inches, p.bytes, want)
		}
	}
	tenth := &page{}
	tenth.share(0.00004*0.0254, &model.Limit{Nominal: &quantity.Quantity{Unit: inch}, High: model.Bound{Is: true, SI: 0.0254}})
	if want := "less than 1%"; !strings.Contains(string(tenth.bytes), want) {
		t.Errorf("share: %s, want %q", tenth.bytes, want)
	}
}

// Half of the last digit of a dial, rectangular, is 1/√12 of it: 0.01 mm is 0.0058 mm at k = 2 (JCGM 100:2008, 4.3.7, from memory).
func TestWhatAToolContributesIsShown(t *testing.T) {
	m := rendered(t, inMemory(with(shed(), map[string]string{
		"tools.toml":            "[dial]\nfor = [\"float\"]\nresolution = \"0.01 mm\"\n",
		"entries/2026-03-09.md": "```toml\nwith = [\"dial\"]\n[found]\nfloat.camshaft = \"0.11 mm\"\nfloat.crank = \"0.11 ± 0.02 mm\"\n```\n",
	})))
	const entry = "entries/2026-03-09.html"
	if got := lineWith(t, m, entry, `<tr id="2026-03-09/found/float.camshaft"`); !strings.Contains(got, "± 0.0058 mm (k = 2)") {
		t.Errorf("with a dial: %q", got)
	}
	if got := lineWith(t, m, entry, `<tr id="2026-03-09/found/float.crank"`); strings.Contains(got, "k = 2") {
		t.Errorf("with its own uncertainty: %q", got)
	}
}

// The gain stands beside a power that it ends at, and beside no other.
func TestTheGainIsThatOfThePowerBesideIt(t *testing.T) {
	files := with(shed(), map[string]string{
		"entries/2026-02-01-before.md": "```toml\n[[pulls]]\npeak = [\"20.0 hp\"]\n```\n",
		"entries/2026-03-10-after.md":  "```toml\n[[pulls]]\npeak = [\"23.0 hp\"]\n```\n",
	})
	if got := words(rendered(t, inMemory(files)), "index.html"); !strings.Contains(got, "power 23.0 hp ( +3.0 hp in 1 stage )") {
		t.Errorf("after the pulls: %s", got)
	}
	files["entries/2026-03-12-told.md"] = "```toml\n[set]\npower.peak = \"40 hp\"\n```\n"
	if got := words(rendered(t, inMemory(files)), "index.html"); !strings.Contains(got, "power 40 hp open findings") {
		t.Errorf("after a figure without pulls: %s", got)
	}
}

func TestALimitThatIsNotInForceSaysSo(t *testing.T) {
	files := with(shed(), map[string]string{
		"parts.toml": shed()["parts.toml"] + "[cam.limits.lash]\nintake = \"0.10 ± 0.02 mm\"\n",
	})
	const overruled = "0.08 ± 0.02 mm (not in force now: a fitted part limits it)"
	m := rendered(t, inMemory(files))
	if got := words(m, "paths/lash.intake.html"); !strings.Contains(got, overruled) || !strings.Contains(got, "0.10 ± 0.02 mm (in force now)") {
		t.Errorf("while the part is in: %s", got)
	}
	if got := words(m, "limits.html"); !strings.Contains(got, "while Hill cam is fitted 0.10") || !strings.Contains(got, "not in force now: a fitted part limits it 0.08") {
		t.Errorf("while the part is in: %s", got)
	}
	files["entries/2026-03-12-out.md"] = "```toml\nremoved = [\"cam\"]\n```\n"
	m = rendered(t, inMemory(files))
	if got := words(m, "paths/lash.intake.html"); !strings.Contains(got, "0.10 ± 0.02 mm (while Hill cam is fitted; not in now )") && !strings.Contains(got, "(while Hill cam is fitted; not in now)") || strings.Contains(got, overruled) {
		t.Errorf("once the part is out: %s", got)
	}
	if got := words(m, "limits.html"); !strings.Contains(got, "while Hill cam is fitted; not in now") {
		t.Errorf("once the part is out: %s", got)
	}
}

// The line of an entry in a list has the mark of each severity: one file with an error, a warning and two notes in it.
func TestTheEntriesHaveTheMarksOfTheirFindings(t *testing.T) {
	m := rendered(t, inMemory(with(shed(), map[string]string{
		"entries/2026-03-09.md": "```toml\ntitle = \"A bad day\"\n[found]\nlash.intake.left = \"0.3\"\n```\n- []a\n- [ ] b\n- [ ] c\n",
	})))
	if got := lineWith(t, m, "entries.html", "A bad day"); !strings.HasSuffix(got, "✕ 1 error ▲ 1 warning • 2 notes") {
		t.Errorf("%q", got)
	}
}

func TestLinksInProse(t *testing.T) {
	m := rendered(t, inMemory(shed()))
	for _, c := range []struct{ page, html string }{
		{"entries/2026-03-01-one.html", `Found <a href="#2026-03-01-one/found/lash.intake.left"><span class="figure">0.13` + thinSpace + `mm</span></a>, left <a href="#2026-03-01-one/set/lash.intake.left">0.08 mm</a>`},
		{"entries/2026-03-01-one.html", `with the <a href="../tools/quillgauge.html">gauge</a>`},
		{"entries/2026-03-01-one.html", `<p class="picture">Picture: A dented tank</p>`},
		{"entries/2026-03-02-two.html", `As on <a href="../entries/2026-03-01-one.html">the day before</a>`},
		{"index.html", `The lash is <a href="entries/2026-03-01-one.html#2026-03-01-one/set/lash.intake.left"><span class="figure">0.08` + thinSpace + `mm</span></a>`},
		{"index.html", `<a href="parts/cam.html">cam</a>`},
		{"index.html", `<a href="entries/2026-03-02-two.html#what-came-next">the second day</a>`},
	} {
		if !strings.Contains(string(m.Page(c.page)), c.html) {
			t.Errorf("%s lacks\n%s\nit is\n%s", c.page, c.html, m.Page(c.page))
		}
	}
	if slices.Contains(m.Names(), "photos/tank.jpg") || strings.Contains(everything(m), "not a picture") {
		t.Error("a picture file got out")
	}
}

func TestWhatMentionsAThingIsListedOnItsPage(t *testing.T) {
	m := rendered(t, inMemory(shed()))
	for _, c := range []struct{ page, says string }{
		{"parts/cam.html", "The build : mentions it"},
		{"parts/cam.html", "2026-03-01 The first day : bought, fitted"},
		{"parts/cam.html", "A plan : plans: fitted"},
		{"tools/quillgauge.html", "2026-03-01 The first day : used, read with it, mentions it"},
		{"paths/lash.intake.left.html", "2026-03-01 The first day : mentions it"},
		{"entries/2026-03-01-one.html", "2026-03-02 The second day : mentions it"},
		{"paths/engine.bore.html", "displacement"},
		{"paths/cam.intake.opens.html", "Hill cam : brings it"},
	} {
		if got := words(m, c.page); !strings.Contains(got, c.says) {
			t.Errorf("%s does not say %q:\n%s", c.page, c.says, got)
		}
	}
}

func TestAnEntryThatCanNotBeReadKeepsItsWords(t *testing.T) {
	m := rendered(t, inMemory(with(shed(), map[string]string{
		"entries/2026-03-03-torn.md": "```toml\ntitle = \"never closed\nhours = 3\n```\n\nThe words of the torn page.\n",
		"entries/2026-03-04-head.md": "```toml\ntitle = \"One title\"\n```\n\n# Another title\n\nText.\n",
	})))
	checkSite(t, m)
	if got := words(m, "entries/2026-03-03-torn.html"); !strings.Contains(got, "The words of the torn page.") {
		t.Errorf("the torn page says %s", got)
	}
	if got := words(m, "entries/2026-03-04-head.html"); !strings.Contains(got, "One title") || !strings.Contains(got, "Another title") {
		t.Errorf("the page with two titles says %s", got)
	}
}

// Everything that a builder can type is tried with text that would be markup.
func TestNothingThatIsTypedBecomesMarkup(t *testing.T) {
	const evil = `<script>alert(1)</script>&amp;<img src=x onerror=alert(2)>`
	quoted := "'" + evil + `"'` // a TOML literal string
	m := rendered(t, inMemory(map[string]string{
		"build.toml": "title = " + quoted + "\n[site]\nhome = '''# " + evil + "\n\n" + evil + " [x](part:p \"" + evil + "\")'''\n[machine]\nname = " + quoted + "\n[engine]\nbore = " + quoted + "\n",
		"limits.toml": "[lash]\nbasis = \"manual\"\nsource = " + quoted + "\ntitle = " + quoted + "\nnote = " + quoted + "\nintake = '0.08 ± 0.02 mm'\n" +
			"[timing.marks]\nexpect = " + quoted + "\n",
		"parts.toml": "[p]\ntitle = " + quoted + "\nslot = " + quoted + "\nsource = " + quoted + "\nnote = " + quoted + "\n[p.brings.jet]\nmain = " + quoted + "\n",
		"tools.toml": "[t]\ntitle = " + quoted + "\nfor = ['lash']\nnote = " + quoted + "\n",
		"entries/2026-03-01-<script>.md": "```toml\ntitle = " + quoted + "\nfitted = ['p', " + quoted + "]\nwith = ['t']\ntags = [" + quoted + "]\n" +
			"spent = [{ for = " + quoted + ", price = '1 GBP' }]\n[set]\nlash.intake = { value = '0.08 mm', note = " + quoted + ", was = " + quoted + " }\ntiming.marks = " + quoted + "\n" +
			"[[later]]\ndo = " + quoted + "\n[[accept]]\nfinding = 'out-of-limits'\nwhy = " + quoted + "\n```\n\n# " + evil + "\n\n" + evil + "\n\n- [ ] " + evil + "\n\n![" + evil + "](photos/a.jpg)\n\n[" + evil + "](value:lash.intake)\n",
		"entries/" + strings.Repeat("long ", 60) + ".md": "```toml\ndate = 2026-03-02\n[set]\nlash.intake = '0.5 mm'\n```\nA long name.\n",
	}))
	checkSite(t, m)
	all := everything(m)
	for _, markup := range []string{"<script>", "<img", "onerror=alert(2)>"} {
		if strings.Contains(all, markup) {
			t.Errorf("%q got out", markup)
		}
	}
	title := evil + `"`
	found := 0
	for name, r := range allRead(t, m) {
		if strings.Contains(r.texts["h1"][0], title) {
			found++
		} else if name == "index.html" {
			t.Errorf("%s has the heading %q", name, r.texts["h1"])
		}
	}
	if found < 4 {
		t.Errorf("the title stands on %d pages", found)
	}
}

func everything(m *Memory) string {
	var b strings.Builder
	for _, name := range m.Names() {
		b.WriteString(name + "\n")
		b.Write(m.Page(name))
	}
	return b.String()
}
