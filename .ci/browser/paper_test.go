package browser

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	cdpp "github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// sheets are the sizes of paper that a card is printed on, in inches: ISO 216 and US letter (from memory).
var sheets = []struct {
	name          string
	width, height float64
}{{"A4", 210 / 25.4, 297 / 25.4}, {"US letter", 8.5, 11}}

// smallOnCard lists what is set in less than 10 points on a card; a point is 4/3 of a CSS pixel (CSS Values and Units).
const smallOnCard = `[...document.querySelectorAll('.bench *')].filter(e => [...e.childNodes].some(n => n.nodeType === 3 && n.data.trim()) && e.getClientRects().length)
  .filter(e => parseFloat(getComputedStyle(e).fontSize) < 10 * 4 / 3 - 0.01).map(e => e.tagName + '.' + e.className + ' ' + getComputedStyle(e).fontSize)`

// TestCardsFitOneSheet prints bench cards, that of a head of twelve bolts with sixteen valves among them, and counts their sheets.
func TestCardsFitOneSheet(t *testing.T) {
	ctx := browser(t)
	for _, journal := range []string{"../../example-build", twelveBolts(t, "workshop"), twelveBolts(t, "plain")} {
		site := compiled(t, journal)
		cards, err := filepath.Glob(filepath.Join(site, "bench", "*.html"))
		if err != nil || len(cards) == 0 {
			t.Fatalf("cards of %s: %v, %v", journal, cards, err)
		}
		tab, cancel := chromedp.NewContext(ctx)
		tab, stop := context.WithTimeout(tab, 4*time.Minute)
		for _, card := range cards {
			name := filepath.Base(card)
			if err := chromedp.Do(tab, chromedp.EmulateViewport(718, 1000), media("light", "print"), chromedp.Navigate("file://"+card)); err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			report(t, tab, name+" is set too small", smallOnCard)
			for _, sheet := range sheets {
				if n := printed(t, tab, sheet.width, sheet.height); n != 1 {
					t.Errorf("%s takes %d sheets of %s", name, n, sheet.name)
				}
			}
		}
		stop()
		cancel()
	}
}

// printed prints the page of a tab and returns how many sheets it takes, as poppler's pdfinfo counts them.
func printed(t *testing.T, tab context.Context, width, height float64) int {
	t.Helper()
	var pdf []byte
	margin := 0.4 // inches: what browsers leave by themselves
	err := chromedp.Do(tab, chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		result, err := cdpp.Call(ctx, target, page.PrintToPDF, page.PrintToPDFParams{PaperWidth: width, PaperHeight: height, MarginTop: &margin, MarginBottom: &margin, MarginLeft: &margin, MarginRight: &margin})
		pdf = result.Data
		return err
	}))
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "card.pdf")
	if err := os.WriteFile(file, pdf, 0o644); err != nil {
		t.Fatal(err)
	}
	text, err := exec.Command("pdfinfo", file).Output()
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(text)) {
		var n int
		if _, err := fmt.Sscanf(line, "Pages: %d", &n); err == nil {
			return n
		}
	}
	t.Fatalf("pdfinfo says %q", text)
	return 0
}

// twelveBolts writes a journal with a plan for a head of twelve bolts and sixteen valves, and returns its folder.
func twelveBolts(t *testing.T, theme string) string {
	t.Helper()
	var valves strings.Builder
	for _, side := range []string{"intake", "exhaust"} {
		for cylinder := range 4 {
			for valve := range 2 {
				fmt.Fprintf(&valves, "lash.%s.%d.%d = \"\"\n", side, cylinder+1, valve+1)
			}
		}
	}
	folder := t.TempDir()
	for name, text := range map[string]string{
		"build.toml": "title = \"Twelve bolts\"\n[site]\ntheme = \"" + theme + "\"\n[machine]\nname = \"Plover 900\"\n[engine]\ncylinders = 4\n" +
			"adjuster = { kind = \"shim\", sizes = \"1.20..3.50 mm by 0.05\" }\n",
		"limits.toml": `[lash]
when = { engine-temp = "..35 °C" }
basis = "label"
intake = "0.10 ± 0.02 mm"
exhaust = "0.15 ± 0.02 mm"
[timing]
marks = "aligned"
[torque]
basis = "manual"
[torque.head-bolt]
title = "Cylinder head bolts, twelve"
nominal = "20 N·m then 35 N·m then 48 N·m"
plus = "3 N·m"
thread = "M9x1.25"
class = "10.9"
threads = "oiled"
drive = "12 mm hex"
order = "7 5 1 3 9 11 12 10 4 2 6 8"
[torque.cam-cap]
nominal = "10 N·m"
tolerance = "1 N·m"
thread = "M6x1.0"
drive = "10 mm hex"
[torque.cam-cover]
basis = "assumed"
nominal = "10 N·m"
tolerance = "1 N·m"
drive = "5 mm hex key"
`,
		"tools.toml": "[feeler]\ntitle = \"Feeler leaves\"\nfor = [\"lash\"]\nleaves = [\"0.08 mm\", \"0.10 mm\", \"0.13 mm\", \"0.15 mm\", \"0.18 mm\"]\n" +
			"[wrench]\ntitle = \"Click wrench, half-inch drive\"\nfor = [\"torque\"]\nrange = \"8..100 N·m\"\n",
		"parts.toml": "[gasket]\ntitle = \"Head gasket\"\nslot = \"head-gasket\"\n[springs]\ntitle = \"Valve springs, set\"\nslot = \"valve-springs\"\n",
		"entries/head.md": "```toml\ntitle = \"Head off and on again, all valves\"\nfitted = [\"gasket\", \"springs\"]\nwith = [\"feeler\", \"wrench\"]\n[found]\n" + valves.String() +
			"[set]\ntiming.marks = \"\"\ntorque.head-bolt = \"\"\ntorque.cam-cap = \"\"\ntorque.cam-cover = \"\"\n```\n\n" +
			strings.Repeat("- [ ] A step that takes its few words to be said\n", 8),
	} {
		file := filepath.Join(folder, name)
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return folder
}
