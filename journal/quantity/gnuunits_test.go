package quantity

import (
	"bufio"
	"bytes"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
)

// TestBesideGNUUnits converts the same figures with the program GNU units (2.22 when this was written) and asks for 1e-12. Where the
// program is absent the test is skipped, but fails if CI=true says that it should be there.
func TestBesideGNUUnits(t *testing.T) {
	if out, err := exec.Command("units", "--version").CombinedOutput(); err != nil || !bytes.Contains(out, []byte("GNU Units")) {
		if os.Getenv("CI") == "true" {
			t.Fatal("GNU units is not installed")
		}
		t.Skip("GNU units is not installed")
	}
	// Ours, then the same unit and the SI unit of the dimension as that program spells them.
	const pairs = `nm|nanometer|m
µin|microinch|m
µm|micron|m
thou|mil|m
mm|mm|m
cm|cm|m
in|inch|m
ft|foot|m
yd|yard|m
km|km|m
mi|mile|m
mm²|mm^2|m^2
in²|in^2|m^2
ft²|ft^2|m^2
cm³|cc|m^3
in³|in^3|m^3
ft³|ft^3|m^3
L|liter|m^3
US fl oz|usfloz|m^3
US pt|uspint|m^3
US qt|usquart|m^3
US gal|usgallon|m^3
imp fl oz|brfloz|m^3
imp pt|brpint|m^3
imp qt|brquart|m^3
imp gal|brgallon|m^3
mg|mg|kg
gr|grain|kg
oz avdp|ounce|kg
lb|pound|kg
slug|slug|kg
t|tonne|kg
lb/ft³|lb/ft^3|kg/m^3
g/cm³|g/cm^3|kg/m^3
lb/in³|lb/in^3|kg/m^3
dyn|dyne|N
gf|gram force|N
ozf|ounce force|N
lbf|lbf|N
kgf|kgf|N
kip|1000 lbf|N
mN·m|mN m|N m
ozf·in|ounce force inch|N m
kgf·cm|kgf cm|N m
lbf·in|lbf inch|N m
lbf·ft|lbf foot|N m
kgf·m|kgf m|N m
ft·lbf|foot lbf|J
W·h|watt hour|J
kW·h|kilowatt hour|J
PS|metrichorsepower|W
hp|horsepower|W
hp(E)|electrichorsepower|W
hp(water)|waterhorsepower|W
lbf/in|lbf/inch|N/m
kgf/mm|kgf/mm|N/m
mmH₂O|mmH2O|Pa
hPa|hectopascal|Pa
mbar|millibar|Pa
Torr|torr|Pa
mmHg|mmHg|Pa
inH₂O|inch water|Pa
inHg|inHg|Pa
psi|psi|Pa
kgf/cm²|kgf/cm^2|Pa
bar|bar|Pa
atm|atm|Pa
ksi|1000 psi|Pa
kgf/mm²|kgf/mm^2|Pa
psi abs|psi|Pa
arcmin|arcmin|radian
°|degree|radian
mm·°|mm*degree|m*radian
in·°|inch*degree|m*radian
turn|revolution|radian
min|minute|s
h|hour|s
day|day|s
week|week|s
ft/min|foot/minute|m/s
km/h|km/hour|m/s
mph|mile/hour|m/s
kn|knot|m/s
rpm|revolution/minute|radian/s
krpm|1000 revolution/minute|radian/s
gₙ|gravity|m/s^2
ft/s²|foot/s^2|m/s^2
L/h|liter/hour|m^3/s
cm³/min|cc/minute|m^3/s
L/min|liter/minute|m^3/s
US gal/min|usgallon/minute|m^3/s
imp gal/min|brgallon/minute|m^3/s
ft³/min|foot^3/minute|m^3/s
lb/h|pound/hour|kg/s
kg/h|kg/hour|kg/s
L/100 km|liter/(100 km)|m^2
mpg US|usgallon/mile|m^2
mpg imp|brgallon/mile|m^2
km/L|liter/km|m^2
g/(kW·h)|gram/(kilowatt hour)|kg/J
lb/(hp·h)|pound/(horsepower hour)|kg/J
cSt|centistokes|m^2/s
kΩ|kiloohm|ohm`
	rows := strings.Split(pairs, "\n")
	if len(rows) < 60 {
		t.Fatalf("only %d pairs", len(rows))
	}
	var in bytes.Buffer
	for _, row := range rows {
		part := strings.Split(row, "|")
		in.WriteString(part[1] + "\n" + part[2] + "\n")
	}
	cmd := exec.Command("units", "--terse", "--output-format", "%.17g")
	cmd.Stdin = &in
	cmd.Env = append(os.Environ(), "LC_ALL=C")
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("units: %v\n%s", err, out)
	}
	lines := bufio.NewScanner(bytes.NewReader(out))
	for _, row := range rows {
		part := strings.Split(row, "|")
		if !lines.Scan() {
			t.Fatalf("no answer for %s", row)
		}
		theirs, err := strconv.ParseFloat(strings.TrimSpace(lines.Text()), 64)
		if err != nil {
			t.Fatalf("%s: %q", row, lines.Text())
		}
		u := UnitShown(part[0])
		if u == nil && part[0] == "ft·lbf" {
			u = unitOf(t, Energy, part[0])
		}
		if u == nil {
			t.Errorf("no unit %q", part[0])
			continue
		}
		if ours := u.SI(1); u.Offset == 0 && !within(ours, theirs, 1e-12) {
			t.Errorf("1 %s = %.17g in SI, GNU units says %.17g", part[0], ours, theirs)
		}
	}
}

// TestTemperaturesBesideGNUUnits does the same for temperatures, which that program takes as functions.
func TestTemperaturesBesideGNUUnits(t *testing.T) {
	if out, err := exec.Command("units", "--version").CombinedOutput(); err != nil || !bytes.Contains(out, []byte("GNU Units")) {
		if os.Getenv("CI") == "true" {
			t.Fatal("GNU units is not installed")
		}
		t.Skip("GNU units is not installed")
	}
	for _, r := range [][3]string{{"°F", "tempF(68)", "68"}, {"°F", "tempF(-40)", "-40"}, {"°F", "tempF(285)", "285"}, {"°C", "tempC(19)", "19"}, {"°C", "tempC(-5)", "-5"}} {
		out, err := exec.Command("units", "--terse", "--output-format", "%.17g", r[1], "K").CombinedOutput()
		if err != nil {
			t.Fatalf("units %s: %v\n%s", r[1], err, out)
		}
		theirs, err := strconv.ParseFloat(strings.TrimSpace(string(out)), 64)
		if err != nil {
			t.Fatal(err)
		}
		if ours := resolved(t, r[2]+" "+r[0], Want{}).SI(); !within(ours, theirs, 1e-12) {
			t.Errorf("%s %s = %.17g K, GNU units says %.17g", r[2], r[0], ours, theirs)
		}
	}
}
