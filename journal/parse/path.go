package parse

import (
	"math"
	"strconv"
	"strings"

	"example.org/locknut/journal/quantity"
)

// Pattern is one row of the path table: a path that means something, what its values are, and what they feed. Segments are a
// word, words to choose from in brackets, CYL (a cylinder), NAME (any one name), or … (any further names).
type Pattern struct {
	Path       string
	Dimensions []quantity.Dimension // what a value there may be; empty: any
	Unit       string               // the unit of a bare number; empty: a bare number needs one
	Words      bool                 // the value is words
	Ratio      bool                 // `A/B` is a ratio
	SupplyHeld bool                 // `A/B` is the pressure supplied and held: percent lost
	Floor      quantity.Floor       // the least that a value there can be
	Most       float64              // the most that it can be, in SI; 0: anything
	Centre     quantity.Centre      // the dead centre that it is counted from
	TyreCode   bool                 // the size code of a tyre will do for the figure
	Feeds      bool                 // it is read for the number that comes from it, and needs no limit of its own
	Apart      bool                 // no number comes from it, though some do from what stands beside it, and it needs no limit of its own either: it is held to a target
	Feeders    []string             // last segments of which that is so, where it isn't of all
	From       string               // of a worked-out number: above what it is worked out from, by the same segments below; empty: by others
	Doc        string               // one clause

	segments []segment
}

type segment struct {
	words []string // choices; nil for a name
	kind  byte     // 'w' word, 'c' cylinder, 'n' name, 'r' the rest
}

// halfTurn is from one dead centre to the other, in rad: an event is counted from the nearer one.
const halfTurn = math.Pi

// Paths is the path table: the paths that mean something, most telling first. Every other path is free.
var Paths = compilePatterns([]Pattern{
	{Path: "lash.(intake|exhaust).CYL.NAME", Dimensions: dims(quantity.Length), Floor: quantity.ZeroFloor, Doc: "valve lash: adjuster turn, shim to fit, trend"},
	{Path: "shim.(intake|exhaust).CYL.NAME", Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Doc: "thickness of the shim that is in"},
	{Path: "cam.(intake|exhaust).(opens|closes|centre)", Dimensions: dims(quantity.Angle), Most: halfTurn, Centre: quantity.EitherCentre, Doc: "cam timing in crank degrees from a dead centre"},
	{Path: "cam.(intake|exhaust).(lift|at)", Dimensions: dims(quantity.Length), Floor: quantity.ZeroFloor, Doc: "cam lift, and the lift at which its events were taken"},
	{Path: "cam.(intake|exhaust).area", Dimensions: dims(quantity.LiftArea), Floor: quantity.OverZero, Doc: "area under the cam's lift from where the valve opens to where it closes"},
	{Path: "timing.marks", Words: true, Doc: "timing marks: aligned, or how they stand"},
	{Path: "timing.stop.(before|after)", Dimensions: dims(quantity.Angle), Feeds: true, Doc: "what the wheel shows where a stop halts the piston before, and after, top dead centre"},
	{Path: "port.(exhaust|transfer|intake).(opens|closes)", Dimensions: dims(quantity.Angle), Most: halfTurn, Centre: quantity.EitherCentre, Feeds: true, Doc: "two-stroke port timing from a dead centre"},
	{Path: "port.(exhaust|transfer|intake).height", Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Feeds: true, Doc: "height of a two-stroke port"},
	{Path: "ignition.timing", Dimensions: dims(quantity.Angle, quantity.Length), Most: halfTurn / 2, Centre: quantity.TopCentre, Doc: "ignition timing, in degrees or millimetres from top dead centre"},
	{Path: "torque.NAME", Dimensions: dims(quantity.Torque, quantity.Angle), Floor: quantity.ZeroFloor, Doc: "tightening torque of a fastener: preload, wrench setting"},
	{Path: "setting.NAME", Dimensions: dims(quantity.Torque), Floor: quantity.ZeroFloor, Doc: "what the wrench was set to, with an adapter"},
	{Path: "compression.CYL", Dimensions: dims(quantity.Pressure), Floor: quantity.ZeroFloor, Doc: "cranking pressure: spread, expected"},
	{Path: "leak.CYL", Dimensions: dims(quantity.Pure), SupplyHeld: true, Floor: quantity.ZeroFloor, Doc: "leak-down: percent lost, or pressure supplied over held: 100/94, 700/650 kPa"},
	{Path: "bore.CYL.…", Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Doc: "bore by depth and direction: taper, out-of-round, clearance"},
	{Path: "piston.…", Dimensions: dims(quantity.Length, quantity.Mass), Floor: quantity.OverZero, Doc: "piston sizes: clearance"},
	{Path: "journal.…", Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Doc: "shaft journals: clearance"},
	{Path: "bearing.…", Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Doc: "bearing bores: clearance"},
	{Path: "pin.…", Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Doc: "gudgeon and crank pins: clearance"},
	{Path: "gap.ring.CYL.NAME", Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Doc: "piston ring end gap"},
	{Path: "gap.plug.CYL", Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Doc: "spark plug gap"},
	{Path: "clearance.…", Dimensions: dims(quantity.Length), Doc: "clearances"},
	{Path: "float.…", Dimensions: dims(quantity.Length), Floor: quantity.ZeroFloor, Doc: "end float"},
	{Path: "squish.…", Dimensions: dims(quantity.Length), Floor: quantity.ZeroFloor, Doc: "squish: piston to head"},
	{Path: "spring.…", Dimensions: dims(quantity.Length, quantity.Force, quantity.SpringRate, quantity.Mass), Floor: quantity.OverZero, Feeders: []string{"length", "installed", "solid"}, Doc: "springs: free length, load, rate"},
	{Path: "chain.length", Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Feeds: true, Doc: "length of the chain, pulled taut, over chain.links: elongation"},
	{Path: "chain.links", Dimensions: dims(quantity.Links), Unit: "links", Floor: quantity.OverZero, Feeds: true, Doc: "how many links chain.length was measured over"},
	{Path: "chain.…", Doc: "chains: slack, wear"},
	{Path: "air.pressure", Dimensions: dims(quantity.PressureAbs), Feeds: true, Doc: "pressure of the air at the place: cranking pressure to expect"},
	{Path: "tyre.pressure.…", Dimensions: dims(quantity.Pressure), Floor: quantity.ZeroFloor, Doc: "tyre pressures, cold"},
	{Path: "oil.change", Dimensions: dims(quantity.Volume), Floor: quantity.ZeroFloor, Doc: "oil put in at a change"},
	{Path: "oil.level", Doc: "oil level"},
	{Path: "oil.pressure", Dimensions: dims(quantity.Pressure), Floor: quantity.ZeroFloor, Doc: "oil pressure"},
	{Path: "oil.temp", Dimensions: dims(quantity.Temperature), Doc: "oil temperature"},
	{Path: "coolant.…", Doc: "coolant"},
	{Path: "jet.…", Doc: "carburettor jets and needles"},
	{Path: "map.…", Doc: "fuelling and ignition maps"},
	{Path: "fuelling.lambda", Dimensions: dims(quantity.Lambda), Floor: quantity.OverZero, Apart: true, Doc: "mean lambda of a log"},
	{Path: "fuelling.(leanest|richest)", Dimensions: dims(quantity.Lambda), Apart: true, Doc: "mean lambda of the square of a log that stands furthest above, or below, its target: how far"},
	{Path: "fuelling.seen", Dimensions: dims(quantity.Pure), Floor: quantity.ZeroFloor, Apart: true, Doc: "share of the target's squares that a log was in for long enough"},
	{Path: "power.peak", Dimensions: dims(quantity.Power), Floor: quantity.ZeroFloor, Doc: "peak power, read off a screen"},
	{Path: "power.torque", Dimensions: dims(quantity.Torque), Floor: quantity.ZeroFloor, Doc: "peak torque, read off a screen"},
	{Path: "power.lambda", Dimensions: dims(quantity.Lambda), Floor: quantity.OverZero, Apart: true, Doc: "mean lambda of the pulls of a session"},
})

// Worked is the table of the paths that worked-out numbers stand at. They are never read, and never stand below a reading.
var Worked = compilePatterns([]Pattern{
	{Path: "deviation.…", From: "lash", Dimensions: dims(quantity.Length), Doc: "how far a lash stands from nominal"},
	{Path: "adjust.…", From: "lash", Dimensions: dims(quantity.Angle), Doc: "how far to turn a valve adjuster"},
	{Path: "shim-to-fit.…", From: "lash", Dimensions: dims(quantity.Length), Doc: "the shim that brings the lash to nominal"},
	{Path: "gain.…", Dimensions: dims(quantity.Power), Doc: "gain in power"},
	{Path: "torque-gain.…", Dimensions: dims(quantity.Torque), Doc: "gain in torque"},
	{Path: "claim.power.…", Dimensions: dims(quantity.Power), Doc: "what a part gave in power where that was claimed"},
	{Path: "claim.torque.…", Dimensions: dims(quantity.Torque), Doc: "what a part gave in torque where that was claimed"},
	{Path: "air.dry.…", Dimensions: dims(quantity.PressureAbs), Doc: "pressure of the air of a session, without its water vapour"},
	{Path: "air.density.…", Dimensions: dims(quantity.Density), Doc: "density of the air of a session"},
	{Path: "air.density-altitude.…", Dimensions: dims(quantity.Length), Doc: "height at which the standard atmosphere is as thin"},
	{Path: "correction.…", Dimensions: dims(quantity.Pure), Doc: "what the power of a session is multiplied by to be compared"},
	{Path: "corrected.power.…", Dimensions: dims(quantity.Power), Doc: "peak power of a session as it is compared"},
	{Path: "corrected.torque.…", Dimensions: dims(quantity.Torque), Doc: "peak torque of a session as it is compared"},
	{Path: "cam.(intake|exhaust).duration", Dimensions: dims(quantity.Angle), Doc: "how long a valve is open, in crank degrees"},
	{Path: "cam.(intake|exhaust).lobe-centre", Dimensions: dims(quantity.Angle), Doc: "middle of a valve's opening, by its events"},
	{Path: "cam.(intake|exhaust).valve-lift", Dimensions: dims(quantity.Length), Doc: "lift left at the valves of a side"},
	{Path: "cam.(intake|exhaust).valve-lift.…", Dimensions: dims(quantity.Length), Doc: "lift left at the valve"},
	{Path: "cam.separation", Dimensions: dims(quantity.Angle), Doc: "angle between the lobes, in cam degrees"},
	{Path: "cam.advance", Dimensions: dims(quantity.Angle), Doc: "how far the camshaft stands ahead, in crank degrees"},
	{Path: "cam.overlap", Dimensions: dims(quantity.Angle), Doc: "how long both valves are open, in crank degrees"},
	{Path: "cam.tooth", Dimensions: dims(quantity.Angle), Doc: "crank degrees for a tooth of the cam sprocket"},
	{Path: "timing.dead-centre", Dimensions: dims(quantity.Angle), Doc: "what the wheel shows at top dead centre, by a stop"},
	{Path: "margin.(coil-bind|retainer).…", Dimensions: dims(quantity.Length), Doc: "what is left at full lift before a spring is solid, or its retainer touches"},
	{Path: "port.(exhaust|transfer|intake).duration", Dimensions: dims(quantity.Angle), Doc: "how long a two-stroke port is open"},
	{Path: "port.(exhaust|transfer|intake).edge", Dimensions: dims(quantity.Length), Doc: "height of a two-stroke port by its timing"},
	{Path: "port.blowdown", Dimensions: dims(quantity.Angle), Doc: "how long the exhaust port is open before the transfers"},
	{Path: "ignition.degrees", Dimensions: dims(quantity.Angle), Doc: "ignition timing in degrees, of one in millimetres"},
	{Path: "ignition.height", Dimensions: dims(quantity.Length), Doc: "ignition timing as the piston's height, of one in degrees"},
	{Path: "preload.…", From: "torque", Dimensions: dims(quantity.Force), Doc: "pull that a torque put into a fastener"},
	{Path: "proof-share.…", From: "torque", Dimensions: dims(quantity.Pure), Doc: "that pull as a share of the bolt's proof load"},
	{Path: "thread-share.…", From: "torque", Dimensions: dims(quantity.Pure), Doc: "that pull as a share of what the thread bears before it strips"},
	{Path: "wrench-setting.…", From: "torque", Dimensions: dims(quantity.Torque), Doc: "what to set the wrench to, through an adapter or above a running torque"},
	{Path: "engine.displacement", Dimensions: dims(quantity.Volume), Doc: "swept volume of the whole engine"},
	{Path: "engine.compression-ratio", Dimensions: dims(quantity.Pure), Doc: "static compression ratio"},
	{Path: "engine.trapped-compression", Dimensions: dims(quantity.Pure), Doc: "compression ratio from where the intake, or the exhaust port, closes"},
	{Path: "engine.squish", Dimensions: dims(quantity.Length), Doc: "gap between crown and head"},
	{Path: "engine.rod-ratio", Dimensions: dims(quantity.Pure), Doc: "rod over stroke"},
	{Path: "engine.piston-speed.(mean|peak)", Dimensions: dims(quantity.Speed), Doc: "piston speed at the redline"},
	{Path: "engine.piston-acceleration", Dimensions: dims(quantity.Acceleration), Doc: "greatest acceleration of a piston at the redline"},
	{Path: "engine.cranking-pressure", Dimensions: dims(quantity.Pressure), Doc: "what a compression gauge may show"},
	{Path: "displacement.…", From: "bore", Dimensions: dims(quantity.Volume), Doc: "swept volume of one cylinder, from its measured bore"},
	{Path: "curtain.(intake|exhaust)", Dimensions: dims(quantity.Area), Doc: "area between the valves of a side and their seats at full lift"},
	{Path: "curtain.(intake|exhaust).…", Dimensions: dims(quantity.Area), Doc: "area between a valve and its seat at full lift"},
	{Path: "curtain-lift.(intake|exhaust)", Dimensions: dims(quantity.Length), Doc: "lift from which on a valve's hole is the narrower"},
	{Path: "spread.compression", Dimensions: dims(quantity.Pure), Doc: "weakest cylinder over the strongest"},
	{Path: "taper.…", From: "bore", Dimensions: dims(quantity.Length), Doc: "how far a bore widens along its axis"},
	{Path: "out-of-round.…", From: "bore", Dimensions: dims(quantity.Length), Doc: "how far a bore is from round"},
	{Path: "ring-share.…", From: "gap.ring", Dimensions: dims(quantity.Pure), Doc: "end gap of a ring as a share of its bore"},
	{Path: "spring-rate.…", From: "spring", Dimensions: dims(quantity.SpringRate), Doc: "rate of a spring between two loads"},
	{Path: "load-loss.…", From: "spring", Dimensions: dims(quantity.Pure), Doc: "how much less a spring carries than it did new"},
	{Path: "chain.elongation", From: "chain.length", Dimensions: dims(quantity.Pure), Doc: "how much longer the chain is than when it was new"},
	{Path: "fuel.ratio", Dimensions: dims(quantity.AirFuel), Doc: "mass of air that burns with one of the fuel"},
	{Path: "injector.flow.(now|goal)", Dimensions: dims(quantity.VolumeFlow), Doc: "what each injector must pass while it is open"},
	{Path: "injector.duty.(now|goal)", Dimensions: dims(quantity.Pure), Doc: "share of the time for which the injectors are open at peak power"},
	{Path: "drive.ratio.NAME", Dimensions: dims(quantity.Pure), Doc: "overall ratio of a gear"},
	{Path: "drive.speed.NAME", Dimensions: dims(quantity.Speed), Doc: "road speed of a gear at the redline"},
	{Path: "drive.drop.NAME", Dimensions: dims(quantity.Rotation), Doc: "fall of the engine speed from one gear to the next"},
	{Path: "drive.rpm.NAME", Dimensions: dims(quantity.Rotation), Doc: "engine speed of a gear at drive.cruise"},
	{Path: "drive.circumference", Dimensions: dims(quantity.Length), Doc: "rolling circumference by the tyre's size code"},
})

func compilePatterns(table []Pattern) []Pattern {
	for i := range table {
		for _, s := range strings.Split(table[i].Path, ".") {
			switch {
			case s == "CYL":
				table[i].segments = append(table[i].segments, segment{kind: 'c'})
			case s == "NAME":
				table[i].segments = append(table[i].segments, segment{kind: 'n'})
			case s == "…":
				table[i].segments = append(table[i].segments, segment{kind: 'r'})
			default:
				table[i].segments = append(table[i].segments, segment{kind: 'w', words: strings.Split(strings.Trim(s, "()"), "|")})
			}
		}
	}
	return table
}

func (s segment) fits(word string) bool {
	if s.kind != 'w' {
		return true
	}
	for _, w := range s.words {
		if w == word {
			return true
		}
	}
	return false
}

// FindPattern returns the first row of the path table that a path, or the beginning of a longer one, fits; nil for a free path.
func FindPattern(path string) *Pattern {
	first, _, _ := strings.Cut(path, ".")
	if rows := pathsByFirst[first]; len(rows) > 0 {
		words := strings.Split(path, ".")
		for _, row := range rows {
			if row.fits(words) {
				return row
			}
		}
	}
	return sheetPattern(path)
}

// pathsByFirst are the rows of the path table by their first segment, which is always one word.
var pathsByFirst = func() map[string][]*Pattern {
	rows := map[string][]*Pattern{}
	for i := range Paths {
		first := Paths[i].segments[0].words[0]
		rows[first] = append(rows[first], &Paths[i])
	}
	return rows
}()

func (p *Pattern) fits(words []string) bool {
	for i, w := range words {
		if i >= len(p.segments) {
			return false
		}
		if p.segments[i].kind == 'r' {
			return true
		}
		if !p.segments[i].fits(w) {
			return false
		}
	}
	return true
}

// Cylinders returns how many segments of the path stand before the cylinder's, if the path (or what lies below it) names a
// cylinder in the path table.
func (p *Pattern) Cylinders() (depth int, ok bool) {
	for i, s := range p.segments {
		if s.kind == 'c' {
			return i, true
		}
	}
	return 0, false
}

// sheetPatterns are the rows that the engine and drive keys of the build sheet make: a reading there replaces the sheet.
var sheetPatterns = sheetRows("engine", engineKeys, sheetRows("drive", buildKeys.child("drive").Keys, nil))

func sheetRows(prefix string, keys []Key, rows map[string]*Pattern) map[string]*Pattern {
	if rows == nil {
		rows = map[string]*Pattern{}
	}
	for _, k := range keys {
		path := prefix + "." + k.Name
		switch k.Kind {
		case KindTable:
			sheetRows(path, k.Keys, rows)
		case KindFigure:
			rows[path] = &Pattern{Path: path, Dimensions: k.Dimensions, Unit: k.Unit, Floor: k.Floor, Most: k.Most, Doc: k.Doc}
		case KindRatio:
			rows[path] = &Pattern{Path: path, Dimensions: dims(quantity.Pure), Ratio: true, Floor: k.Floor, Most: k.Most, Doc: k.Doc}
		case KindRatios:
			rows[path+".1"] = &Pattern{Path: path + ".1", Dimensions: dims(quantity.Pure), Ratio: true, Floor: k.Floor, Most: k.Most, Doc: k.Doc}
		case KindTyre:
			rows[path] = &Pattern{Path: path, Dimensions: k.Dimensions, TyreCode: true, Floor: k.Floor, Most: k.Most, Doc: k.Doc}
		}
	}
	return rows
}

// sheetPattern returns the row of a path of the build sheet; that of the first of a list of ratios is the row of them all.
func sheetPattern(path string) *Pattern {
	if row := sheetPatterns[path]; row != nil {
		return row
	}
	above := Above(path)
	if n, err := strconv.Atoi(path[min(len(path), len(above)+1):]); above != "" && err == nil && n > 1 && n < 100 {
		return sheetPatterns[above+".1"]
	}
	return nil
}

// SheetPaths returns the paths of the build sheet that hold values: `engine.bore`, `drive.final` …
func SheetPaths() map[string]*Pattern { return sheetPatterns }

// IsAtOrBelow reports whether a path is the other, or deeper.
func IsAtOrBelow(path, top string) bool {
	return strings.HasPrefix(path, top) && (len(path) == len(top) || path[len(top)] == '.')
}

// Sides are the two sides of the valve gear, as paths name them.
var Sides = [...]string{"intake", "exhaust"}

// LastSegment returns the last segment of a path.
func LastSegment(path string) string { return path[strings.LastIndexByte(path, '.')+1:] }

// Above returns the path above, "" for one of a single segment.
func Above(path string) string {
	if i := strings.LastIndexByte(path, '.'); i >= 0 {
		return path[:i]
	}
	return ""
}

// Fold returns a name as paths and identities spell it: in lower case, `_` as `-`.
func Fold(name string) string {
	folded := strings.ReplaceAll(strings.ToLower(strings.TrimSpace(name)), "_", "-")
	return folded
}

// otherSpellings are segments that others spell otherwise than the path table.
var otherSpellings = map[string]string{"inlet": "intake", "center": "centre", "lobe-center": "lobe-centre", "dead-center": "dead-centre"}

// FoldPath folds each segment of a path; `inlet` becomes `intake`, `center` `centre`.
func FoldPath(path string) string {
	folded := Fold(path)
	if !strings.Contains(folded, "inlet") && !strings.Contains(folded, "center") {
		return folded
	}
	words := strings.Split(folded, ".")
	for i, w := range words {
		words[i] = foldSegment(w)
	}
	return strings.Join(words, ".")
}

func foldSegment(word string) string {
	folded := Fold(word)
	if other := otherSpellings[folded]; other != "" {
		return other
	}
	return folded
}

// SegmentsAt returns the words that the path table has at a place of a path whose other segments fit.
func SegmentsAt(words []string, at int) []string { return segmentsAt(Paths, words, at) }

func segmentsAt(table []Pattern, words []string, at int) []string {
	var found []string
	for i := range table {
		p := &table[i]
		if at >= len(p.segments) || p.segments[at].kind != 'w' {
			continue
		}
		tried := append([]string(nil), words...)
		tried[at] = p.segments[at].words[0]
		if p.fits(tried) {
			found = append(found, p.segments[at].words...)
		}
	}
	return found
}

// FitsNamed reports whether a path fits a row of the path table with each cylinder's segment being the name of one, and at least two
// of its segments being words of the row.
func FitsNamed(words, cylinders []string) bool {
	for i := range Paths {
		p := &Paths[i]
		if !p.fits(words) {
			continue
		}
		named, good := 0, true
		for j, word := range words {
			if j >= len(p.segments) {
				break
			}
			switch p.segments[j].kind {
			case 'w':
				named++
			case 'c':
				if !contains(cylinders, word) {
					good = false
				}
				named++
			}
		}
		if good && named >= 2 {
			return true
		}
	}
	return false
}

func contains(words []string, word string) bool {
	for _, w := range words {
		if w == word {
			return true
		}
	}
	return false
}
