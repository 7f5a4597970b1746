// Package caution knows what the work of an entry can do to whoever does it.
//
// An entry and the paths that it reads go in, the cautions that its work calls for come out. It hides how work is told apart: by paths, by the slots
// of the parts that are moved, by pulls and logs. The one invariant: a caution only ever warns. None gives a figure to work to but one from a rule
// that it names, and none takes the place of the maker's manual, local rules or licensed practice.
package caution

import (
	"slices"
	"strings"

	"example.org/locknut/journal/model"
)

// Caution is one thing to mind.
type Caution struct {
	Name   string // kebab-case, for ever
	Title  string // what hurts, in a word or two
	Text   string // what to do about it, in sentences
	Source string // who says so; or that it is common practice, or from memory
	work   work
}

// Defers is what stands under all cautions.
const Defers = "The maker’s manual, local rules and a licensed practitioner come before anything on this page."

const practice = "common practice, no source"

// All are the cautions, in the order in which they are shown: what can kill comes first.
var All = []Caution{
	{"exhaust-gas", "Exhaust gas",
		"Run it in the open or with the exhaust led outside. Carbon monoxide kills and has no smell: a headache or dizziness means out, at once.",
		"US Army TM 10-4320-307-24, pages 2-143 and 2-223; TM 9-2320-366-10-1, page a",
		work{paths: []string{"ignition", "compression", "oil.pressure", "power"}, pulls: true, logs: true}},
	{"fuel", "Fuel",
		"No flame, spark or smoking near it; its vapour creeps. Drain into a closed can, wipe spills up, rags into a closed metal bin, an extinguisher at hand.",
		"US Army TM 1-1500-204-23-4; that vapour creeps along the floor and lights from afar is from memory",
		work{paths: []string{"jet", "carburettor", "fuel", "map"}, slots: slices.Concat(carburation, []slot{{"fuel", nil}, {"petcock", nil}, {"tank", slices.Concat(fluids, []string{"header", "pad", "bag"})}, {"tap", fluids}})}},
	{"stands", "A machine on a stand",
		"A jack alone holds nothing up. It must neither roll nor topple: other wheel chocked, somebody to steady it while a wheel comes out.",
		"US Army TM 10-4320-226-14, 4.10.23 (secure before work); that a jack is no stand is in commercial car manuals, read in reproduction",
		work{paths: []string{"chain", "wheel", "brake", "tyre", "axle", "fork", "suspension", "steering", "torque.axle", "torque.wheel"},
			slots: slices.Concat(brakes, runningGear, []slot{{"chain", inEngine}, {"sprocket", inEngine}, {"shock", nil}, {"axle", nil}})}},
	{"dyno", "The roller",
		"Straps, tyre and chain looked at before each session; nobody behind the wheel or in line with it; hair and cuffs away; ears covered.",
		"for the ears 29 CFR 1910.95 (85 dB(A) over eight hours), read in a quotation; the rest: " + practice,
		work{pulls: true}},
	{"starts-by-itself", "An engine that starts",
		"Before hands go in: ignition off, plug leads off and earthed, so that turning it cannot fire it.",
		"US Army TM 10-3930-644-14&P (lead off before tappet work); TM 55-1905-220-14-4; for compression tests TM 1-1500-204-23-1",
		work{paths: []string{"lash", "shim", "cam", "timing", "compression", "leak", "port", "clearance.valve"},
			slots: slices.Concat(camshaft, []slot{{"rocker", nil}, {"tappet", nil}, {"shim", nil}, {"spring", noValveSpring}, {"valve", noPoppet}})}},
	{"turning-parts", "Turning parts",
		"Nothing is adjusted, oiled or cleaned while it runs. Turned by hand, fingers out of the mesh. No rings, no loose cuffs.",
		"US Army TM 1-1500-204-23-4",
		work{paths: []string{"chain", "timing", "cam", "ignition", "torque.cam-sprocket"}, slots: slices.Concat(camshaft, []slot{{"chain", nil}, {"sprocket", nil}}), pulls: true}},
	{"springs", "Springs",
		"Eye protection on: collets, clips and springs fly. The proper compressor, squared up, and the face out of line.",
		"US Army TM 5-1940-322-24, WP 0160",
		work{paths: []string{"spring", "clearance.guide", "clearance.valve", "pin"},
			slots: []slot{{"spring", nil}, {"valve", slices.Concat(noPoppet, []string{"cover"})}, {"clutch", []string{"cable", "lever"}}, {"shock", nil}, {"piston", nil}}}},
	{"compressed-air", "Compressed air",
		"In a cylinder it can turn the engine: piston at dead centre, no spanner on the crankshaft. For cleaning less than 30 psi (207 kPa), eyes covered, never at skin.",
		"FAA AC 43.13-1B, page 8-15, for the first; 29 CFR 1910.242(b) for the second",
		work{paths: []string{"leak", "jet", "carburettor"}}},
	{"hot-parts", "Hot parts and oil",
		"Let them cool where the work allows it; where not, cuffs down and gloves on. A hot cooling system stays shut.",
		"US Army TM 10-4320-307-24, page 2-143, for the exhaust; the rest: " + practice,
		work{paths: []string{"oil", "coolant", "compression", "leak"},
			slots: slices.Concat(exhaust, []slot{{"oil-pipe", nil}, {"coolant", nil}, {"radiator", nil}}), pulls: true, warm: true}},
	{"brakes", "Brakes and their dust",
		"Old linings may hold asbestos: wipe wet, bag it, no brush, no air line. No oil or grease; tried at walking pace before anything faster.",
		"from memory, and " + practice,
		work{paths: []string{"brake"}, slots: brakes}},
	{"tightening", "Tightening",
		"Pull smoothly, and stand so that a slip hurts nobody. One that turns on while the torque doesn’t rise is yielding: stop, renew it. An assumed figure is nobody’s figure for this engine.",
		practice,
		work{paths: []string{"torque"}}},
	{"first-ride", "The first ride",
		"Short, slow and near home; then everything that was touched is looked at again, cold.",
		practice + "; US Army TM 5-3805-254-14&P-1 asks for half to three-quarter throttle and no hard stops at first",
		work{paths: []string{"brake", "wheel", "torque.axle", "steering", "fork"},
			slots: slices.Concat(brakes, runningGear, camshaft, []slot{{"chain", nil}, {"sprocket", nil}, {"piston", nil}, {"cylinder", nil}, {"head-gasket", nil}})}},
	{"emission-and-noise-law", "Emission and noise law",
		"On the road, changing exhaust, intake, fuelling or cam may be unlawful even where the parts are sold. Look up what holds where you ride, and the organiser’s rules.",
		"for the United States 42 U.S.C. 7522(a)(3) and 40 CFR 205.173-2 (noise of motorcycles); every country has rules of its own",
		work{paths: []string{"map", "jet"}, slots: slices.Concat(exhaust, carburation, []slot{
			{"cam", likeForLike}, {"camshaft", likeForLike}, {"airbox", nil}, {"air-box", nil}, {"air-filter", nil}, {"map", []string{"holder"}}})}},
}

// slot is what the place of a part may be called.
type slot struct {
	words string   // in it, one beside the other: `head-gasket`. Each may be in the plural
	but   []string // words in it that make another thing of it: a tank may be one for oil
}

var (
	carburation = []slot{{"carb", nil}, {"carburettor", nil}, {"carburetor", nil}, {"jet", fluids}, {"injector", nil}, {"injection", nil}}
	exhaust     = []slot{{"exhaust", []string{"valve", "cam", "camshaft", "rocker", "spring", "shim", "tappet"}}, {"silencer", nil}, {"muffler", nil},
		{"downpipe", nil}, {"header", []string{"tank"}}, {"pipe", slices.Concat(fluids, []string{"fuel", "brake", "clutch", "breather", "vacuum", "intake", "inlet"})}}
	camshaft    = []slot{{"cam", noCamshaft}, {"camshaft", nil}, {"camchain", nil}}
	runningGear = []slot{{"wheel", inEngine}, {"tyre", nil}, {"fork", inEngine}}
	brakes      = []slot{{"brake", []string{"light", "switch"}}, {"shoe", inEngine}, {"pad", []string{"seat", "knee", "tank", "foot", "lash"}}}

	fluids        = []string{"oil", "water", "coolant", "expansion"}
	inEngine      = []string{"cam", "camshaft", "timing", "crank", "crankshaft", "primary", "balancer", "pump", "starter", "clutch", "selector", "shift", "tensioner"}
	noCamshaft    = []string{"brake", "throttle"}
	likeForLike   = slices.Concat(noCamshaft, []string{"chain", "cover", "gasket", "bearing", "cap", "bolt", "seal", "tensioner"})
	noPoppet      = []string{"tyre", "float", "reed", "oil", "relief", "fuel", "breather", "throttle", "thermostat"}
	noValveSpring = []string{"fork", "shock", "suspension", "clutch", "seat", "stand", "throttle", "brake", "return", "lever", "pedal", "kickstart", "tensioner", "exhaust"}
)

// work is how the work that a caution is for is told.
type work struct {
	paths []string // that it reads, or begins with
	slots []slot   // that a part which it moves has
	pulls bool     // it is on a dyno
	logs  bool     // it logs the fuelling, so that the engine runs
	warm  bool     // the engine is warm
}

// warm is from where an engine is taken to be warm, in kelvin: too hot to hold a hand on, at some 45 °C. Common practice, no source.
const warm = 273.15 + 45

// Set is some of the cautions.
type Set uint32

// Of returns the cautions that the work of an entry calls for, by what it reads and does. Paths are all that it reads or will.
func Of(e *model.Entry, paths []string) Set {
	var set Set
	for i := range All {
		if All[i].work.isIn(e, paths) {
			set |= 1 << i
		}
	}
	return set
}

// Each goes through the cautions of a set, in the order of [All].
func (s Set) Each(yield func(*Caution) bool) {
	for i := range All {
		if s&(1<<i) != 0 && !yield(&All[i]) {
			return
		}
	}
}

func (w work) isIn(e *model.Entry, paths []string) bool {
	switch {
	case w.pulls && len(e.Fields.Tables("pulls")) > 0, w.logs && len(e.Fields.Tables("fuelling")) > 0:
		return true
	case w.warm && e.EngineTemp != nil && e.EngineTemp.HighSI() > warm:
		return true
	}
	for _, path := range paths {
		for _, above := range w.paths {
			if below, ok := strings.CutPrefix(path, above); ok && (below == "" || below[0] == '.' || below[0] == '-') {
				return true
			}
		}
	}
	for _, refs := range [][]model.Ref{e.Fitted, e.Removed} {
		for _, ref := range refs {
			if ref.Part != nil && w.moves(strings.Split(ref.Part.Slot, "-")) {
				return true
			}
		}
	}
	return false
}

// moves reports whether the words of a part's slot are those of one that the work is told by.
func (w work) moves(words []string) bool {
	return slices.ContainsFunc(w.slots, func(s slot) bool {
		return holds(words, s.words) && !slices.ContainsFunc(s.but, func(other string) bool { return holds(words, other) })
	})
}

// holds reports whether words stand one beside the other among others, whole, in the singular or the plural: `jet` and `head-gasket`, but not `tap` in
// `tappets`.
func holds(words []string, phrase string) bool {
	wanted := strings.Split(phrase, "-")
	for i := range len(words) - len(wanted) + 1 {
		if slices.EqualFunc(words[i:i+len(wanted)], wanted, func(word, one string) bool { return word == one || word == one+"s" || word == one+"es" }) {
			return true
		}
	}
	return false
}
