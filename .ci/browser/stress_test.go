package browser

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// stress writes a journal that is hard on a page: 300 entries, twelve cylinders, long words, titles from right to left and in pictures,
// tables of forty columns, twenty sessions of pulls with charts of them. The same bytes each time.
func stress(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	r := rand.New(rand.NewPCG(7, 11))
	var cylinders []string
	for i := range 12 {
		cylinders = append(cylinders, fmt.Sprintf("%q", fmt.Sprintf("cyl-%d", i+1)))
	}
	write(t, dir, "build.toml", "title = \"Stress\"\nfitted = [\"part-0\"]\n[machine]\nname = \"Curlew twelve "+strings.Repeat("Donaudampf", 6)+"\"\nmeter = \"km\"\n[engine]\ncylinders = ["+
		strings.Join(cylinders, ", ")+"]\nbore = \"53.0 mm\"\nstroke = \"56.4 mm\"\nadjuster = { kind = \"screw\", pitch = \"0.5 mm\", at = \"valve\" }\n")
	write(t, dir, "limits.toml", "[lash]\nintake = \"0.08 ± 0.02 mm\"\nexhaust = \"0.12 ± 0.02 mm\"\n[torque]\n\""+strings.Repeat("long-fastener-name-", 5)+"x\" = \"20 ± 2 N·m\"\n")
	var parts strings.Builder
	for i := range 40 {
		fmt.Fprintf(&parts, "[part-%d]\ntitle = %q\nslot = \"slot-%d\"\nprice = \"%d GBP\"\nthen = [\"lash\"]\n", i, titles[i%len(titles)], i%7, i)
	}
	write(t, dir, "parts.toml", parts.String())
	write(t, dir, "tools.toml", "[feeler]\nfor = [\"lash\"]\nresolution = \"0.01 mm\"\n")
	for i := range 300 {
		var b strings.Builder
		fmt.Fprintf(&b, "```toml\ntitle = %q\ndate = %d-%02d-%02d\nmeter = %d\nwith = [\"feeler\"]\ntags = [\"tag-%d\"]\n", titles[i%len(titles)], 2000+i/28/12, i/28%12+1, i%28+1, 1000+i, i%9)
		if i%15 == 0 {
			fmt.Fprintf(&b, "fitted = [\"part-%d\"]\n", r.IntN(40))
		}
		pulled := i%15 == 7
		b.WriteString("[found]\n")
		for c := range 12 {
			fmt.Fprintf(&b, "lash.intake.cyl-%d = \"0.%02d mm\"\n", c+1, 5+r.IntN(9))
		}
		fmt.Fprintf(&b, "torque.%sx = \"%d N·m\"\n", strings.Repeat("long-fastener-name-", 5), 16+r.IntN(9))
		if pulled {
			fmt.Fprintf(&b, "[[pulls]]\ndata = [%s]\n", strings.Join(pulls(t, dir, i, r), ", "))
		}
		b.WriteString("```\n\n" + strings.Repeat("Rindfleischetikettierungsüberwachungsaufgabenübertragungsgesetz", 2) + " `" + strings.Repeat("x", 200) + "`\n\n")
		if i%10 == 0 {
			head, rule, row := "|", "|", "|"
			for c := range 40 {
				head += fmt.Sprintf(" column %d |", c)
				rule += "---|"
				row += fmt.Sprintf(" %d |", r.IntN(100000))
			}
			b.WriteString(head + "\n" + rule + "\n" + row + "\n\n")
			b.WriteString("```go\nfunc main() { " + strings.Repeat("veryLongCall(", 30) + strings.Repeat(")", 30) + " }\n```\n\n- [ ] An open step\n- [x] A step\n")
		}
		if pulled {
			b.WriteString("\n![So far](chart:power)\n\n![Gain](chart:gain)\n")
		}
		write(t, dir, fmt.Sprintf("entries/%04d.md", i), b.String())
	}
	return dir
}

// pulls writes three pulls of 300 rows that tremble, and returns their names in quotes.
func pulls(t *testing.T, dir string, entry int, r *rand.Rand) []string {
	t.Helper()
	var names []string
	for k := range 3 {
		var b strings.Builder
		b.WriteString("time [s];rpm x1000;M [N·m];lambda\n")
		for i := range 300 {
			fmt.Fprintf(&b, "%d;%.3f;%.2f;0.9\n", i, 4+float64(i)/50, 15+float64(entry)/100+float64(i)/60+r.Float64()/2)
		}
		name := fmt.Sprintf("data/%04d-%d.csv", entry, k)
		write(t, dir, name, b.String())
		names = append(names, fmt.Sprintf("%q", name))
	}
	return names
}

var titles = []string{"Lash, cold", "ضبط الصمامات على البارد", "🔧🔥🏍️ first start 🎉", strings.Repeat("unbreakable", 12), "<script>alert(1)</script> & \"quotes\""}

func write(t *testing.T, dir, name, text string) {
	t.Helper()
	path := filepath.Join(dir, name)
	if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
}
