package render

import (
	"bytes"
	"compress/gzip"
	"image"
	"image/color"
	"image/png"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"example.org/locknut/journal"
)

// drawings returns what each drawing of a page says to those who don't see it.
func drawings(m *Memory, page, kind string) []string {
	var all []string
	for _, found := range regexp.MustCompile(`<svg class="chart (c-[a-z]+) c-([a-z]+)"[^>]*><title>([^<]*)<`).FindAllStringSubmatch(string(m.Page(page)), -1) {
		if found[1] == kind {
			all = append(all, found[2]+": "+strings.ReplaceAll(found[3], thinSpace, " "))
		}
	}
	return all
}

// mostFigure is how many bytes a chart may add to a page, in both of its sizes.
const mostFigure = 30_000

// figures returns each figure that holds drawings, by its page and number.
func figures(m *Memory) map[string]string {
	all := map[string]string{}
	for _, name := range m.Names() {
		for i, found := range regexp.MustCompile(`(?s)<figure class="drawing">.*?</figure>`).FindAllString(string(m.Page(name)), -1) {
			all[name+" "+strconv.Itoa(i)] = found
		}
	}
	return all
}

// pulled is the shed with pulls: before the cam, after it, and after a pipe that is no part of its parts sheet.
func pulled() map[string]string {
	return with(shed(), map[string]string{
		"build.toml":                   strings.Replace(shed()["build.toml"], "[units]\n", "[units]\npower = \"hp\"\n", 1),
		"data/first.csv":               "rpm,power [hp]\n4000,10.0\n6000,15.0\n8000,20.0\n9000,19.0\n",
		"data/then.csv":                "rpm,power [hp]\n4000,10.5\n6000,16.0\n8000,22.0\n9000,23.0\n",
		"data/last.csv":                "rpm,power [hp]\n4000,10.6\n6000,16.5\n8000,23.0\n9000,24.5\n",
		"entries/2026-02-01-before.md": "```toml\n[[pulls]]\ndata = [\"data/first.csv\"]\ngear = 4\ncorrected = \"SAE J1349\"\nair = { temp = \"19 °C\" }\n```\n\n![Gain](chart:gain)\n",
		"entries/2026-03-08-cam.md":    "```toml\ntitle = \"What the cam gave\"\n[[pulls]]\ndata = [\"data/then.csv\"]\ncorrected = \"SAE J1349\"\n```\n\n![Power so far](chart:power)\n\n![Gain so far](chart:gain)\n\n![Lash of the left one](chart:lash.intake.left)\n\nIn line: ![power](chart:power).\n",
		"entries/2026-03-10-pipe.md":   "```toml\ntitle = \"The pipe\"\n[[pulls]]\ndata = [\"data/last.csv\"]\ncorrected = \"SAE J1349\"\n```\n",
	})
}

// The figures are those of the three files, subtracted by hand: 23.0 − 20.0 and 24.5 − 23.0 hp, 4.5 hp in all.
func TestPower(t *testing.T) {
	m := rendered(t, inMemory(pulled()))
	checkSite(t, m)
	wide := "wide: +4.50 hp in 2 stages; the first pulls gave 20.00 hp, the last 24.50 hp"
	if got := drawings(m, "power.html", "c-gains"); len(got) != 2 || got[0] != wide {
		t.Errorf("steps of gain: %q, want %q first", got, wide)
	}
	if got := drawings(m, "power.html", "c-curves"); len(got) != 2 {
		t.Errorf("curves: %q", got)
	}
	// By hand: 4 + 1.5 hp at 9000 rpm, 0.5 + 0.1 at 4000, in all.
	if got, want := drawings(m, "power.html", "c-over"), "; all stages together: +5.50 hp at 9000, +0.60 hp at 4000 rpm; gained 4000 to 9000 rpm<"; len(got) != 2 || !strings.Contains(strings.ReplaceAll(string(m.Page("power.html")), thinSpace, " "), want) {
		t.Errorf("gain over the engine speed: %q, want %q", got, want)
	}
	for _, row := range []string{
		"Gain at 4000 rpm 5000 rpm 6000 rpm 7000 rpm 8000 rpm 9000 rpm Hill cam +0.50 hp +0.75 hp +1.00 hp +1.50 hp +2.00 hp +4.00 hp", // straight lines between the rows, by hand
		"2026-03-10 The pipe 24.5 hp", "in: Hill cam 23.0 hp", "2026-02-01-before 20.0 hp 17.8 N·m worked out from power 4 temp 19 °C SAE J1349", "all stages 4.5 hp", "What the cam gave 3.0 hp , of unknown scatter in: Hill cam",
	} {
		if got := words(m, "power.html"); !strings.Contains(got, row) {
			t.Errorf("power.html doesn't say %q:\n%s", row, got)
		}
	}
	if !strings.Contains(string(m.Page("entries.html")), `href="power.html"`) {
		t.Error("nothing leads to the page of power")
	}
	if m := rendered(t, inMemory(shed())); m.Page("power.html") != nil || strings.Contains(everything(m), "power.html") {
		t.Error("without pulls there is a page of power, or a link to it")
	}
}

// Files of torque alone make stages like all others. 10 N·m at 6000 rpm are 8.4259 hp, recomputed from P = 2π·n·M; 12 N·m are 10.1111.
func TestTorqueAlone(t *testing.T) {
	files := pulled()
	files["data/first.csv"] = "rpm,torque [N·m]\n4000,8.0\n5000,9.0\n6000,10.0\n"
	files["data/then.csv"] = "rpm,torque [N·m]\n4000,8.5\n5000,10.0\n6000,12.0\n"
	delete(files, "entries/2026-03-10-pipe.md")
	m := rendered(t, inMemory(files))
	checkSite(t, m)
	for page, want := range map[string]string{
		"power.html": "10.1 hp worked out from torque 12.0 N·m SAE J1349", "entries/2026-03-08-cam.html": "Peak power 10.1 hp , worked out from torque Peak torque 12.0 N·m",
	} {
		if got := words(m, page); !strings.Contains(got, want) {
			t.Errorf("%s doesn't say %q:\n%s", page, want, got)
		}
	}
	if got, want := drawings(m, "power.html", "c-gains"), "wide: +1.69 hp in 1 stage; the first pulls gave 8.43 hp, the last 10.11 hp"; len(got) != 2 || got[0] != want {
		t.Errorf("%q, want %q first", got, want)
	}
}

// A chart in an entry shows the engine as that entry left it; what there is nothing to draw of yet keeps its words, as does what stands in a line.
func TestChartsInText(t *testing.T) {
	m := rendered(t, inMemory(pulled()))
	const cam = "entries/2026-03-08-cam.html"
	// By hand: 23 − 19 hp at 9000 rpm, 10.5 − 10 at 4000.
	if got, want := drawings(m, cam, "c-over"), "wide: gain in power over engine speed: +4.00 hp at 9000, +0.50 hp at 4000 rpm"; len(got) != 2 || got[0] != want {
		t.Errorf("the gain of the entry's stage: %q, want %q first", got, want)
	}
	for _, want := range []string{"no band: nothing tells how far off the curve may be", "gained 4000 to 9000", ">Hill cam<"} {
		if !strings.Contains(string(m.Page(cam)), want) {
			t.Errorf("the drawing doesn't say %q", want)
		}
	}
	if got := drawings(m, cam, "c-curves"); len(got) != 2 || !strings.Contains(got[0], "23.0") || strings.Contains(got[0], "24.5") {
		t.Errorf("power so far: %q", got)
	}
	if got := drawings(m, cam, "c-history"); len(got) != 2 || !strings.Contains(got[0], "lash.intake.left") {
		t.Errorf("history: %q", got)
	}
	for _, want := range []string{"<figcaption>Power so far</figcaption>", "<figcaption>Lash of the left one</figcaption>", `In line: <span class="picture">Chart: power</span>`} {
		if !strings.Contains(string(m.Page(cam)), want) {
			t.Errorf("the entry lacks %s", want)
		}
	}
	if got := string(m.Page("entries/2026-02-01-before.html")); !strings.Contains(got, `<p class="picture">Chart: Gain – not drawn: no stage between two sessions of pulls by then</p>`) || strings.Contains(got, "<figure") {
		t.Errorf("before there was any gain:\n%s", got)
	}
}

func TestAnUnknownChartKeepsItsWordsAndHasAFinding(t *testing.T) {
	result := compiled(t, inMemory(with(pulled(), map[string]string{"entries/2026-03-12.md": "```toml\n```\n\n![How it went](chart:powr)\n"})))
	var messages []string
	for _, f := range result.Findings {
		if f.Rule == "broken-link" {
			messages = append(messages, f.Message+": "+f.Do)
		}
	}
	if want := []string{"the link leads nowhere: there is no chart `powr`: did you mean `chart:power`?"}; !slices.Equal(messages, want) {
		t.Errorf("findings\n%q\nwant\n%q", messages, want)
	}
	var m Memory
	if _, err := Site(result, &m); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(m.Page("entries/2026-03-12.html")), `<p class="picture">Chart: How it went</p>`) {
		t.Errorf("the words are gone:\n%s", m.Page("entries/2026-03-12.html"))
	}
}

// What is hidden is not in a chart: neither its curve, nor its step, nor a total over it.
func TestHiddenPullsAreInNoChart(t *testing.T) {
	files := pulled()
	files["entries/2026-03-08-cam.md"] = strings.Replace(files["entries/2026-03-08-cam.md"], "title = \"What the cam gave\"", "title = \"Zanzibar night\"\ntags = [\"private\"]", 1)
	if !strings.Contains(everything(rendered(t, inMemory(files))), "Zanzibar") {
		t.Fatal("it isn't shown even while nothing is hidden: the test proves nothing")
	}
	files["build.toml"] = strings.Replace(files["build.toml"], "[site]\n", "[site]\nhide = [\"private\"]\n", 1)
	m := rendered(t, inMemory(files))
	checkSite(t, m)
	if got := drawings(m, "power.html", "c-over"); len(got) != 0 {
		t.Errorf("the gain of a stage that begins or ends in a hidden entry is drawn: %q", got)
	}
	for _, word := range []string{"Zanzibar", "23.0", "22.0", "+3.00", "+1.50", "+4.50", "8 Mar"} {
		if got := string(m.Page("power.html")); strings.Contains(got, word) {
			t.Errorf("power.html tells %q:\n%s", word, got)
		}
	}
}

func TestStripsAndHistory(t *testing.T) {
	m := rendered(t, inMemory(shed()))
	const strip = "cell: lash.intake.left: set 0.08 mm, in; found 0.13 mm; standard 0.06 to 0.10 mm, nominal 0.08 mm"
	for _, page := range []string{"entries/2026-03-01-one.html", "paths/lash.intake.left.html", "limits.html"} {
		if got := drawings(m, page, "c-strip"); !slices.Contains(got, strip) {
			t.Errorf("%s has the strips\n%q\nand not\n%q", page, got, strip)
		}
	}
	if got := drawings(m, "paths/lash.intake.left.html", "c-strip"); !slices.Contains(got, strings.Replace(strip, "cell", "wide", 1)) {
		t.Errorf("no large one under Now: %q", got)
	}
	if got := drawings(m, "paths/lash.intake.left.html", "c-history"); len(got) != 2 {
		t.Errorf("history: %q", got)
	}
	// One reading is no history, and of a path above positions each position has its own.
	for _, page := range []string{"paths/oil.temp.html", "paths/lash.intake.html"} {
		if got := drawings(m, page, "c-history"); len(got) != 0 {
			t.Errorf("%s has the history %q", page, got)
		}
	}
}

func TestReadingsStandBesideTheWordsThatSpeakOfThem(t *testing.T) {
	m := rendered(t, inMemory(with(shed(), map[string]string{
		"entries/2026-03-03.md": "```toml\n[set]\nlash.intake.left = \"0.09 mm\"\n```\n\nLeft at [?](value:lash.intake.left).\n\nAgain: [?](value:lash.intake.left).\n",
	})))
	page := string(m.Page("entries/2026-03-03.html"))
	if got := strings.Count(page, `<ul class="margin"`); got != 1 {
		t.Fatalf("%d blocks of readings:\n%s", got, page)
	}
	first, second, margin := strings.Index(page, "Left at"), strings.Index(page, "Again:"), strings.Index(page, `<ul class="margin"`)
	if !(first < margin && margin < second) {
		t.Error("it doesn't follow the paragraph that speaks of it first")
	}
	if got, want := lineWith(t, m, "entries/2026-03-03.html", `<li><span class="path">`), "lash .intake .left 0.09 mm ✓ in 0.08 ± 0.02 mm"; got != want {
		t.Errorf("it says %q, want %q", got, want)
	}
}

func TestALongPageHasContents(t *testing.T) {
	m := rendered(t, inMemory(shed()))
	for page, want := range map[string]bool{"limits.html": true, "warnings.html": false, "entries/2026-03-02-two.html": false} {
		if got := strings.Contains(string(m.Page(page)), `<nav class="contents"`); got != want {
			t.Errorf("%s has contents: %v", page, got)
		}
	}
	if !strings.Contains(string(m.Page("limits.html")), `<li><a href="#section.of-lash">lash</a></li>`) {
		t.Errorf("they don't lead to the sections:\n%s", m.Page("limits.html"))
	}
}

// drawnPicture is a PNG of two colours, which stays a PNG.
func drawnPicture(t *testing.T, width, height int) string {
	t.Helper()
	p := image.NewPaletted(image.Rect(0, 0, width, height), color.Palette{color.White, color.Black})
	for i := range p.Pix {
		p.Pix[i] = uint8(i / 7 % 2)
	}
	var b bytes.Buffer
	if err := png.Encode(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// picturesOf returns the names below photos/.
func picturesOf(m *Memory) []string {
	return slices.DeleteFunc(m.Names(), func(name string) bool { return !strings.HasPrefix(name, "photos/") })
}

func photographed(t *testing.T) map[string]string {
	return with(shed(), map[string]string{
		"photos/tank.png":       drawnPicture(t, 2000, 500),
		"photos/unshown.png":    drawnPicture(t, 20, 20),
		"photos/torn.png":       drawnPicture(t, 600, 400)[:200],
		"entries/2026-03-04.md": "```toml\n```\n\n![A \"dented\" tank](../photos/tank.png \"Before the filler\")\n\nIn line ![tank](../photos/tank.png), and [the file](../photos/tank.png).\n\n![Torn](../photos/torn.png)\n",
	})
}

// The recipe is 1600 and 480 px: of 2000 × 500 px that is 400 and 120 px of height.
func TestPhotos(t *testing.T) {
	m := rendered(t, inMemory(photographed(t)))
	checkSite(t, m)
	names := picturesOf(m)
	if len(names) != 2 || !strings.HasSuffix(names[0], "-1600.png") || !strings.HasSuffix(names[1], "-480.png") {
		t.Fatalf("the site has %q", names)
	}
	page := string(m.Page("entries/2026-03-04.html"))
	for _, want := range []string{
		`<a href="../` + names[0] + `"><img src="../` + names[1] + `" width="480" height="120" alt="A &#34;dented&#34; tank"`,
		`<figcaption>Before the filler</figcaption>`,
		`In line <img src="../` + names[1] + `" width="480" height="120" alt="tank"`,
		`<a href="../` + names[0] + `">the file</a>`,
		`<p class="picture">Picture: Torn</p>`,
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %s\n%s", want, page)
		}
	}
	hidden := photographed(t)
	hidden["build.toml"] = strings.Replace(hidden["build.toml"], "[site]\n", "[site]\nhide = [\"photos\"]\n", 1)
	m = rendered(t, inMemory(hidden))
	checkSite(t, m)
	if all := everything(m); len(picturesOf(m)) > 0 || strings.Contains(all, "<img") || strings.Contains(all, "dented") {
		t.Errorf("photos are hidden, and the site has %q", picturesOf(m))
	}
	private := photographed(t)
	private["build.toml"] = strings.Replace(private["build.toml"], "[site]\n", "[site]\nhide = [\"private\"]\n", 1)
	private["entries/2026-03-04.md"] = strings.Replace(private["entries/2026-03-04.md"], "```toml\n", "```toml\ntags = [\"private\"]\n", 1)
	if names := picturesOf(rendered(t, inMemory(private))); len(names) > 0 {
		t.Errorf("only a hidden entry shows them, and the site has %q", names)
	}
}

// keeping is a sink that still has an earlier site.
type keeping struct {
	Memory
	earlier *Memory
	mu      sync.Mutex
	asked   []string
}

func (k *keeping) Kept(name string) ([]byte, bool) {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.asked = append(k.asked, name)
	content := k.earlier.Page(name)
	return content, content != nil
}

func TestAPictureThatWasMadeBeforeIsTakenFromTheEarlierSite(t *testing.T) {
	folder := inMemory(photographed(t))
	earlier := rendered(t, folder)
	again := &keeping{earlier: earlier}
	if _, err := Site(compiled(t, folder), again); err != nil {
		t.Fatal(err)
	}
	for _, name := range picturesOf(earlier) {
		if !slices.Contains(again.asked, name) || !bytes.Equal(again.Page(name), earlier.Page(name)) {
			t.Errorf("%s: asked for %q, and the pictures are alike: %v", name, again.asked, bytes.Equal(again.Page(name), earlier.Page(name)))
		}
	}
	if !slices.Equal(again.Names(), earlier.Names()) {
		t.Errorf("files\n%q\nand before\n%q", again.Names(), earlier.Names())
	}
}

// packed is how many bytes a page is in RFC 1952's format.
func packed(t *testing.T, page []byte) int {
	t.Helper()
	var b bytes.Buffer
	w := gzip.NewWriter(&b)
	if _, err := w.Write(page); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Len()
}

// The heaviest page of the example stays far below what a phone at a hill with one bar loads in a second: 60 kB packed.
func TestNoPageIsHeavy(t *testing.T) {
	result, err := journal.Compile(os.DirFS("../example-build"), journal.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var m Memory
	if _, err := Site(result, &m); err != nil {
		t.Fatal(err)
	}
	for _, name := range m.Names() {
		if n := packed(t, m.Page(name)); strings.HasSuffix(name, ".html") && n > 60_000 {
			t.Errorf("%s is %d bytes packed", name, n)
		}
	}
}

// What another entry read stands in the margin of that one.
func TestAnotherDaysReadingIsNotInTheMargin(t *testing.T) {
	m := rendered(t, inMemory(with(shed(), map[string]string{
		"entries/2026-03-03.md": "```toml\n```\n\nIt was [?](value:2026-03-01-one/found/lash.intake.left).\n",
	})))
	if page := string(m.Page("entries/2026-03-03.html")); strings.Contains(page, `class="margin"`) || !strings.Contains(page, "0.13") {
		t.Errorf("the page is\n%s", page)
	}
}

// What a gain cost, by hand: parts of 120.00 and 30.00 GBP for 2.0 hp are 75 GBP a hp; and where spend is hidden nothing of it.
func TestGainsTellWhatTheyCost(t *testing.T) {
	files := map[string]string{
		"build.toml":                 "[site]\n[units]\npower = \"hp\"\nmoney = \"GBP\"\n",
		"parts.toml":                 "[pipe]\nprice = \"120.00 GBP\"\n[jets]\nprice = \"30.00 GBP\"\n[cam]\n",
		"entries/2026-03-01-a.md":    "```toml\n[[pulls]]\npeak = [\"20.0 hp\", \"20.1 hp\", \"19.9 hp\"]\n```\n",
		"entries/2026-03-02-pipe.md": "```toml\nfitted = [\"pipe\", \"jets\"]\n[[pulls]]\npeak = [\"22.0 hp\", \"22.1 hp\", \"21.9 hp\"]\n```\n",
		"entries/2026-03-03-cam.md":  "```toml\nfitted = [\"cam\"]\n[[pulls]]\npeak = [\"23.0 hp\", \"23.1 hp\", \"22.9 hp\"]\n```\n",
	}
	m := rendered(t, inMemory(files))
	checkSite(t, m)
	if got := words(m, "power.html"); !strings.Contains(got, "150.00 GBP 75 GBP a hp") {
		t.Errorf("power.html doesn't tell what a hp cost:\n%s", got)
	}
	files["build.toml"] = strings.Replace(files["build.toml"], "[site]\n", "[site]\nhide = [\"spend\"]\n", 1)
	if got := words(rendered(t, inMemory(files)), "power.html"); strings.Contains(got, "GBP") || strings.Contains(got, "Cost") {
		t.Errorf("power.html tells what is hidden:\n%s", got)
	}
}
