package parse

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// ThreadForm is the profile of a thread.
type ThreadForm uint8

// The forms of threads.
const (
	OtherThread   ThreadForm = iota // named, and not reckoned with here
	MetricThread                    // ISO 68-1
	UnifiedThread                   // UNC, UNF and their like
)

// Thread is a thread as a limit names it.
type Thread struct {
	Form     ThreadForm
	Diameter float64  // nominal, in m; 0 of another form
	Pitch    float64  // in m; 0 of another form
	Why      string   // why nothing is reckoned from another form
	Uncommon string   // what is uncommon about its pitch, in words that go on from its text; empty for one of the usual table
	Unheard  bool     // no table that is known here has it for that size, nor do fine threads have it
	Offers   []string // then, those that may have been meant
}

// ParseThread reads a thread: `M9x1.25`, `M8` for the coarse pitch, `1/4-20 UNC`, `#10-32`. One of another form that it knows by name (Whitworth, cycle, pipe …)
// is none that can be reckoned with, and says why; what can't be a thread gives a slip.
func ParseThread(text string) (Thread, *quantity.Slip) {
	words := strings.Join(strings.Fields(text), " ")
	if word := otherForm().FindString(words); word != "" {
		return Thread{Why: fmt.Sprintf("a thread of that form, `%s`, is not known how to reckon with here", word)}, nil
	}
	if m := metricThread().FindStringSubmatch(words); m != nil {
		return metric(text, m)
	}
	if m := unifiedThread().FindStringSubmatch(words); m != nil {
		return unified(text, m)
	}
	slip := threadSlip(text, fmt.Sprintf("`%s` is not a thread", text))
	slip.Do = "write it as `M8x1.25`, `M8` for the coarse pitch, or `1/4-20 UNC`; one of another form by its name, as in `1/4 BSW`"
	switch bare := bareThread().FindStringSubmatch(words); {
	case bare != nil && bare[2] != "":
		slip.Offers = usualMetric(pointed(bare[1]), pointed(bare[2]))
	case bare != nil:
		slip.Offers = usualMetric(pointed(bare[1]), "")
	}
	return Thread{}, slip
}

var (
	metricThread  = late(`^[Mm] ?(\d{1,3}(?:[.,]\d{1,3})?)(?: ?([x×X*-]) ?(\d{1,3}(?:[.,]\d{1,4})?)(?: ?([x×X*]) ?(\d{1,3}(?:[.,]\d)?))?)? ?(?:mm)?(?: ?-? ?(?:[3-9][a-hA-H](?:[3-9][a-hA-H])?))?(?: ?-? ?(?:LH|lh|RH|rh))?$`)
	unifiedThread = late(`^(?:(#|No\.? ?|no\.? ?)?(\d{1,2})|(?:(\d) )?(\d{1,2})/(\d{1,2}) ?"?|(\d?\.\d{2,4}) ?"?) ?(?:-? ?(\d{1,2})(?: ?tpi| ?TPI)?)? ?-? ?(UNC|UNF|UNEF|UNS|UNR|UN|unc|unf|unef|uns|un)?(?: ?-? ?[123][ABab])?(?: ?-? ?(?:LH|lh))?$`)
	bareThread    = late(`^(\d{1,2}(?:[.,]\d{1,2})?)(?: ?mm)?(?: ?[x×X*] ?(\d(?:[.,]\d{1,3})?)(?: ?mm)?)?$`)
	otherForm     = late(`(?i)\b(BSW|BSF|BSC|CEI|cycle|whitworth|BSPP?|BSPT|NPTF?|NPSM?|BA|MJ|Tr|Rc|Rp|UNJC|UNJF|trapezoidal|ACME|self.tapping|tapping|wood|Pg|Vg|FG|BC)\b|\b[GRW] ?\d|MJ ?\d|Tr ?\d`)
)

// pointed puts a point in the place of a decimal comma.
func pointed(number string) string { return strings.Replace(number, ",", ".", 1) }

// threadSlip is a slip over the whole of a thread's text.
func threadSlip(text, message string, offers ...string) *quantity.Slip {
	return &quantity.Slip{Kind: "bad-thread", End: len(text), Message: message, Offers: offers}
}

// usualMetric returns the name of a metric thread of the usual table; nothing for another. Without a pitch it is the coarse one.
func usualMetric(size, pitch string) []string {
	p, err := strconv.ParseFloat(pitch, 64)
	switch {
	case pitch == "" && len(metricPitches[size]) > 0 && !slices.Contains(fineOnly, size):
		return []string{"M" + size}
	case err == nil && slices.Contains(metricPitches[size], p):
		return []string{joinThread(size, pitch)}
	}
	return nil
}

// metric reads a metric thread: its size, what stands between, its pitch, and the length that may have got in.
func metric(text string, m []string) (Thread, *quantity.Slip) {
	size, pitch := pointed(m[1]), pointed(m[3])
	if strings.ContainsRune(text, ',') {
		slip := threadSlip(text, fmt.Sprintf("`%s` has a decimal comma", text))
		slip.Kind, slip.Do = "decimal-comma", "write a decimal point"
		if offer := joinThread(size, pitch); metricThread().MatchString(offer) {
			if _, again := metric(offer, metricThread().FindStringSubmatch(offer)); again == nil {
				slip.Offers = []string{offer}
			}
		}
		return Thread{}, slip
	}
	d, _ := strconv.ParseFloat(size, 64) // the expression lets only numbers through
	if !(d >= 0.5) || d > 300 {
		return Thread{}, threadSlip(text, fmt.Sprintf("`%s` is no size of a metric thread", text))
	}
	if pitch == "" {
		return coarseMetric(text, size, d)
	}
	p, _ := strconv.ParseFloat(pitch, 64)
	switch {
	case m[5] != "":
		slip := threadSlip(text, fmt.Sprintf("`%s` holds more than size and pitch", text), usualMetric(size, pitch)...)
		slip.Do = "the length of a bolt is no part of its thread: leave it out"
		return Thread{}, slip
	case m[2] == "-":
		slip := threadSlip(text, fmt.Sprintf("`%s` has a dash where the pitch begins", text), usualMetric(size, pitch)...)
		slip.Do = "write `x` before the pitch: `M8x1.25`"
		return Thread{}, slip
	case !isMetricPitch(d, p):
		slip := threadSlip(text, fmt.Sprintf("there is no thread `%s`: a pitch of %s mm is none for a diameter of %s mm", text, pitch, size))
		slip.Do = "look the pitch up; the length of a bolt is no part of it"
		for _, common := range metricPitches[size] {
			slip.Offers = append(slip.Offers, joinThread(size, trimmed(common)))
		}
		slip.Offers = append(slip.Offers, usualMetric(pitch, size)...)
		return Thread{}, slip
	}
	t := Thread{Form: MetricThread, Diameter: d / 1000, Pitch: p / 1000}
	if common, known := metricPitches[size]; known && !slices.Contains(common, p) {
		t.Uncommon = fmt.Sprintf("is no pitch of ISO 261 for M%s: %s", size, listedPitches(common))
		if p == olderCoarse[size] {
			t.Uncommon += "; an older coarse series had it"
			return t, nil
		}
		if t.Unheard = p > common[0] || !slices.Contains(constantPitches, p); t.Unheard {
			t.Offers = nearPitches(size, pitch, common)
		}
	}
	return t, nil
}

// olderCoarse are the pitches in mm, by size, of a coarse series that went before that of ISO 261, where they differ. From memory.
var olderCoarse = map[string]float64{"3": 0.6, "4": 0.75, "5": 0.9}

// constantPitches are those that fine threads of any size are cut with, in mm: the series of ISO 261 and of the national tables that go further. From memory.
var constantPitches = []float64{0.2, 0.25, 0.35, 0.5, 0.75, 1, 1.25, 1.5, 2, 3, 4, 6, 8}

// nearPitches names the threads of a size whose pitches are nearly as one was typed, those that differ least first.
func nearPitches(size, pitch string, common []float64) []string {
	const most = 2 // letters that differ
	var near []string
	for distance := 1; distance <= most; distance++ {
		for _, p := range common {
			if source.Distance(pitch, trimmed(p)) == distance {
				near = append(near, joinThread(size, trimmed(p)))
			}
		}
	}
	return near
}

// isMetricPitch reports whether a pitch is between the finest that metric threads have and one that would leave a screw without a core. No metric thread is
// coarser than a quarter of its diameter; up to three tenths are let pass as uncommon.
func isMetricPitch(d, p float64) bool { return p >= 0.2 && p <= 0.3*d }

func joinThread(size, pitch string) string {
	if pitch == "" {
		return "M" + size
	}
	return "M" + size + "x" + pitch
}

func trimmed(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

func listedPitches(pitches []float64) string {
	texts := make([]string, len(pitches))
	for i, p := range pitches {
		texts[i] = trimmed(p)
	}
	return strings.Join(texts, ", ") + " mm"
}

// coarseMetric reads a metric thread without a pitch, which means the coarse one where there is one.
func coarseMetric(text, size string, d float64) (Thread, *quantity.Slip) {
	pitches := metricPitches[size]
	if len(pitches) > 0 && !slices.Contains(fineOnly, size) {
		return Thread{Form: MetricThread, Diameter: d / 1000, Pitch: pitches[0] / 1000}, nil
	}
	slip := threadSlip(text, fmt.Sprintf("`%s` has no pitch, and no coarse one is known for that size", text))
	slip.Do = "write the pitch: `M8x1.25`"
	for _, p := range pitches {
		slip.Offers = append(slip.Offers, joinThread(size, trimmed(p)))
	}
	return Thread{}, slip
}

// metricPitches are the pitches of ISO 261 in mm by size, coarse first: those of M4 to M16 that FED-STD-H28/21B, table XXI.1, prints were read in the source, the rest is
// from memory. M14x1.25 is for spark plugs.
var metricPitches = map[string][]float64{
	"1": {0.25, 0.2}, "1.2": {0.25, 0.2}, "1.4": {0.3, 0.2}, "1.6": {0.35, 0.2}, "1.8": {0.35, 0.2}, "2": {0.4, 0.25}, "2.2": {0.45, 0.25}, "2.5": {0.45, 0.35},
	"3": {0.5, 0.35}, "3.5": {0.6, 0.35}, "4": {0.7, 0.5}, "4.5": {0.75, 0.5}, "5": {0.8, 0.5}, "5.5": {0.5}, "6": {1, 0.75}, "7": {1, 0.75},
	"8": {1.25, 1, 0.75}, "9": {1.25, 1, 0.75}, "10": {1.5, 1.25, 1, 0.75}, "11": {1.5, 1, 0.75}, "12": {1.75, 1.5, 1.25, 1}, "14": {2, 1.5, 1.25, 1},
	"15": {1.5, 1}, "16": {2, 1.5, 1}, "17": {1.5, 1}, "18": {2.5, 2, 1.5, 1}, "20": {2.5, 2, 1.5, 1}, "22": {2.5, 2, 1.5, 1}, "24": {3, 2, 1.5, 1},
	"25": {2, 1.5, 1}, "26": {1.5}, "27": {3, 2, 1.5, 1}, "28": {2, 1.5, 1}, "30": {3.5, 3, 2, 1.5, 1}, "32": {2, 1.5}, "33": {3.5, 3, 2, 1.5},
	"35": {1.5}, "36": {4, 3, 2, 1.5}, "38": {1.5}, "39": {4, 3, 2, 1.5}, "40": {3, 2, 1.5}, "42": {4.5, 4, 3, 2, 1.5}, "45": {4.5, 4, 3, 2, 1.5}, "48": {5, 4, 3, 2, 1.5},
}

// fineOnly are the sizes without a coarse pitch.
var fineOnly = []string{"5.5", "15", "17", "25", "26", "28", "32", "35", "38", "40"}

// tooCoarse is the pitch, as a share of the diameter, that no thread reaches.
const tooCoarse = 0.3

// unified reads a unified thread: a number or a fraction of an inch, threads an inch, and the series.
func unified(text string, m []string) (Thread, *quantity.Slip) {
	inches, size := unifiedSize(m)
	if m[1] == "" && m[2] != "" && (m[7] == "" || m[8] == "" && inchThreads[size] == [2]int{}) {
		return Thread{}, notUnified(text, m[2])
	}
	series, usual := strings.ToUpper(m[8]), inchThreads[size]
	threads, _ := strconv.Atoi(m[7])
	if whole, err := strconv.Atoi(m[2]); err == nil && m[1] == "" && threads > 0 && 1/float64(threads) > tooCoarse*inches {
		inches, size = float64(whole), m[2] // `1-8 UNC` is of one inch: the numbered size 1 is far too thin
		usual = inchThreads[size]
	}
	if m[7] == "" {
		threads = map[string]int{"UNC": usual[0], "UNF": usual[1]}[series]
	}
	expected := map[string]int{"UNC": usual[0], "UNF": usual[1]}[series]
	switch {
	case !(inches > 0) || inches > 6:
		return Thread{}, threadSlip(text, fmt.Sprintf("`%s` is no size of a unified thread", text))
	case threads == 0:
		slip := threadSlip(text, fmt.Sprintf("`%s` doesn't say how many threads to the inch", text))
		slip.Do = "write them: `1/4-20 UNC`"
		return Thread{}, slip
	case expected != 0 && expected != threads:
		slip := threadSlip(text, fmt.Sprintf("`%s` contradicts itself: %s of that size has %d threads to the inch, not %d", text, series, expected, threads))
		slip.Do = "mend the number or the series"
		slip.Offers = []string{fmt.Sprintf("%s-%d %s", size, expected, series)}
		if i := slices.Index(usual[:], threads); i >= 0 {
			slip.Offers = append(slip.Offers, fmt.Sprintf("%s-%d %s", size, threads, []string{"UNC", "UNF"}[i]))
		}
		return Thread{}, slip
	case 1/float64(threads) > tooCoarse*inches:
		return Thread{}, threadSlip(text, fmt.Sprintf("there is no thread `%s`: %d to the inch are too coarse for that size", text, threads))
	}
	t := Thread{Form: UnifiedThread, Diameter: inches * 0.0254, Pitch: 0.0254 / float64(threads)}
	if series == "" && usual != [2]int{} && !slices.Contains(usual[:], threads) {
		t.Uncommon = fmt.Sprintf("is neither UNC nor UNF: those of that size have %d and %d threads to the inch", usual[0], usual[1])
	}
	return t, nil
}

// notUnified is the slip of a text that begins with a bare number, which is a metric thread without its M or nothing.
func notUnified(text, number string) *quantity.Slip {
	slip := threadSlip(text, fmt.Sprintf("`%s` is not a thread", text), usualMetric(number, "")...)
	slip.Do = "write it as `M8x1.25`, or `#10-32` for a numbered size"
	return slip
}

// unifiedSize returns the size in inches, and how the tables name it. A numbered size n is 0.060 in + n · 0.013 in (ASME B1.1, from memory).
func unifiedSize(m []string) (inches float64, name string) {
	number := func(text string) float64 {
		x, _ := strconv.ParseFloat(text, 64) // the expression lets only numbers through; none is nought
		return x
	}
	switch {
	case m[2] != "":
		return 0.060 + 0.013*number(m[2]), "#" + m[2]
	case m[5] != "":
		if number(m[5]) == 0 {
			return 0, ""
		}
		inches, name = number(m[3])+number(m[4])/number(m[5]), strings.TrimSpace(m[3]+" "+m[4]+"/"+m[5])
		return inches, name
	}
	inches = number(m[6])
	for n, over := range map[string]float64{"1/4": 0.25, "5/16": 0.3125, "3/8": 0.375, "7/16": 0.4375, "1/2": 0.5, "9/16": 0.5625, "5/8": 0.625, "3/4": 0.75} {
		if math.Abs(inches-over) < 0.0006 {
			return over, n
		}
	}
	return inches, m[6]
}

// inchThreads are threads to the inch by size: UNC and UNF. Those of #8 to 1/2 stand in AC 43.13-1B, table 7-1, read in a reproduction, those of 1/4 to 3/4 in Shigley's table 8-2, read in
// the source; the rest is from memory (ASME B1.1).
var inchThreads = map[string][2]int{
	"#2": {56, 64}, "#3": {48, 56}, "#4": {40, 48}, "#5": {40, 44}, "#6": {32, 40}, "#8": {32, 36}, "#10": {24, 32}, "#12": {24, 28},
	"1/4": {20, 28}, "5/16": {18, 24}, "3/8": {16, 24}, "7/16": {14, 20}, "1/2": {13, 20}, "9/16": {12, 18}, "5/8": {11, 18}, "3/4": {10, 16}, "7/8": {9, 14}, "1": {8, 12},
}

// thread decodes a thread. Its text is kept as typed.
func (d *decoder) thread(f *Field, n *node) bool {
	if !d.text(f, n) {
		return false
	}
	t, slip := ParseThread(n.text)
	if slip != nil {
		d.wordSlip(f, n, slip)
		return false
	}
	if t.Uncommon != "" {
		severity := source.Note
		if t.Unheard {
			severity = source.Warning
		}
		d.report("uncommon-pitch", severity, n.at, f.Key.Name, fmt.Sprintf("`%s` %s", n.text, t.Uncommon), "look it up again; a screw of one pitch ruins a hole of another", writeWords(n.at, t.Offers)...)
	}
	return true
}

// wordSlip reports a text that names nothing, and takes it back.
func (d *decoder) wordSlip(f *Field, n *node, slip *quantity.Slip) {
	f.Texts = f.Texts[:len(f.Texts)-1]
	d.report(slip.Kind, source.Error, n.at, f.Key.Name, slip.Message, slip.Do, writeWords(n.at, slip.Offers)...)
}

// writeWords offers texts in the place of one that names nothing.
func writeWords(at source.Range, offers []string) []source.Fix {
	var fixes []source.Fix
	for _, offer := range offers {
		fixes = append(fixes, source.Replace(fmt.Sprintf("write `%s`", offer), at, strconv.Quote(offer)))
	}
	return fixes
}
