package calc_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.org/locknut/journal/calc"
)

// What comes of turning an adjuster, and of fitting a shim, is worked out step by step here: a second way to the same figure.
func TestAdjusterTurnAgainstASecondMethod(t *testing.T) {
	for _, c := range []struct{ lash, nominal, pitch, ratio float64 }{
		{0.13e-3, 0.08e-3, 0.5e-3, 1}, {0.05e-3, 0.12e-3, 0.75e-3, 1.18}, {0.006 * 0.0254, 0.004 * 0.0254, 0.0254 / 26, 1.6},
	} {
		angle, err := calc.AdjusterTurn(c.lash-c.nominal, c.pitch, c.ratio)
		if err != nil {
			t.Fatalf("%+v: %v", c, err)
		}
		lash := c.lash // a thousandth of the turn at a time, the screw moving by its pitch a turn and the valve by the ratio of that
		for range 1000 {
			lash -= angle / 1000 / (2 * math.Pi) * c.pitch * c.ratio
		}
		if math.Abs(lash-c.nominal) > 1e-12 {
			t.Errorf("%+v: turned by %v rad the lash is %v, want %v", c, angle, lash, c.nominal)
		}
	}
}

func TestShimToFitAgainstASecondMethod(t *testing.T) {
	const base = 5e-3 // from the cam to the valve, with no shim and no lash between them
	for _, c := range []struct{ fitted, wanted, stem float64 }{{2.70e-3, 0.15e-3, 2.22e-3}, {2.35e-3, 0.10e-3, 2.45e-3}} {
		measured := base - c.stem - c.fitted
		shim, err := calc.ShimToFit(c.fitted, measured, c.wanted)
		if err != nil {
			t.Fatalf("%+v: %v", c, err)
		}
		if left := base - c.stem - shim; math.Abs(left-c.wanted) > 1e-12 {
			t.Errorf("%+v: a shim of %v leaves %v, want %v", c, shim, left, c.wanted)
		}
	}
}

// What a wrench is set to for a torque, it gives. The lever is measured on a drawing: from the fastener to the middle of the grip, along
// the wrench.
func TestSettingAgainstASecondMethod(t *testing.T) {
	for degrees := 0.0; degrees <= 180; degrees += 7.5 {
		angle := degrees * math.Pi / 180
		const torque, length, adapter = 54.0, 0.3048, 0.1016
		setting, err := calc.Setting(torque, length, adapter, angle)
		if err != nil {
			t.Fatalf("%v°: %v", degrees, err)
		}
		fastenerX := -adapter * math.Cos(angle) // the drive at nought, the grip at +length, the force square to the wrench
		force := setting / length
		if got := force * (length - fastenerX); math.Abs(got-torque) > 1e-9 {
			t.Errorf("%v°: set to %v N·m the fastener gets %v, want %v", degrees, setting, got, torque)
		}
		if got, err := calc.Delivered(setting, length, adapter, angle); err != nil || math.Abs(got-torque) > 1e-9 {
			t.Errorf("%v°: Delivered gives %v, %v, want %v", degrees, got, err, torque)
		}
	}
}

// A cylinder filled slice by slice holds what it sweeps.
func TestSweptVolumeAgainstASecondMethod(t *testing.T) {
	const bore, stroke, slices = 0.053, 0.0564, 200_000
	sum := 0.0
	for i := range slices {
		x := (float64(i)+0.5)/slices*bore - bore/2 // across the bore
		sum += 2 * math.Sqrt(bore*bore/4-x*x) * stroke * bore / slices
	}
	got, err := calc.SweptVolume(bore, stroke)
	if err != nil || math.Abs(got/sum-1) > 1e-6 {
		t.Errorf("got %v, %v, want %v", got, err, sum)
	}
}

func TestSenselessInputsAreRefused(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		function string
		x        []float64
		why      string
	}{
		{"SweptVolume", []float64{0, 0.05}, "the bore must be more than zero"},
		{"SweptVolume", []float64{0.05, -0.05}, "the stroke must be more than zero"},
		{"SweptVolume", []float64{nan, 0.05}, "the bore must be more than zero"},
		{"SweptVolume", []float64{0.05, inf}, "the stroke must be more than zero"},
		{"ClearanceVolume", []float64{0, 1e-5, 0, 0, 0, 0, 0}, "the bore must be more than zero"},
		{"ClearanceVolume", []float64{0.05, 1e-5, 0, 0, 1e-3, 0, 0}, "the bore of the gasket must be more than zero"},
		{"ClearanceVolume", []float64{0.05, 1e-5, 0, 0.05, -1e-3, 0, 0}, "the thickness of the gasket must be more than zero"},
		{"ClearanceVolume", []float64{0.05, 1e-6, 0, 0, 0, 1e-6, 0}, "the clearance volume must be more than zero"},
		{"ClearanceVolume", []float64{0.05, nan, 0, 0, 0, 0, 0}, "the clearance volume must be more than zero"},
		{"ClearanceVolume", []float64{0.05, 1e-5, nan, 0, 0, 0, 0}, "the clearance volume must be more than zero"},
		{"CompressionRatio", []float64{0, 1e-5}, "the swept volume must be more than zero"},
		{"CompressionRatio", []float64{1e-4, 0}, "the clearance volume must be more than zero"},
		{"AdjusterTurn", []float64{1e-5, 0, 1}, "the pitch of the adjuster must be more than zero"},
		{"AdjusterTurn", []float64{1e-5, 5e-4, -1}, "the rocker ratio must be more than zero"},
		{"LashByTurn", []float64{0, 1, 0.25}, "the pitch of the adjuster must be more than zero"},
		{"ShimToFit", []float64{0, 1e-4, 1e-4}, "the thickness of the shim that is in must be more than zero"},
		{"ShimToFit", []float64{1e-4, 0, 2e-4}, "no shim is thin enough"},
		{"ShimToFit", []float64{2e-3, nan, 1e-4}, "no shim is thin enough"},
		{"Setting", []float64{0, 0.3, 0.1, 0}, "the torque must be more than zero"},
		{"Setting", []float64{40, 0, 0.1, 0}, "the length of the wrench must be more than zero"},
		{"Setting", []float64{40, 0.3, -0.1, 0}, "the adapter's length must be zero or more"},
		{"Setting", []float64{40, 0.3, 0.1, nan}, "the adapter's length must be zero or more"},
		{"Delivered", []float64{-40, 0.3, 0.1, 0}, "the setting must be more than zero"},
		{"Delivered", []float64{40, 0.18, 0.18, math.Pi}, "the adapter reaches back past the hand, where the wrench has no leverage"},
		{"Delivered", []float64{40, 0.18, 0.20, math.Pi}, "the adapter reaches back past the hand, where the wrench has no leverage"},
	} {
		got, err := functions[c.function].call(c.x)
		var refusal calc.Refusal
		if !errors.As(err, &refusal) || refusal.Error() != c.why {
			t.Errorf("%s(%v): got %v, %v, want the refusal %q", c.function, c.x, got, err, c.why)
		}
		if err != nil && got != 0 {
			t.Errorf("%s(%v): a figure, %v, beside the refusal", c.function, c.x, got)
		}
	}
}

// Four cylinders of 68 by 75 mm: 1089.5 cm³ (companion to Mathur & Sharma, Internal Combustion Engine, example 1.1; read in the source).
func ExampleSweptVolume() {
	one, err := calc.SweptVolume(0.068, 0.075)
	fmt.Printf("%.1f cm³ %v\n", 4*one*1e6, err)
	// Output: 1089.5 cm³ <nil>
}

// 200 by 450 mm with 2 L above the piston: 8.07 (companion to Agrawal & Agrawal, Basic Mechanical Engineering, example 7; read in the
// source).
func ExampleCompressionRatio() {
	swept, _ := calc.SweptVolume(0.200, 0.450)
	ratio, err := calc.CompressionRatio(swept, 0.002)
	fmt.Printf("%.2f %v\n", ratio, err)
	// Output: 8.07 <nil>
}

// A 53 mm bore with 12.6 cm³ in the head and a piston that stops 0.4 mm short of the deck (recomputed from the definition).
func ExampleClearanceVolume() {
	volume, err := calc.ClearanceVolume(0.053, 12.6e-6, 0.0004, 0, 0, 0, 0)
	fmt.Printf("%.3f cm³ %v\n", volume*1e6, err)
	// Output: 13.482 cm³ <nil>
}

// An eighth of a turn of a screw of 26 threads to the inch moves 0.0048 in (workshop note, read in a reproduction, which rounds to
// 0.005; recomputed).
func ExampleAdjusterTurn() {
	angle, err := calc.AdjusterTurn(0.0254/26/8, 0.0254/26, 1)
	fmt.Printf("%.3f turn %v\n", angle/(2*math.Pi), err)
	// Output: 0.125 turn <nil>
}

// A 2.70 mm shim gives 0.08 mm where 0.15 is wanted (rule of a commercial motorcycle workshop manual, read in a reproduction; figures
// recomputed).
func ExampleShimToFit() {
	shim, err := calc.ShimToFit(2.70e-3, 0.08e-3, 0.15e-3)
	fmt.Printf("%.2f mm %v\n", shim*1e3, err)
	// Output: 2.63 mm <nil>
}

// A wrench of 12 in set to 60 lbf·in gives 70 through an adapter of 2 in (US Army TM 9-254, 4-5; read in the source).
func ExampleDelivered() {
	const inch, pound = 0.0254, 0.45359237 * 9.80665
	torque, err := calc.Delivered(60*pound*inch, 12*inch, 2*inch, 0)
	fmt.Printf("%.1f lbf·in %v\n", torque/(pound*inch), err)
	// Output: 70.0 lbf·in <nil>
}

// For 40 lbf·ft through an adapter of 4 in a wrench of 12 in is set to 30 (US Army TM 9-2350-277-40&P, WP 0004; read in the source).
func ExampleSetting() {
	const inch, pound = 0.0254, 0.45359237 * 9.80665
	setting, err := calc.Setting(40*pound*12*inch, 12*inch, 4*inch, 0)
	fmt.Printf("%.1f lbf·ft %v\n", setting/(pound*12*inch), err)
	// Output: 30.0 lbf·ft <nil>
}
