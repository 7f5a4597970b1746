package parse

import (
	"math"
	"strings"
	"testing"
)

// Sizes and pitches in mm, inches exact by definition; coarse pitches as FED-STD-H28/21B, table XXI.1, and AC 43.13-1B, table 7-1, print them.
func TestThreadsAreRead(t *testing.T) {
	for text, want := range map[string]struct {
		form    ThreadForm
		d, p    float64
		isUsual bool
	}{
		"M9x1.25":        {MetricThread, 9, 1.25, true},
		"M7x1.0":         {MetricThread, 7, 1, true},
		"M8":             {MetricThread, 8, 1.25, true},
		"m10":            {MetricThread, 10, 1.5, true},
		"M10 x 1.25":     {MetricThread, 10, 1.25, true},
		"M10×1":          {MetricThread, 10, 1, true},
		"M12x1.25-6g":    {MetricThread, 12, 1.25, true},
		"M8 × 1 - 5g6g":  {MetricThread, 8, 1, true},
		"M10x1.25 LH":    {MetricThread, 10, 1.25, true},
		"M14":            {MetricThread, 14, 2, true},
		"M6x1.25":        {MetricThread, 6, 1.25, false},
		"M9x2":           {MetricThread, 9, 2, false},
		"1-8 UNC":        {UnifiedThread, 25.4, 25.4 / 8, true},
		"1-12 UNF":       {UnifiedThread, 25.4, 25.4 / 12, true},
		"1/4-20 UNC":     {UnifiedThread, 6.35, 25.4 / 20, true},
		"1/4-20":         {UnifiedThread, 6.35, 25.4 / 20, true},
		"1/4 UNC":        {UnifiedThread, 6.35, 25.4 / 20, true},
		"1/4\"-28 UNF":   {UnifiedThread, 6.35, 25.4 / 28, true},
		"3/8-24 UNF-2A":  {UnifiedThread, 9.525, 25.4 / 24, true},
		"#10-32":         {UnifiedThread, 4.826, 25.4 / 32, true},
		"10-32":          {UnifiedThread, 4.826, 25.4 / 32, true},
		"No. 10-24 UNC":  {UnifiedThread, 4.826, 25.4 / 24, true},
		"#8-36":          {UnifiedThread, 4.1656, 25.4 / 36, true},
		"1 1/8-7 UNC":    {UnifiedThread, 28.575, 25.4 / 7, true},
		".250-20":        {UnifiedThread, 6.35, 25.4 / 20, true},
		"1/4-24":         {UnifiedThread, 6.35, 25.4 / 24, false},
		"1/4 BSW":        {OtherThread, 0, 0, true},
		"5/16 Whitworth": {OtherThread, 0, 0, true},
		"1/4-26 BSC":     {OtherThread, 0, 0, true},
		"G 1/4":          {OtherThread, 0, 0, true},
		"1/8 NPT":        {OtherThread, 0, 0, true},
		"MJ6x1":          {OtherThread, 0, 0, true},
		"Tr 10x2":        {OtherThread, 0, 0, true},
		"2 BA":           {OtherThread, 0, 0, true},
	} {
		got, slip := ParseThread(text)
		if slip != nil {
			t.Errorf("%s: %s: %s", text, slip.Kind, slip.Message)
			continue
		}
		if got.Form != want.form || math.Abs(got.Diameter*1000-want.d) > 1e-9 || math.Abs(got.Pitch*1000-want.p) > 1e-9 || (got.Uncommon == "") != want.isUsual || (got.Why != "") != (want.form == OtherThread) {
			t.Errorf("%s: %+v", text, got)
		}
	}
}

// The older coarse series, from memory: it is uncommon, and nothing is offered in its place. A digit more or less is no pitch.
func TestOlderCoarsePitchesAreNoSlips(t *testing.T) {
	for text, isOld := range map[string]bool{"M3x0.6": true, "M4x0.75": true, "M5x0.9": true, "M5x0.75": false, "M4x0.9": false, "M6x0.9": false} {
		got, slip := ParseThread(text)
		if slip != nil || got.Uncommon == "" || strings.Contains(got.Uncommon, "older") != isOld || isOld && (got.Unheard || len(got.Offers) > 0) {
			t.Errorf("%s: %+v, %v", text, got, slip)
		}
	}
}

func TestThreadsThatThereAreNot(t *testing.T) {
	for text, want := range map[string]string{ // slip, and what is offered
		"M9x7":        "bad-thread M9x1.25, M9x1, M9x0.75",
		"M8x20":       "bad-thread M8x1.25, M8x1, M8x0.75",
		"M1.25x10":    "bad-thread M10x1.25",
		"M8x1.25x30":  "bad-thread M8x1.25",
		"M10 x 1,25":  "decimal-comma M10x1.25",
		"M2,5":        "decimal-comma M2.5",
		"M10-1.25":    "bad-thread M10x1.25",
		"M15":         "bad-thread M15x1.5, M15x1",
		"M0":          "bad-thread ",
		"M8x0":        "bad-thread M8x1.25, M8x1, M8x0.75",
		"10x1.25":     "bad-thread M10x1.25",
		"8":           "bad-thread M8",
		"8 mm":        "bad-thread M8",
		"N8x1.25":     "bad-thread ",
		"M8x":         "bad-thread ",
		"M":           "bad-thread ",
		"1/4":         "bad-thread ",
		"1/0-20":      "bad-thread ",
		"1/4-28 UNC":  "bad-thread 1/4-20 UNC, 1/4-28 UNF",
		"#10-24 UNF":  "bad-thread #10-32 UNF, #10-24 UNC",
		"1/4-2":       "bad-thread ",
		"coarse":      "bad-thread ",
		"M9999999x1":  "bad-thread ",
		"M8x1.25 8.8": "bad-thread ",
	} {
		got, slip := ParseThread(text)
		if slip == nil {
			t.Errorf("%s is taken for %+v", text, got)
			continue
		}
		if said := slip.Kind + " " + strings.Join(slip.Offers, ", "); said != want {
			t.Errorf("%s: %s, want %s", text, said, want)
		}
		for _, offer := range slip.Offers {
			if _, again := ParseThread(offer); again != nil {
				t.Errorf("%s: the offer %s is none: %s", text, offer, again.Message)
			}
		}
	}
}

func TestClassesAreRead(t *testing.T) {
	for text, want := range map[string]string{
		"8.8": "8.8", "10.9": "10.9", "12.9": "12.9", "class 10.9": "10.9", "cl. 8.8": "8.8", "12.9U": "12.9",
		"8,8": "decimal-comma 8.8", "109": "bad-class 10.9", "88": "bad-class 8.8", "8.9": "bad-class 8.8", "10.90": "?", "11.9": "bad-class ", "10.8": "bad-class 10.9", "5.7": "bad-class 5.6, 5.8",
		"A2-70": "?", "A4-80": "?", "grade 8": "?", "SAE 5": "?", "8": "?", "10": "?", "titanium": "?", "Grade 5": "?", "18-8": "?",
	} {
		got, slip := ParseClass(text)
		said := got.Label
		switch {
		case slip != nil:
			said = slip.Kind + " " + strings.Join(slip.Offers, ", ")
		case got.Label == "" && got.Why != "":
			said = "?"
		}
		if said != want {
			t.Errorf("%s: %s, want %s", text, said, want)
		}
	}
}

func FuzzThreadsAndClasses(f *testing.F) {
	for _, text := range []string{"M8x1.25", "M10 x 1,25", "1 1/8-7 UNC", "#10-32", "8.8", "A2-70", "1/0", ".999-99", "M300x90"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		thread, slip := ParseThread(text)
		if slip == nil && thread.Form != OtherThread && !(thread.Pitch > 0 && thread.Diameter > thread.Pitch) {
			t.Errorf("%q: %+v", text, thread)
		}
		ParseClass(text)
	})
}
