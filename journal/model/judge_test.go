package model_test

import (
	"fmt"
	"strings"
	"testing"
)

// held is a reading held to a limit, with the verdict that it must get.
type held struct {
	path, limit, reading string // the limit's keys, one a line; the reading as TOML
	want                 string // as told, without identity, limit and states
}

func hold(t *testing.T, rows []held) {
	t.Helper()
	for _, row := range rows {
		files := fmt.Sprintf("-- limits.toml --\n[%s]\n%s\n-- 2026-01-01.md --\n[set]\n%s = %s\n", row.path, row.limit, row.path, row.reading)
		j := compile(t, files, "").Journal
		if len(j.Values) != 1 {
			t.Errorf("%s = %s: %d values, want 1", row.path, row.reading, len(j.Values))
			continue
		}
		got := strings.NewReplacer("2026-01-01/set/"+row.path+": ", "", " by "+row.path, "", ", current", "").Replace(told(j.Values[0]))
		if got != row.want {
			t.Errorf("%s = %s held to\n%s\ngot  %s\nwant %s", row.path, row.reading, row.limit, got, row.want)
		}
	}
}

// A bracket is closed at the leaf that goes and open at the one that doesn't; the bounds belong to the limit. Every edge, against low,
// high and service bounds: 0.10 to 0.20 mm, service 0.05 to 0.30 mm.
func TestBracketsAgainstEveryEdge(t *testing.T) {
	const both = "low = \"0.10 mm\"\nhigh = \"0.20 mm\"\nservice = \"0.05..0.30 mm\""
	const high, low = "high = \"0.20 mm\"", "low = \"0.10 mm\""
	row := func(limit, reading, want string) held {
		return held{"clearance.x", limit, `"` + reading + `"`, want}
	}
	hold(t, []held{
		row(both, "0.10..0.20 mm", "in"),
		row(both, "0.12..0.15 mm", "in"),
		row(both, "0.10..0.13 mm", "in"),
		row(both, "0.09..0.13 mm", "undecided"),
		row(both, "0.20..0.21 mm", "undecided"), // exactly 0.20 is in
		row(both, "0.15..0.21 mm", "undecided"),
		row(both, "0.05..0.10 mm", "worn below"), // less than 0.10, at least 0.05
		row(both, "0.05..0.11 mm", "undecided"),
		row(both, "0.04..0.05 mm", "out below"), // less than 0.05
		row(both, "0.04..0.06 mm", "undecided"),
		row(both, "0.21..0.30 mm", "worn above"),
		row(both, "0.21..0.31 mm", "undecided"),
		row(both, "0.30..0.35 mm", "undecided"), // exactly 0.30 is worn
		row(both, "0.31..0.35 mm", "out above"),
		row(both, "0.04..0.35 mm", "undecided"), // out on both sides
		row(both, "0.06..0.25 mm", "undecided"), // worn on both sides
		row(both, "..0.05 mm", "out below"),
		row(both, "..0.06 mm", "undecided"),
		row(both, "..0.20 mm", "undecided"),
		row(both, "0.30.. mm", "undecided"),
		row(both, "0.31.. mm", "out above"),
		row(both, "0.15.. mm", "undecided"),

		// A service bound on one side alone leaves the other as it is.
		row("low = \"0.10 mm\"\nhigh = \"0.20 mm\"\nservice = \"..0.30 mm\"", "0.06..0.08 mm", "out below"),
		row("low = \"0.10 mm\"\nhigh = \"0.20 mm\"\nservice = \"..0.30 mm\"", "0.21..0.25 mm", "worn above"),
		row("low = \"0.10 mm\"\nhigh = \"0.20 mm\"\nservice = \"0.05.. mm\"", "0.06..0.08 mm", "worn below"),
		row("low = \"0.10 mm\"\nhigh = \"0.20 mm\"\nservice = \"0.05.. mm\"", "0.21..0.25 mm", "out above"),

		row(high, "..0.20 mm", "in"),
		row(high, "..0.19 mm", "in"),
		row(high, "..0.21 mm", "undecided"),
		row(high, "0.20.. mm", "undecided"),
		row(high, "0.21.. mm", "out above"),
		row(high, "0.19..0.20 mm", "in"),
		row(low, "0.10.. mm", "in"),
		row(low, "0.09.. mm", "undecided"),
		row(low, "..0.10 mm", "out below"),
		row(low, "..0.11 mm", "undecided"),
		row(low, "0.09..0.10 mm", "out below"),
	})
}

func TestFiguresOnEveryEdge(t *testing.T) {
	const both = "low = \"0.10 mm\"\nhigh = \"0.20 mm\"\nservice = \"0.05..0.30 mm\""
	for reading, want := range map[string]string{
		"0.04 mm": "out below", "0.05 mm": "worn below", "0.09 mm": "worn below", "0.10 mm": "in", "0.15 mm": "in", "0.20 mm": "in",
		"0.21 mm": "worn above", "0.30 mm": "worn above", "0.31 mm": "out above",
	} {
		hold(t, []held{{"clearance.x", both, `"` + reading + `"`, want}})
	}
}

// A torque that moved before the click says that it was less: `..12 N·m`.
func TestTheNutMovedBeforeTheClick(t *testing.T) {
	const limit = `nominal = "12 N·m"` + "\n" + `tolerance = "2 N·m"`
	hold(t, []held{
		{"torque.nut", limit, `"..12 N·m"`, "undecided"},
		{"torque.nut", limit, `"..10 N·m"`, "out below"},
		{"torque.nut", limit, `"..11 N·m"`, "undecided"},
		{"torque.nut", limit, `"15.. N·m"`, "out above"},
		{"torque.nut", limit, `"10..14 N·m"`, "in, +0 N·m off"},
	})
}

// The mean and each of the repeats are judged: all alike give that verdict, any two that differ give undecided.
func TestRepeatsAreJudgedEach(t *testing.T) {
	const limit = "low = \"9.0 hp\"\nhigh = \"9.4 hp\""
	hold(t, []held{
		{"power.peak", limit, `["9.1 hp", "9.3 hp", "9.2 hp"]`, "in"},
		{"power.peak", limit, `["9.0 hp", "9.4 hp"]`, "in"},
		{"power.peak", limit, `["9.1 hp", "9.5 hp"]`, "undecided"},
		{"power.peak", limit, `["8.9 hp", "9.5 hp"]`, "undecided"},
		{"power.peak", limit, `["9.6 hp", "9.5 hp"]`, "out above"},
		{"power.peak", limit, `["8.6 hp", "8.5 hp"]`, "out below"},
		{"power.peak", limit, `["9.5 hp", "6.9 kW"]`, "undecided"}, // 6.9 kW is 9.25 hp
		{"power.peak", limit, `["9.5 hp"]`, "out above"},
		{"clearance.x", `nominal = "0.10 mm"` + "\n" + `tolerance = "0.02 mm"`, `["0.08..0.12 mm", "0.10 mm"]`, "in, +0 mm off"},
		{"clearance.x", `nominal = "0.10 mm"` + "\n" + `tolerance = "0.02 mm"`, `["0.08..0.13 mm", "0.10 mm"]`, "undecided, +0.0025 mm off"},
	})
}

func TestAThousandRepeats(t *testing.T) {
	repeats := strings.Repeat(`"0.10 mm", `, 999) + `"0.13 mm"`
	hold(t, []held{{"clearance.x", `nominal = "0.10 mm"` + "\n" + `tolerance = "0.02 mm"`, "[" + repeats + "]", "undecided, +3e-05 mm off"}})
}

func TestBoundsAroundNominal(t *testing.T) {
	row := func(path, limit, reading, want string) held { return held{path, limit, `"` + reading + `"`, want} }
	const torque = "nominal = \"20 N·m\"\n"
	hold(t, []held{
		row("torque.x", torque+`tolerance = "10 %"`, "22 N·m", "in, +2 N·m off"),
		row("torque.x", torque+`tolerance = "10 %"`, "22.1 N·m", "out above, +2.1 N·m off"),
		row("torque.x", torque+`tolerance = "10 %"`, "17.9 N·m", "out below, -2.1 N·m off"),
		row("torque.x", `nominal = "20 N·m ± 5 %"`, "21 N·m", "in, +1 N·m off"),
		row("torque.x", `nominal = "20 N·m ± 5 %"`, "21.1 N·m", "out above, +1.1 N·m off"),
		row("torque.x", torque+`plus = "3 N·m"`, "23 N·m", "in, +3 N·m off"),
		row("torque.x", torque+`plus = "3 N·m"`, "20 N·m", "in, +0 N·m off"),
		row("torque.x", torque+`plus = "3 N·m"`, "19.9 N·m", "out below, -0.1 N·m off"),
		row("torque.x", torque+`minus = "3 N·m"`, "17 N·m", "in, -3 N·m off"),
		row("torque.x", torque+`minus = "3 N·m"`, "20.1 N·m", "out above, +0.1 N·m off"),
		row("torque.x", torque+"plus = \"3 N·m\"\nminus = \"1 N·m\"", "23 N·m", "in, +3 N·m off"),
		row("torque.x", torque+"plus = \"3 N·m\"\nminus = \"1 N·m\"", "18.9 N·m", "out below, -1.1 N·m off"),
		row("torque.x", torque+"minus = \"1 N·m\"\nplus = \"3 N·m\"", "18.9 N·m", "out below, -1.1 N·m off"),
		row("torque.x", torque, "33 N·m", "no limit, +13 N·m off"),
		row("torque.x", torque, "..33 N·m", "no limit"),
		// A difference of temperatures is in kelvin: 90 °C ± 5 K. 18 °F is 10 K.
		row("oil.temp", "nominal = \"90 °C\"\ntolerance = \"5 °C\"", "95 °C", "in, +5 °C off"),
		row("oil.temp", "nominal = \"90 °C\"\ntolerance = \"5 K\"", "96 °C", "out above, +6 °C off"),
		row("oil.temp", "nominal = \"90 °C\"\ntolerance = \"18 °F\"", "80 °C", "in, -10 °C off"),
		row("oil.temp", `nominal = "90 ± 5 °C"`, "194 °F", "in, +0 °F off"),
		// A share in per cent is of the figure; where the figure itself is per cent it is in points.
		row("leak.left", "nominal = \"5 %\"\ntolerance = \"3 %\"", "8 %", "in, +3 % off"),
		row("leak.left", "nominal = \"5 %\"\ntolerance = \"3 %\"", "8.1 %", "out above, +3.1 % off"),
		row("leak.left", `high = "10 %"`, "80/72", "in"), // supply over held: 10 %
		row("leak.left", `high = "10 %"`, "80/71", "out above"),
		// Other units than the limit's: 15 lbf·ft is 20.337 N·m (1 lbf·ft = 1.3558179483314004 N·m, NIST SP 811, recomputed).
		row("torque.x", `nominal = "20.337 ± 0.001 N·m"`, "15 lbf·ft", "in, +0.0001986 lbf·ft off"),
		row("cam.intake.opens", `nominal = "12 ± 2° BTDC"`, "14° BTDC", "in, -2 ° off"), // before is minus
		row("cam.intake.opens", `nominal = "12 ± 2° BTDC"`, "9° BTDC", "out above, +3 ° off"),
		row("cam.intake.opens", `nominal = "1 ± 2° BTDC"`, "1° ATDC", "in, +2 ° off"),
	})
}

func TestSteps(t *testing.T) {
	const three = "nominal = \"14 N·m then 20 N·m then 26 N·m\"\ntolerance = \"2 N·m\""
	const turn = "nominal = \"18 N·m then 90°\"\ntolerance = \"5°\""
	row := func(limit, reading, want string) held { return held{"torque.head", limit, `"` + reading + `"`, want} }
	hold(t, []held{
		row(three, "28 N·m", "in, +2 N·m off"),
		row(three, "28.1 N·m", "out above, +2.1 N·m off"),
		row(three, "14 N·m then 20 N·m then 24 N·m", "in, -2 N·m off"),
		row(three, "14 N·m then 19 N·m then 26 N·m", "out, +0 N·m off"),
		row(three, "14 N·m then 20 N·m then 29 N·m", "out above, +3 N·m off"),
		row(three, "20 N·m then 26 N·m", "out, +0 N·m off"),
		row(turn, "18 N·m then 95°", "in, +5 ° off"),
		row(turn, "18 N·m then 96°", "out above, +6 ° off"),
		row(turn, "20 N·m then 90°", "out, +0 ° off"),
		row(turn, "18 N·m then 1/4 turn", "in, +0 turn off"),
		row(turn, "85°", "in, -5 ° off"),
		row(turn, "18 N·m", "out"), // the turn is missing
		row(turn, "19 N·m", "out"),
		row(turn, "18 N·m then 18 N·m", "out"),
		row(turn, "18 N·m then 45° then 45°", "out, -45 ° off"),
		row(turn, "13.3 lbf·ft then 90°", "in, +0 ° off"), // 18.03 N·m: to half its last digit the same
		row(turn, "14.0 lbf·ft then 90°", "out, +0 ° off"),
		row(three, "14 N·m then 20 N·m", "out, -6 N·m off"),
		row("nominal = \"18 N·m then 90°\"", "18 N·m", "out"), // a turn without a tolerance is to be there
		row("nominal = \"18 N·m then 90°\"", "90°", "no limit, +0 ° off"),
		row("nominal = \"18 N·m then 85..95°\"", "18 N·m", "out"),
		row("nominal = \"26 N·m\"\ntolerance = \"2 N·m\"", "14 N·m then 26 N·m", "in, +0 N·m off"), // one figure holds the last step alone
	})
}

func TestExpectedWords(t *testing.T) {
	const list = `expect = ["between the marks", "at the upper mark"]`
	hold(t, []held{
		{"oil.level", list, `"between the marks"`, "in"},
		{"oil.level", list, `"At the  UPPER mark"`, "in"},
		{"oil.level", list, `"at the upper mark, clear"`, "in"},
		{"oil.level", list, `"low"`, "out"},
		{"oil.level", list, `"3 mm"`, "out"},
		{"timing.marks", `expect = "aligned"`, `"aligned"`, "in"},
		{"timing.marks", `expect = "aligned"`, `"two teeth late"`, "out"},
		{"timing.marks", `expect = "aligned"`, `{ words = "Aligned", note = "twice" }`, "in"},
	})
}

// A limit's bounds are shown with the digits that tell them, though its figure has fewer.
func TestBoundsAreShownWhole(t *testing.T) {
	for limit, want := range map[string]string{
		`"10 ± 0.1 N·m"`:      "9.9 N·m to 10.1 N·m",
		`"0.08 ± 0.02 mm"`:    "0.06 mm to 0.10 mm",
		`"20 N·m ± 5 %"`:      "19 N·m to 21 N·m",
		`"33 N·m ± 5 %"`:      "31.35 N·m to 34.65 N·m",
		`"0.10..0.125 mm"`:    "0.100 mm to 0.125 mm",
		`"24 lbf·ft ± 2 N·m"`: "22.5 lbf·ft to 25.5 lbf·ft", // 22.524 87 and 25.475 13: two figures of 1.475 13
		`"3 N·m ± 1.2345 %"`:  "2.963 N·m to 3.037 N·m",     // 2.962965 and 3.037035: three digits more at most
	} {
		l := compile(t, "-- limits.toml --\nx = "+limit+"\n", "").Journal.Limits[0]
		if got := l.Show(l.Low).String() + " to " + l.Show(l.High).String(); got != want {
			t.Errorf("bounds of %s are shown as %s, want %s", limit, got, want)
		}
	}
}

// A figure of a limit that lacks its unit is never taken for a pure number, or for a share.
func TestFiguresOfALimitNeedTheirUnit(t *testing.T) {
	tell(t, []story{
		{
			name:     "tolerance",
			files:    "-- limits.toml --\n[wear]\nnominal = \"10 mm\"\ntolerance = 1\n-- 2026-01-01.md --\n[set]\nwear = \"90 mm\"\n",
			values:   "2026-01-01/set/wear: no limit, current",
			findings: "error missing-unit/limits.toml/wear",
		},
		{
			name:     "the other bound",
			files:    "-- limits.toml --\n[wear]\nhigh = \"10 mm\"\nservice = \"..12\"\n-- 2026-01-01.md --\n[set]\nwear = \"90 mm\"\n",
			values:   "2026-01-01/set/wear: no limit, current",
			findings: "error missing-unit/limits.toml/wear",
		},
		{
			name:     "low above high",
			files:    "-- limits.toml --\n[wear]\nlow = \"10 mm\"\nhigh = \"9 mm\"\n-- 2026-01-01.md --\n[set]\nwear = \"90 mm\"\n",
			values:   "2026-01-01/set/wear: no limit, current",
			findings: "error reversed-limit/limits.toml/wear",
		},
		{
			name:     "a tolerance around nothing",
			files:    "-- limits.toml --\n[wear]\nplus = \"1 mm\"\n-- 2026-01-01.md --\n[set]\nwear = \"90 mm\"\n",
			values:   "2026-01-01/set/wear: no limit, current",
			findings: "error missing-key/limits.toml/wear",
		},
	})
}

func TestRepeatsThatHaveNoMean(t *testing.T) {
	set := func(line string) string { return "-- 2026-01-01.md --\n[set]\n" + line + "\n" }
	tell(t, []story{
		{name: "of two dimensions", files: set(`wear = ["1 mm", "1 kg"]`), findings: "error wrong-dimension/2026-01-01/wear"},
		{name: "an open end", files: set(`wear = ["1 mm", "..2 mm"]`), findings: "error bad-quantity/2026-01-01/wear"},
		{name: "steps among them", files: set(`torque.x = ["10 N·m then 20 N·m", "20 N·m"]`), findings: "error bad-quantity/2026-01-01/torque.x"},
		{name: "words wanted", files: set(`timing.marks = ["1", "2"]`), findings: "error bad-quantity/2026-01-01/timing.marks"},
	})
}
