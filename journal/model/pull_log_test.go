package model_test

import (
	"strings"
	"testing"
)

// What pulls log beside their power: the mixture at full throttle in the squares of the target, and columns at paths. By hand: of four rows with lambda 0.90, 0.92, 0.94 and 0.96 the
// mean is 0.93; the row of a shut throttle, in which the engine is driven, is not of the pull, nor is a mixture that can't burn.
func TestWhatPullsLogBeside(t *testing.T) {
	pull := func(csv, table string) string {
		return target + "-- data/p.csv --\n" + csv + "-- 2026-01-01.md --\n[[pulls]]\ndata = \"data/p.csv\"\n" + table + "\n"
	}
	const rows = "7000,20,0.90\n7500,21,0.92\n8000,22,0.94\n8500,23,0.96\n8600,23,5\n8700,-2,0.50\n"
	driven, few := "warning negative-power/2026-01-01/data/p.csv", "note empty-log/2026-01-01/data/p.csv/fuelling"
	peaks := "2026-01-01/pulls-after:p/power.peak: no limit, current\n2026-01-01/pulls-after:p/power.torque: no limit, current\n"
	lambda := "2026-01-01/pulls-after:p/power.lambda: no limit, current\n"
	for name, csv := range map[string]string{
		"lambda":                      "rpm,power [kW],lambda\n" + rows,
		"a throttle column as well":   "rpm,power [kW],lambda,TPS [%]\n" + strings.NewReplacer("\n", ",100\n").Replace(rows),
		"a time that has no unit":     "rpm,power [kW],lambda,time\n" + strings.NewReplacer("\n", ",1\n").Replace(rows),
		"air-fuel ratios, ratio 10:1": "rpm,power [kW],AFR\n7000,20,9.0\n7500,21,9.2\n8000,22,9.4\n8500,23,9.6\n8600,23,50\n8700,-2,5\n",
	} {
		r := compile(t, pull(csv, "ratio = 10"), "")
		if got := findings(r); got != driven+"\n"+few+"\n" {
			t.Errorf("%s: findings:\n%s", name, got)
		}
		about(t, name, valueOf(t, r.Journal, "2026-01-01/pulls-after:p/power.lambda").Quantity.SI(), 0.93)
		log := r.Journal.Entries[0].Logs[0]
		if s := log.Mixture.At(1, 2); log.Pulls == nil || s.Seen.Seen != 4 || s.Target != 0.86 {
			t.Errorf("%s: %v rows were seen at full throttle and 8000 rpm, where %v is wanted", name, s.Seen.Seen, s.Target)
		}
		var told []float64
		for _, point := range r.Journal.Entries[0].Pulls[0].Runs[0].Points {
			told = append(told, point.Lambda)
		}
		for i, want := range []float64{0.90, 0.92, 0.94, 0.96, 0} {
			about(t, name+", of a row", told[i], want)
		}
	}
	tell(t, []story{
		{name: "a column at a path", files: pull("rpm,power [kW],oil.temp [°C]\n6000,10,80\n7000,11,90\n", ""), values: peaks + "2026-01-01/pulls-after:p/oil.temp: no limit, current\n"},
		{name: "a column that `paths` names", files: pull("rpm,power [kW],T1 [°C]\n6000,10,80\n7000,11,90\n", `paths = { oil.temp = "T1" }`), values: peaks + "2026-01-01/pulls-after:p/oil.temp: no limit, current\n"},
		{name: "a head that `paths` names and that isn't there", files: pull("rpm,power [kW]\n6000,10\n7000,11\n", `paths = { oil.temp = "T1" }`), values: peaks, findings: "error bad-csv/2026-01-01/data/p.csv"},
		{name: "a misspelt path", files: pull("rpm,power [kW],oil.tmp [°C]\n6000,10,80\n7000,11,90\n", ""), values: peaks, findings: "warning unread-column/2026-01-01/data/p.csv"},
		{name: "heads with dots that mean nothing", files: pull("rpm,power [kW],Mot.Drz\n6000,10,80\n7000,11,90\n", ""), values: peaks},
		{name: "a cell of lambda that is no number", files: pull("rpm,power [kW],lambda\n"+strings.Replace(rows[:52], "0.92", "rich", 1), ""), values: peaks + lambda, findings: "error bad-csv/2026-01-01/data/p.csv\n" + few},
		{name: "a column of lambda that is all wrong leaves the pull alone", files: pull("rpm,power [kW],lambda\n7000,20,a\n7500,21,b\n8000,22,c\n8500,23,d\n8600,23,e\n", ""), values: peaks,
			findings: "error bad-csv/2026-01-01/data/p.csv\n" + numbered("error bad-csv/2026-01-01/data/p.csv", 4)},
		{name: "lambda headed AFR", files: pull("rpm,power [kW],AFR\n7000,20,0.9\n7500,21,0.9\n8000,22,0.9\n8500,23,0.9\n8600,23,0.9\n", ""), values: peaks, findings: "error ratio-for-lambda/2026-01-01/data/p.csv"},
		{name: "nothing that can burn", files: pull("rpm,power [kW],lambda\n7000,20,2\n7500,21,2\n8000,22,2\n8500,23,2\n8600,23,2\n", ""), values: peaks, findings: "warning empty-log/2026-01-01/data/p.csv"},
		{name: "air-fuel ratios of nobody knows what", files: strings.Replace(pull("rpm,power [kW],AFR\n7000,20,12.9\n7500,21,12.9\n", ""), "fuel = \"E10\"\n", "", 1), values: peaks, findings: "warning ratio-unknown/2026-01-01/data/p.csv"},
	})
}

// Of a session whose first file holds no air-fuel ratios it is told all the same that those of the second can't be read, once.
func TestRatiosOfASecondPull(t *testing.T) {
	const rows = "7000,20,12.9\n7500,21,12.9\n"
	r := compile(t, strings.Replace(target, "fuel = \"E10\"\n", "", 1)+"-- data/a.csv --\nrpm,power [kW]\n7000,20\n7500,20.5\n-- data/b.csv --\nrpm,power [kW],AFR\n"+rows+"-- data/c.csv --\nrpm,power [kW],AFR\n7000,20.3,12.8\n7500,21.2,12.9\n"+
		"-- 2026-01-01.md --\n[[pulls]]\ndata = [\"data/a.csv\", \"data/b.csv\", \"data/c.csv\"]\n", "")
	if got, want := findings(r), "warning ratio-unknown/2026-01-01/data/b.csv\n"; got != want {
		t.Errorf("findings:\n%s, want\n%s", got, want)
	}
}

// Without a target nobody asks for the mixture, and a column of ratios that can't be read is a column among others.
func TestPullsWithoutATarget(t *testing.T) {
	r := compile(t, "-- data/p.csv --\nrpm,power [kW],AFR\n6000,10,12.9\n7000,11,12.9\n-- 2026-01-01.md --\n[[pulls]]\ndata = \"data/p.csv\"\n", "")
	if got := findings(r); got != "" {
		t.Errorf("findings:\n%s", got)
	}
}
