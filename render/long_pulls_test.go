package render

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/locknut/journal"
)

// longPulls is a journal of sessions of pulls with so many rows each, a part between two sessions, and charts of it in the text. The figures tremble as a logger's do, and the last session has the
// highest row of all.
func longPulls(sessions, pulls, rows int) map[string]string {
	files := map[string]string{"build.toml": "[units]\npower = \"hp\"\n[power]\nband = \"4500..9500 rpm\"\ncorrect-to = \"ISO 1585\"\n", "tools.toml": "[road]\nfor = [\"power\"]\nrepeatability = \"1 %\"\n"}
	parts := ""
	for s := range sessions {
		parts += fmt.Sprintf("[part-%d]\nslot = \"pipe\"\n", s)
		var names []string
		for p := range pulls {
			name := fmt.Sprintf("data/s%d-p%d.csv", s, p)
			names = append(names, `"`+name+`"`)
			files[name] = longPull(rows, s, p)
		}
		files[fmt.Sprintf("entries/2026-%02d-%02d-session.md", 1+s/28, 1+s%28)] = fmt.Sprintf("```toml\nfitted = [\"part-%d\"]\n[[pulls]]\ndata = [%s]\ndyno = \"road\"\ncorrected = \"none\"\nair = { temp = \"%d °C\", pressure = \"100.%d kPa\", humidity = \"50 %%\" }\n```\n\n![Power](chart:power)\n\n![Gain](chart:gain)\n",
			s, strings.Join(names, ", "), 15+s%10, s%10)
	}
	files["parts.toml"] = parts
	return files
}

// longPull is one file of time, engine speed, power and torque; power and torque agree.
func longPull(rows, session, pull int) string {
	var b strings.Builder
	b.WriteString("time [s],rpm,P [hp],T [N·m]\n")
	for i := range rows {
		share := float64(i) / float64(max(1, rows-1))
		rpm := math.Round((4000+6000*share)*100) / 100
		torque := 18 + 0.3*float64(session)*(2*share-0.5) + 4*math.Sin(3*share) + 0.3*math.Sin(float64(i*(7+pull))) + 0.1*float64(pull)
		torque = math.Round(torque*10000) / 10000
		fmt.Fprintf(&b, "%.3f,%.2f,%.5f,%.4f\n", 10*share, rpm, torque*rpm*math.Pi/30/745.69987158227022, torque)
	}
	return b.String()
}

// BenchmarkPulls compiles two sessions of three pulls: what a row costs must not grow with the number of rows. DEVELOPERS.md has the ratios.
func BenchmarkPulls(b *testing.B) {
	for _, rows := range []int{1000, 10_000, 100_000} {
		files := inMemory(longPulls(2, 3, rows))
		b.Run(fmt.Sprint(rows), func(b *testing.B) {
			for b.Loop() {
				result, err := journal.Compile(files, journal.Options{})
				if err != nil {
					b.Fatal(err)
				}
				if _, err := Site(result, &Memory{}); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*6*rows), "ns/row")
		})
	}
}

// However long pulls are, and however many, no chart makes a page heavy; and none of them loses what it is there to show.
func TestLongPullsMakeSmallCharts(t *testing.T) {
	for _, c := range []struct{ sessions, pulls, rows int }{{2, 1, 10_000}, {10, 3, 800}, {20, 3, 200}} {
		m := rendered(t, inMemory(longPulls(c.sessions, c.pulls, c.rows)))
		checkSite(t, m)
		if power, over := drawings(m, "power.html", "c-curves"), drawings(m, "power.html", "c-over"); len(power) != 2 || len(over) != 2 {
			t.Errorf("%d sessions of %d rows: %q, %q", c.sessions, c.rows, power, over)
		}
	}
}
