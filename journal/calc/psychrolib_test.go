//go:build psychrolib

package calc_test

import (
	"encoding/json"
	"math"
	"os/exec"
	"path/filepath"
	"testing"

	"example.org/locknut/journal/calc"
)

// sideBySide prints what the library has for a grid of air: temperature, humidity and pressure, and what it makes of them.
const sideBySide = `
const psychrolib = require(process.argv[1])
psychrolib.SetUnitSystem(psychrolib.SI)
const rows = []
for (let t = 2; t <= 45; t += 1)
  for (let humidity = 0.05; humidity <= 1; humidity += 0.19)
    for (let pressure = 80000; pressure <= 105000; pressure += 5000) {
      const vapour = psychrolib.GetVapPresFromRelHum(t, humidity)
      const ratio = psychrolib.GetHumRatioFromVapPres(vapour, pressure)
      rows.push({t, humidity, pressure, saturated: psychrolib.GetSatVapPres(t), vapour, dew: psychrolib.GetTDewPointFromRelHum(t, humidity), density: psychrolib.GetMoistAirDensity(t, ratio, pressure)})
    }
console.log(JSON.stringify(rows))
`

// Vapour, dry pressure, density and dew points are held to psychrolib 1.1.1 of the npm registry, which goes by the ASHRAE Handbook: its equation for vapour is 0.2 in a thousand off
// the one here at most, and its air a perfect gas, 0.5 in a thousand. It is built where
// the package is installed: go test -tags psychrolib ./journal/calc, as .ci/run does.
func TestAirBesidePsychrolib(t *testing.T) {
	folder, err := filepath.Abs("../../.ci/node_modules/psychrolib")
	if err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("node", "-e", sideBySide, folder).Output()
	if err != nil {
		t.Fatalf("node: %v", err)
	}
	var rows []struct{ T, Humidity, Pressure, Saturated, Vapour, Dew, Density float64 }
	if err := json.Unmarshal(out, &rows); err != nil || len(rows) < 1000 {
		t.Fatalf("%d rows (%v)", len(rows), err)
	}
	for _, r := range rows {
		kelvin := r.T + 273.15
		saturated, err := calc.SaturationPressure(kelvin)
		if err != nil {
			t.Fatal(err)
		}
		vapour, _ := calc.VapourPressure(kelvin, r.Humidity)
		dry, _ := calc.DryPressure(r.Pressure, vapour)
		density, _ := calc.AirDensity(r.Pressure, kelvin, vapour)
		for what, c := range map[string][3]float64{
			"saturated vapour": {saturated, r.Saturated, 3e-4}, "vapour": {vapour, r.Vapour, 3e-4}, "dry pressure": {dry, r.Pressure - r.Vapour, 5e-5}, "density": {density, r.Density, 7e-4},
		} {
			if math.Abs(c[0]/c[1]-1) > c[2] {
				t.Errorf("%s of %v °C, %v and %v Pa: %v, beside %v", what, r.T, r.Humidity, r.Pressure, c[0], c[1])
			}
		}
		if at, err := calc.SaturationPressure(r.Dew + 273.15); r.Dew > 1 && (err != nil || math.Abs(at/vapour-1) > 5e-4) {
			t.Errorf("the dew point of %v °C at %v is %v °C, where vapour is %v Pa and not %v", r.T, r.Humidity, r.Dew, at, vapour)
		}
	}
}
