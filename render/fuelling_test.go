package render

import (
	"strings"
	"testing"

	"example.org/locknut/journal/report"
)

// logged is a journal with a target, a log of the mixture, and one of other figures; each with the head of its entry.
func logged(mixture, other string) map[string]string {
	return map[string]string{
		"build.toml":                 "[fuelling]\nfuel = \"E10\"\ntarget = \"\"\"\nlambda 4000 8000\n50 0.95 0.95\n100 0.88 0.88\n\"\"\"\n",
		"data/ride.csv":              "time [s],rpm,throttle [%],lambda\n0,4000,100,0.88\n1,4000,100,0.88\n2,4000,100,0.88\n",
		"data/heat.csv":              "time [s],T1 [°C],ALT [m]\n0,612,431.5\n1,618,433.5\n2,625,437.5\n",
		"entries/2026-05-02-ride.md": "```toml\n" + mixture + "[[fuelling]]\ndata = \"data/ride.csv\"\n```\n",
		"entries/2026-05-03-heat.md": "```toml\n" + other + "[[logs]]\ndata = \"data/heat.csv\"\npaths = { egt.turboleft = \"T1\", air.altitude = \"ALT\" }\n```\n",
	}
}

// A log tells the height of a place as well as a figure of the air does: it is drawn nowhere, and no figure of it stands anywhere, where places are hidden.
func TestALogTellsNoPlaceThatIsHidden(t *testing.T) {
	files := logged("", "")
	const height, heat = "437.5", "625"
	if all := everything(rendered(t, inMemory(files))); !strings.Contains(all, height) || !strings.Contains(all, heat) {
		t.Fatal("the figures are nowhere even when nothing is hidden: the test proves nothing")
	}
	files["build.toml"] += "[site]\nhide = [\"places\"]\n"
	m := rendered(t, inMemory(files))
	checkSite(t, m)
	all := everything(m)
	if !strings.Contains(all, heat) {
		t.Error("what is no place is hidden, too")
	}
	for _, told := range []string{height, "431.5", "air.altitude: ", "course.air.altitude"} {
		if strings.Contains(all, told) {
			t.Errorf("the site tells %q", told)
		}
	}
}

// A path that only the log of a hidden entry names is nowhere, while one that a goal names is told.
func TestAPathOfAHiddenLogIsNowhere(t *testing.T) {
	files := logged("", "tags = [\"secret\"]\n")
	files["limits.toml"] = "[egt]\nhigh = \"900 °C\"\n"
	files["entries/2026-05-01-plain.md"] = "```toml\n[found]\negt.left = \"700 °C\"\negt.right = \"710 °C\"\n```\n"
	if all := everything(rendered(t, inMemory(files))); !strings.Contains(all, "turboleft") {
		t.Fatal("the path is nowhere even when nothing is hidden: the test proves nothing")
	}
	files["build.toml"] += "[site]\nhide = [\"secret\"]\n"
	m := rendered(t, inMemory(files))
	checkSite(t, m)
	if strings.Contains(everything(m), "turboleft") {
		t.Error("the site names what only a hidden log holds")
	}
	if !strings.Contains(words(m, "paths/egt.html"), ".right 710 °C") {
		t.Error("paths/egt.html lacks what is published there")
	}
	files["build.toml"] += "[goals]\negt.turboleft = \"..850 °C\"\n"
	if !report.Publish(compiled(t, inMemory(files))).ShowsPath("egt.turboleft") {
		t.Error("a goal names the path, and yet it is hidden")
	}
}

// Logs stand before or after the work of their entry only where it has some, and are said to be drawn square by square only where they are.
func TestWordsBesideLogs(t *testing.T) {
	const after, squares = "after its work", "The newest, square by square"
	const ride, heat = "entries/2026-05-02-ride.html", "entries/2026-05-03-heat.html"
	m := rendered(t, inMemory(logged("", "")))
	checkSite(t, m)
	if got := words(m, "fuelling.html"); strings.Contains(got, after) || !strings.Contains(got, "egt.turboleft by the newest log") {
		t.Errorf("entries without work: %s", got)
	}
	if !strings.Contains(words(m, ride), squares) || strings.Contains(words(m, heat), squares) {
		t.Errorf("the link to the squares:\n%s\n%s", words(m, ride), words(m, heat))
	}
	files := logged("", "")
	files["build.toml"] = "[fuelling]\nfuel = \"E10\"\n"
	if m := rendered(t, inMemory(files)); strings.Contains(words(m, ride), squares) {
		t.Errorf("there is no target, and yet: %s", words(m, ride))
	}
	files = logged("", "fitted = [\"pipe\"]\n")
	files["parts.toml"] = "[pipe]\nslot = \"pipe\"\n"
	m = rendered(t, inMemory(files))
	if got := words(m, "fuelling.html"); strings.Count(got, after) != 2 { // of two courses
		t.Errorf("an entry with work: %s", got)
	}
	if got := words(m, heat); !strings.Contains(got, "After this entry’s work") {
		t.Errorf("an entry with work: %s", got)
	}
}
