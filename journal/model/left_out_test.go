package model_test

import (
	"strings"
	"testing"
)

// What several files of one list have in common is said once, with how many have it; what is told beside a column is what its figures are.
func TestWhatFilesHaveInCommonIsSaidOnce(t *testing.T) {
	const rows = "5000,10.00,19.10\n5500,11.30,19.62\n6000,12.60,20.05\n6500,13.70,20.13\n7000,14.60,19.92\n7500,15.20,19.35\n"
	pulls := func(head, columns string) string {
		var text strings.Builder
		for _, name := range []string{"p", "q", "r"} { // a figure more in each: the same pull doesn't count twice
			text.WriteString("-- data/" + name + ".csv --\n" + head + "\n" + rows + "8000,15.50,18.5" + map[string]string{"p": "0", "q": "1", "r": "2"}[name] + "\n")
		}
		return text.String() + "-- 2026-01-01.md --\n[[pulls]]\ndata = [\"data/p.csv\", \"data/q.csv\", \"data/r.csv\"]\n" + columns + "\n"
	}
	for _, c := range []struct{ name, files, rule, message, do string }{
		{"a head in `columns`", pulls("rpm,P [kW],M [N·m]", `columns = { power = "Q [kW]" }`), "bad-csv", "`data/p.csv` has no column headed `Q [kW]`, nor have 2 files more", "did you mean `P [kW]`?"},
		{"a head in `paths`", pulls("rpm,P [kW],M [N·m]", `paths = { oil.temp = "T_OIL" }`), "bad-csv", "`data/p.csv` has no column headed `T_OIL`, nor have 2 files more", "write the head as it stands in the file"},
		{"power without its unit", pulls("rpm,P,M [N·m]", ""), "unread-column", "`P` has no unit, and is not read, and so in 2 files more", "write `P [kW]`: that is what the torque beside it makes"},
		{"torque in a mass", pulls("rpm,P [kW],M [kg]", ""), "unread-column", "`kg` is not a unit of torque: the column `M [kg]` is not read, and so in 2 files more", "write `M [N·m]`: that is what the power beside it makes"},
		{"a head against its unit", pulls("rpm,P [N·m],x", ""), "bad-csv", "this column is headed `P`, which is power, and `N·m` is a unit of torque, and so in 2 files more", "mend the head or its unit; or say in `columns` what it is: { torque = \"P\" }"},
		{"neither unit", pulls("rpm,P,M", ""), "bad-csv", "a pull needs a column of engine speed and one of power or torque, with their units, and so in 2 files more", "name them in the head row, as in `rpm,power [hp]`, or in `columns`"},
	} {
		findings := compile(t, c.files, "").Findings
		if len(findings) != 1 {
			t.Errorf("%s: %d findings, want 1", c.name, len(findings))
			continue
		}
		if f := findings[0]; f.Rule != c.rule || f.Message != c.message || f.Do != c.do {
			t.Errorf("%s:\n%s: %s\n%s\nwant\n%s: %s\n%s", c.name, f.Rule, f.Message, f.Do, c.rule, c.message, c.do)
		}
	}
}
