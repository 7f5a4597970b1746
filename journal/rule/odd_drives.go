package rule

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// hexagons are the widths across flats that are usual outside, by size of metric threads, in mm, from the narrowest flanged head to the heavy nut: ISO 272 and what is older, or usual on motorcycles. From memory.
var hexagons = map[float64]quantity.Span{
	3: {Low: 5, High: 6}, 4: {Low: 6, High: 8}, 5: {Low: 7, High: 9}, 6: {Low: 8, High: 11}, 7: {Low: 10, High: 12}, 8: {Low: 10, High: 14}, 9: {Low: 11, High: 16}, 10: {Low: 12, High: 17}, 11: {Low: 14, High: 19}, 12: {Low: 13, High: 22},
	14: {Low: 16, High: 23}, 16: {Low: 18, High: 27}, 18: {Low: 18, High: 30}, 20: {Low: 21, High: 32}, 22: {Low: 22, High: 36}, 24: {Low: 24, High: 41},
}

// beyondHexagon is how much further from what is usual outside a width must be to be doubted; insides are the widths across flats of keys over the diameter of the thread, and usualInsides those of most. Common
// practice, no source.
const beyondHexagon = 1.35

var (
	insides      = quantity.Span{Low: 0.25, High: 1.05}
	usualInsides = quantity.Span{Low: 0.5, High: 0.9}
)

// oddDrives finds spanners and keys that fit no head on a screw of the size, each once where several limits have it from above.
func (c *Context) oddDrives() []*cause {
	var found []*cause
	said := map[source.Range]bool{}
	for _, l := range c.Journal.Limits {
		drive := l.Key("drive")
		if drive.IsZero() || said[drive.At] || c.isLimitUnsure(l) {
			continue
		}
		width, ok := widthOf(drive.Text)
		if !ok {
			continue
		}
		thread, slip := parse.ParseThread(l.Key("thread").Text)
		if slip != nil || thread.Form != parse.MetricThread {
			continue
		}
		if k := oddDrive(l, drive, width, math.Round(thread.Diameter*1e4)/10); k != nil {
			said[drive.At] = true
			found = append(found, k)
		}
	}
	return found
}

// hexWords are those that name what goes on or into a hexagon, and otherWords those of other drives.
var (
	hexWords   = []string{"hex", "spanner", "socket", "wrench", "key", "across", "af"}
	otherWords = []string{"pin", "hook", "square", "lob", "spline", "slot", "c-", "c spanner"}
)

// widthOf reads the width across flats of what fits a fastener, in mm: 14 mm hex, 5 mm hex key. False where it tells none: of a square or a splined drive too.
func widthOf(text string) (float64, bool) {
	number, rest, ok := strings.Cut(strings.ToLower(text), "mm")
	names := func(words []string) bool {
		return slices.ContainsFunc(words, func(word string) bool { return strings.Contains(rest, word) })
	}
	if !ok || strings.TrimSpace(rest) != "" && !names(hexWords) || names(otherWords) {
		return 0, false
	}
	width, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	return width, err == nil && width > 0 && !math.IsInf(width, 0)
}

// oddDrive is what is told of a width that no head on a screw of such a diameter has, both in mm; nil for nothing. One that is called a key may be a spanner, and a hex a key: either will do.
func oddDrive(l *model.Limit, drive parse.Text, width, diameter float64) *cause {
	outside, known := hexagons[diameter]
	if !known || insides.Holds(width/diameter) || width >= outside.Low/beyondHexagon && width <= outside.High*beyondHexagon {
		return nil
	}
	thread := l.Key("thread").Text
	do := "look at its digits again, and at the thread"
	meant := slices.DeleteFunc(otherWidths(width), func(w float64) bool { return !outside.Holds(w) && !usualInsides.Holds(w/diameter) })
	if strings.Contains(drive.Text, "key") {
		meant = slices.DeleteFunc(meant, func(w float64) bool { return !usualInsides.Holds(w / diameter) })
	} else if slices.ContainsFunc(meant, outside.Holds) {
		meant = slices.DeleteFunc(meant, func(w float64) bool { return !outside.Holds(w) })
	}
	if len(meant) == 1 {
		do = fmt.Sprintf("%g mm? %s", meant[0], do)
	}
	return &cause{report: report{source.Finding{Severity: source.Warning, At: drive.At, Subject: l.Path,
		Message: fmt.Sprintf("`%s` fits nothing on %s: heads and nuts are %g to %g mm across flats there, and a key that goes in is no wider than the screw", drive.Text, thread, outside.Low, outside.High),
		Do:      do, Notes: limitNote(l)}, -1}}
}

// otherWidths returns what the digits of a width in mm may have been meant for.
func otherWidths(width float64) []float64 {
	mm := quantity.UnitShown("mm")
	q := quantity.Quantity{Kind: quantity.Figure, Unit: mm, Value: width, Step: 1}
	if width != math.Trunc(width) {
		q.Step = 0.1
	}
	var all []float64
	for _, r := range quantity.Fitting(q.OtherReadings(quantity.OnePlace|quantity.SwappedDigits), func(quantity.Quantity) bool { return true }) {
		all = append(all, r.Value)
	}
	return all
}
