package parse

import (
	"strings"

	"example.org/locknut/journal/quantity"
)

// Kind says what a key holds.
type Kind uint8

// The kinds of key.
const (
	KindText      Kind = iota + 1 // a string
	KindMarkdown                  // a string of Markdown
	KindTexts                     // a string, or a list of strings
	KindName                      // the name of a part, tool, slot, tag …
	KindNames                     // a name, or a list of them
	KindPath                      // a path that values live at
	KindPaths                     // a path, or a list of them
	KindChoice                    // one of a few words
	KindChoices                   // one of a few words, or a list of them
	KindFigure                    // a quantity; a bare number where the key has a unit
	KindFigures                   // a quantity, or a list of them
	KindDate                      // a date, with or without a time of day
	KindDates                     // a date, or a list of them
	KindWhole                     // a whole number
	KindCylinders                 // a whole number of cylinders, or the list of their names
	KindRatio                     // a ratio: "41/15", "2.73:1" or a number
	KindRatios                    // a list of ratios
	KindTyre                      // the size code of a tyre, or a length
	KindOrder                     // an order of tightening: "5 6 4 7 …"
	KindGrid                      // a string of several lines that is a table of figures
	KindSizes                     // "1.20..3.50 mm by 0.05", or a list of sizes
	KindTable                     // a table with keys of its own
	KindTables                    // a list of such tables: [[name]]
	KindReadings                  // a tree of paths with values
	KindGoals                     // a tree of paths with values to reach
	KindUnits                     // names of dimensions with the units to lead with
	KindLimits                    // a tree of paths with limits
	KindThread                    // a thread: "M9x1.25"
	KindClass                     // a strength class: "10.9"
	KindSubject                   // what a finding is about: a path, a part, a tool, a file or a link
)

// String names the kind as the reference prints it.
func (k Kind) String() string {
	return [...]string{
		"", "text", "Markdown text", "text or list of texts", "name", "name or list of names", "path", "path or list of paths", "one of a few words",
		"one or more of a few words", "quantity", "quantity or list of quantities", "date", "date or list of dates", "whole number",
		"number of cylinders or list of their names", "ratio", "list of ratios", "size code of a tyre or length", "order of numbers", "grid", "range of sizes or list of sizes", "table",
		"list of tables", "readings by path", "goals by path", "units by dimension", "limits by path", "thread", "strength class", "path, name, file or link",
	}[k]
}

// Key is one row of a key table: everything that decoding, spelling advice and the reference know of a key.
type Key struct {
	Name       string
	Kind       Kind
	Doc        string               // one clause
	Dimensions []quantity.Dimension // of a figure; empty: any
	Unit       string               // the unit of a bare number; empty: a bare number needs one
	Calendar   bool                 // time there goes by the calendar: hours are none
	Choices    []string             // of a choice
	Floor      quantity.Floor       // the least that a figure can be
	Most       float64              // the most that it can be, in SI; 0: anything
	Least      float64              // the least, where that isn't nought, in SI; 0: anything
	Needed     bool
	Keys       []Key // of a table
}

func (k *Key) child(name string) *Key {
	for i := range k.Keys {
		if k.Keys[i].Name == name {
			return &k.Keys[i]
		}
	}
	return nil
}

func (k *Key) names() []string {
	names := make([]string, len(k.Keys))
	for i := range k.Keys {
		names[i] = k.Keys[i].Name
	}
	return names
}

func dims(d ...quantity.Dimension) []quantity.Dimension { return d }

// HideWords are the words that `hide` knows; every other one is a tag.
var HideWords = []string{"spend", "hours", "places", "photos", "tools", "accepted"}

// Corrections are the standards by which power is corrected, as they are written; none among them.
var Corrections = []string{"none", "SAE J1349", "ISO 1585", "ISO 4106", "SAE J607", "DIN 70020", "JIS D 1001"}

// DataTables are the lists of an entry whose tables name files of figures, by their key `data`.
var DataTables = []string{"pulls", "readings", "degreeing", "fuelling", "logs"}

// Tables returns the key table of each kind of file, by the name that the reference gives it: `build.toml`, `limits.toml`,
// `parts.toml`, `tools.toml`, `entry` and `value with details`. The keys of limits, parts and tools are those of one limit, part or tool.
func Tables() map[string]*Key {
	return map[string]*Key{"build.toml": buildKeys, "limits.toml": limitKeys, "parts.toml": partKeys, "tools.toml": toolKeys, "entry": entryKeys, "value with details": detailKeys}
}

var buildKeys = &Key{Name: "build.toml", Kind: KindTable, Keys: []Key{
	{Name: "format", Kind: KindWhole, Doc: "version of the journal format; 1 where it is left out"},
	{Name: "title", Kind: KindText, Doc: "title of the site"},
	{Name: "url", Kind: KindText, Doc: "address at which the site will stand: for the feed and canonical links"},
	{Name: "fitted", Kind: KindNames, Doc: "parts that the machine came with"},
	{Name: "site", Kind: KindTable, Doc: "how the site shows things", Keys: []Key{
		{Name: "theme", Kind: KindName, Doc: "theme of the site"},
		{Name: "home", Kind: KindMarkdown, Doc: "words for the front page"},
		{Name: "hide", Kind: KindNames, Doc: "what is never published: " + strings.Join(HideWords, ", ") + ", or tags of entries, as in [\"spend\", \"at-home\"]"},
	}},
	{Name: "units", Kind: KindUnits, Doc: "units that the site leads with, and a second one shown beside"},
	{Name: "machine", Kind: KindTable, Doc: "the machine", Keys: []Key{
		{Name: "name", Kind: KindText, Doc: "name of the machine"},
		{Name: "year", Kind: KindWhole, Doc: "year in which it was made"},
		{Name: "meter", Kind: KindChoice, Choices: []string{"km", "mi", "h"}, Doc: "unit of its meter"},
	}},
	{Name: "goals", Kind: KindGoals, Doc: "values that the build is to reach"},
	{Name: "engine", Kind: KindTable, Doc: "the engine", Keys: engineKeys},
	{Name: "drive", Kind: KindTable, Doc: "the drive to the wheel", Keys: []Key{
		{Name: "primary", Kind: KindRatio, Floor: quantity.OverZero, Most: 50, Doc: "primary ratio, driven over driver"},
		{Name: "gears", Kind: KindRatios, Floor: quantity.OverZero, Most: 50, Doc: "ratios of the gears from first, driven over driver; none: direct"},
		{Name: "final", Kind: KindRatio, Floor: quantity.OverZero, Most: 50, Doc: "final ratio, driven over driver"},
		{Name: "tyre", Kind: KindTyre, Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Most: 20, Doc: "size code of the driven tyre, or a measured rolling circumference"},
		{Name: "chain-pitch", Kind: KindFigure, Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Most: 0.1, Doc: "pitch of the drive chain, from pin to pin"},
		{Name: "cruise", Kind: KindFigure, Dimensions: dims(quantity.Speed), Floor: quantity.OverZero, Most: 200, Doc: "a road speed at which the engine speed is to be told"},
	}},
	{Name: "power", Kind: KindTable, Doc: "how power is compared", Keys: []Key{
		{Name: "correct-to", Kind: KindChoice, Choices: Corrections, Doc: "the one standard that all figures are corrected to"},
		{Name: "band", Kind: KindFigure, Dimensions: dims(quantity.Rotation), Doc: "engine speeds over which means are taken"},
	}},
	{Name: "fuelling", Kind: KindTable, Doc: "what the fuelling is held to", Keys: []Key{
		{Name: "fuel", Kind: KindText, Doc: "the fuel: petrol, E5, E10, E85 or another share of ethanol, ethanol, methanol"},
		{Name: "ratio", Kind: KindFigure, Dimensions: dims(quantity.AirFuel, quantity.Pure), Unit: "AFR", Floor: quantity.OverZero, Least: 1.5, Most: 40, Doc: "air-fuel ratio that stands for lambda 1 wherever a ratio is written; that of the fuel where it is left out"},
		{Name: "seen-for", Kind: KindFigure, Dimensions: dims(quantity.Duration), Unit: "s", Floor: quantity.ZeroFloor, Most: 3600, Doc: "how long a log must have been in a square for it to be judged"},
		{Name: "tolerance", Kind: KindFigure, Dimensions: dims(quantity.Pure, quantity.Lambda), Unit: "lambda", Floor: quantity.OverZero, Most: 0.2, Doc: "how far lambda may stand from its target"},
		{Name: "target", Kind: KindGrid, Doc: "target lambda by throttle and engine speed"},
	}},
}}

var engineKeys = []Key{
	{Name: "cylinders", Kind: KindCylinders, Doc: "how many cylinders, or their names"},
	{Name: "cycle", Kind: KindChoice, Choices: []string{"four-stroke", "two-stroke"}, Doc: "working cycle"},
	{Name: "bore", Kind: KindFigure, Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Most: 0.5, Doc: "cylinder bore"},
	{Name: "stroke", Kind: KindFigure, Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Most: 2, Doc: "piston stroke"},
	{Name: "rod", Kind: KindFigure, Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Most: 1, Doc: "connecting rod length between centres"},
	{Name: "chamber", Kind: KindFigure, Dimensions: dims(quantity.Volume), Floor: quantity.OverZero, Most: 5e-3, Doc: "combustion chamber volume of one cylinder's head"},
	{Name: "deck", Kind: KindFigure, Dimensions: dims(quantity.Length), Doc: "deck height: how far the piston stops below the deck; above it is minus"},
	{Name: "gasket", Kind: KindTable, Doc: "head gasket, crushed", Keys: []Key{
		{Name: "bore", Kind: KindFigure, Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Most: 0.5, Doc: "bore of the gasket"},
		{Name: "thickness", Kind: KindFigure, Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Most: 0.01, Doc: "thickness when pulled down"},
	}},
	{Name: "dome", Kind: KindFigure, Dimensions: dims(quantity.Volume), Floor: quantity.OverZero, Most: 1e-3, Doc: "volume of the piston's dome: it takes volume away"},
	{Name: "dish", Kind: KindFigure, Dimensions: dims(quantity.Volume), Floor: quantity.OverZero, Most: 1e-3, Doc: "volume of the piston's dish: it adds volume"},
	{Name: "valve", Kind: KindTable, Doc: "head diameter of one valve", Keys: []Key{
		{Name: "intake", Kind: KindFigure, Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Most: 0.2, Doc: "diameter of an intake valve"},
		{Name: "exhaust", Kind: KindFigure, Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Most: 0.2, Doc: "diameter of an exhaust valve"},
	}},
	{Name: "injector", Kind: KindTable, Doc: "the fuel injectors", Keys: []Key{
		{Name: "count", Kind: KindFigure, Dimensions: dims(quantity.Pure), Unit: "number", Floor: quantity.OverZero, Most: 64, Doc: "how many there are"},
		{Name: "flow", Kind: KindFigure, Dimensions: dims(quantity.VolumeFlow, quantity.MassFlow), Floor: quantity.OverZero, Most: 1, Doc: "what one passes while it is held open, at the pressure that it runs at"},
	}},
	{Name: "consumption", Kind: KindFigure, Dimensions: dims(quantity.SpecificConsumption), Floor: quantity.BothOverZero, Least: 4e-8, Most: 4e-7, Doc: "fuel for the work done, at full power: 290 g/(kW·h), or from the least to the most"},
	{Name: "redline", Kind: KindFigure, Dimensions: dims(quantity.Rotation), Unit: "rpm", Floor: quantity.OverZero, Most: 2e4, Doc: "highest engine speed"},
	{Name: "cam-sprocket", Kind: KindFigure, Dimensions: dims(quantity.Teeth), Unit: "teeth", Floor: quantity.OverZero, Most: 500, Doc: "teeth of the cam sprocket"},
	{Name: "rocker-ratio", Kind: KindTable, Doc: "valve movement over cam movement", Keys: []Key{
		{Name: "intake", Kind: KindRatio, Floor: quantity.OverZero, Most: 10, Doc: "rocker ratio on the intake side"},
		{Name: "exhaust", Kind: KindRatio, Floor: quantity.OverZero, Most: 10, Doc: "rocker ratio on the exhaust side"},
	}},
	{Name: "adjuster", Kind: KindTable, Doc: "how valve lash is set", Keys: []Key{
		{Name: "kind", Kind: KindChoice, Choices: []string{"screw", "shim"}, Needed: true, Doc: "screw or shim"},
		{Name: "pitch", Kind: KindFigure, Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Most: 0.01, Doc: "thread pitch of the screw"},
		{Name: "at", Kind: KindChoice, Choices: []string{"valve", "cam"}, Doc: "the end of the rocker that the screw is at"},
		{Name: "sizes", Kind: KindSizes, Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Most: 0.05, Doc: "shim sizes that can be bought"},
		{Name: "stock", Kind: KindFigures, Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Most: 0.05, Doc: "shims in the drawer"},
		{Name: "intake", Kind: KindTable, Keys: shimKeys, Doc: "shims of the intake side, where they don't fit the other"},
		{Name: "exhaust", Kind: KindTable, Keys: shimKeys, Doc: "shims of the exhaust side, where they don't fit the other"},
	}},
}

// shimKeys are those of the shims of one side of the engine.
var shimKeys = []Key{
	{Name: "sizes", Kind: KindSizes, Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Most: 0.05, Doc: "shim sizes that can be bought for this side"},
	{Name: "stock", Kind: KindFigures, Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Most: 0.05, Doc: "shims in the drawer that fit this side"},
}

// limitKeys are the reserved names of a limit: never a segment of a path where they hold what a limit key holds.
var limitKeys = &Key{Name: "limits.toml", Kind: KindTable, Keys: []Key{
	{Name: "title", Kind: KindText, Doc: "what the limit is called on the site"},
	{Name: "basis", Kind: KindChoice, Choices: []string{"manual", "label", "drawing", "standard", "practice", "assumed"}, Doc: "what sort of word the figure rests on"},
	{Name: "source", Kind: KindText, Doc: "who says so"},
	{Name: "every", Kind: KindFigures, Dimensions: dims(quantity.Length, quantity.Duration, quantity.Calendar), Floor: quantity.OverZero, Doc: "how often to read it again: distance, hours, months; whichever comes first"},
	{Name: "when", Kind: KindTable, Doc: "what must hold for a reading to count", Keys: []Key{
		{Name: "engine-temp", Kind: KindFigure, Dimensions: dims(quantity.Temperature), Doc: "engine temperature while reading"},
	}},
	{Name: "decision", Kind: KindChoice, Choices: []string{"simple", "guarded"}, Doc: "simple acceptance, or proof that the uncertainty lies inside too"},
	{Name: "nominal", Kind: KindFigure, Doc: "the figure to aim for; steps are joined by `then`"},
	{Name: "tolerance", Kind: KindFigure, Doc: "how far either side of nominal"},
	{Name: "plus", Kind: KindFigure, Doc: "how far above nominal"},
	{Name: "minus", Kind: KindFigure, Doc: "how far below nominal"},
	{Name: "low", Kind: KindFigure, Doc: "lowest figure that is in"},
	{Name: "high", Kind: KindFigure, Doc: "highest figure that is in"},
	{Name: "expect", Kind: KindTexts, Doc: "the words that a reading must be"},
	{Name: "service", Kind: KindFigure, Doc: "bounds for a worn part that may still be used, outside standard"},
	{Name: "allowance", Kind: KindFigure, Doc: "how far beyond standard a worn part may go: above its high bound; below its low one where that is the only one, or with a minus"},
	{Name: "also", Kind: KindFigure, Doc: "nominal, or the only bound, as the source prints it in another unit: checked"},
	{Name: "thread", Kind: KindThread, Doc: "thread of the fastener: M9x1.25, M8 (coarse), 1/4-20 UNC"},
	{Name: "class", Kind: KindClass, Doc: "property class of the fastener, a text: \"10.9\"; or another grade"},
	{Name: "into", Kind: KindText, Doc: "material that it is screwed into"},
	{Name: "into-shear", Kind: KindFigure, Dimensions: dims(quantity.Pressure), Floor: quantity.OverZero, Most: 3e9, Doc: "shear strength of that material, from its data sheet: 140 MPa"},
	{Name: "engagement", Kind: KindFigure, Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Most: 1, Doc: "length of thread engaged"},
	{Name: "threads", Kind: KindChoice, Choices: []string{"dry", "oiled", "greased", "locked"}, Doc: "state of the threads"},
	{Name: "thread-friction", Kind: KindFigure, Dimensions: dims(quantity.Pure), Unit: "number", Floor: quantity.BothOverZero, Most: 1, Doc: "least and most coefficient of friction, in the thread and under the head: 0.10..0.16; over what `threads` says"},
	{Name: "running-torque", Kind: KindFigure, Dimensions: dims(quantity.Torque), Floor: quantity.OverZero, Most: 1e4, Doc: "torque that turns the fastener before it clamps; the limit's own figures are without it, a reading is with it"},
	{Name: "drive", Kind: KindText, Doc: "spanner or key that fits: 12 mm hex"},
	{Name: "order", Kind: KindOrder, Doc: "order of tightening, each bolt's number once: \"1 4 2 5 3\""},
	{Name: "of", Kind: KindPaths, Doc: "two paths: the limit is held by the first minus the second at the same position"},
	{Name: "note", Kind: KindText, Doc: "words for the reader"},
}}

var partKeys = &Key{Name: "parts.toml", Kind: KindTable, Keys: []Key{
	{Name: "title", Kind: KindText, Doc: "what the part is called on the site"},
	{Name: "slot", Kind: KindName, Doc: "the place that it takes: one part a slot"},
	{Name: "price", Kind: KindFigure, Dimensions: dims(quantity.Money), Unit: "money", Doc: "what it cost"},
	{Name: "mass", Kind: KindFigure, Dimensions: dims(quantity.Mass), Floor: quantity.ZeroFloor, Doc: "its mass"},
	{Name: "needs", Kind: KindNames, Doc: "what something fitted must give it"},
	{Name: "gives", Kind: KindNames, Doc: "what it gives to parts that need it"},
	{Name: "clashes", Kind: KindNames, Doc: "parts that can't be fitted with it"},
	{Name: "then", Kind: KindPaths, Doc: "paths that must be read after it goes in"},
	{Name: "claim", Kind: KindTable, Doc: "what its seller promises", Keys: []Key{
		{Name: "power", Kind: KindFigure, Dimensions: dims(quantity.Power), Floor: quantity.OverZero, Doc: "gain in power"},
		{Name: "torque", Kind: KindFigure, Dimensions: dims(quantity.Torque), Floor: quantity.OverZero, Doc: "gain in torque"},
		{Name: "mass", Kind: KindFigure, Dimensions: dims(quantity.Mass), Floor: quantity.OverZero, Doc: "mass saved"},
		{Name: "from", Kind: KindFigure, Dimensions: dims(quantity.Rotation), Doc: "lowest engine speed of the claim"},
		{Name: "to", Kind: KindFigure, Dimensions: dims(quantity.Rotation), Doc: "highest engine speed of the claim"},
	}},
	{Name: "every", Kind: KindFigures, Dimensions: dims(quantity.Length, quantity.Duration, quantity.Calendar), Floor: quantity.OverZero, Doc: "how long it may run: distance, hours, months of its own"},
	{Name: "meter", Kind: KindFigure, Dimensions: dims(quantity.Length, quantity.Duration), Doc: "what it had run before it was fitted"},
	{Name: "source", Kind: KindText, Doc: "where its figures come from"},
	{Name: "note", Kind: KindText, Doc: "words for the reader"},
	{Name: "brings", Kind: KindReadings, Doc: "values that hold while it is fitted"},
	{Name: "limits", Kind: KindLimits, Doc: "limits that hold while it is fitted"},
}}

var toolKeys = &Key{Name: "tools.toml", Kind: KindTable, Keys: []Key{
	{Name: "title", Kind: KindText, Doc: "what the tool, or the person or shop, is called on the site"},
	{Name: "for", Kind: KindPaths, Doc: "paths that it reads"},
	{Name: "leaves", Kind: KindFigures, Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Most: 0.1, Doc: "the leaves of a feeler gauge"},
	{Name: "range", Kind: KindFigure, Doc: "from the least to the most that it reads"},
	{Name: "resolution", Kind: KindFigure, Doc: "smallest step that it shows"},
	{Name: "error", Kind: KindFigure, Doc: "greatest permitted error, in its unit or in percent"},
	{Name: "error-of", Kind: KindChoice, Choices: []string{"reading", "maximum"}, Doc: "what an error in percent is a share of: what it reads, or the end of its range; the reading where it is left out"},
	{Name: "uncertainty", Kind: KindFigure, Doc: "expanded uncertainty (k = 2), in its unit or in percent"},
	{Name: "repeatability", Kind: KindFigure, Doc: "one standard deviation of repeats, in its unit or in percent"},
	{Name: "length", Kind: KindFigure, Dimensions: dims(quantity.Length), Floor: quantity.OverZero, Least: 0.05, Most: 3, Doc: "of a wrench: from the middle of its drive to the middle of its grip"},
	{Name: "calibrated", Kind: KindDates, Doc: "days on which it was calibrated"},
	{Name: "calibrate-every", Kind: KindFigure, Dimensions: dims(quantity.Calendar, quantity.Duration), Calendar: true, Doc: "how long a calibration holds: days, weeks, months or years"},
	{Name: "note", Kind: KindText, Doc: "words for the reader"},
}}

var columnKeys = []Key{
	{Name: "rpm", Kind: KindText, Doc: "head of the column of engine speed"},
	{Name: "power", Kind: KindText, Doc: "head of the column of power"},
	{Name: "torque", Kind: KindText, Doc: "head of the column of torque"},
	{Name: "lambda", Kind: KindText, Doc: "head of the column of lambda or air-fuel ratio"},
	{Name: "throttle", Kind: KindText, Doc: "head of the column of throttle opening"},
	{Name: "time", Kind: KindText, Doc: "head of the column of time"},
}

// logKeys are those that all logs have.
var logKeys = []Key{
	{Name: "paths", Kind: KindReadings, Doc: "heads of further columns by the path that they read, where they are no paths themselves: oil.temp = \"T_OIL\""},
	{Name: "with", Kind: KindName, Doc: "the meter, one of the tools: it stands for those columns that it is for"},
	{Name: "state", Kind: KindChoice, Choices: []string{"before", "after"}, Doc: "before or after this entry's fitting; after where it is left out"},
	{Name: "note", Kind: KindText, Doc: "words for the reader"},
}

var entryKeys = &Key{Name: "entry", Kind: KindTable, Keys: []Key{
	{Name: "title", Kind: KindText, Doc: "title; the first heading or the file's name will do"},
	{Name: "date", Kind: KindDate, Doc: "day of the work, or day and time; the date in the file's name will do; none at all makes a plan"},
	{Name: "meter", Kind: KindFigure, Dimensions: dims(quantity.Length, quantity.Duration), Unit: "meter", Doc: "what the machine's meter shows"},
	{Name: "meter-was", Kind: KindFigure, Dimensions: dims(quantity.Length, quantity.Duration), Unit: "meter", Doc: "what the old meter showed when it was changed"},
	{Name: "engine-temp", Kind: KindFigure, Dimensions: dims(quantity.Temperature), Doc: "engine temperature during the work"},
	{Name: "bought", Kind: KindNames, Doc: "parts bought"},
	{Name: "fitted", Kind: KindNames, Doc: "parts fitted"},
	{Name: "removed", Kind: KindNames, Doc: "parts taken out"},
	{Name: "with", Kind: KindNames, Doc: "tools used, and who measured"},
	{Name: "expects", Kind: KindPaths, Doc: "paths that this work must read, beyond what the fitted parts ask for"},
	{Name: "hours", Kind: KindFigure, Dimensions: dims(quantity.Duration), Unit: "h", Floor: quantity.ZeroFloor, Doc: "time that the work took"},
	{Name: "spent", Kind: KindTables, Doc: "money spent beside parts", Keys: []Key{
		{Name: "for", Kind: KindText, Needed: true, Doc: "what it went on"},
		{Name: "price", Kind: KindFigure, Dimensions: dims(quantity.Money), Unit: "money", Needed: true, Doc: "how much"},
		{Name: "part", Kind: KindName, Doc: "the part that it belongs to"},
		{Name: "note", Kind: KindText, Doc: "words for the reader"},
	}},
	{Name: "tags", Kind: KindNames, Doc: "tags"},
	{Name: "found", Kind: KindReadings, Doc: "values as found"},
	{Name: "set", Kind: KindReadings, Doc: "values as left"},
	{Name: "later", Kind: KindTables, Doc: "work to come back to", Keys: []Key{
		{Name: "do", Kind: KindText, Needed: true, Doc: "what to do"},
		{Name: "reading", Kind: KindPaths, Doc: "path whose reading in a later entry closes it"},
		{Name: "after", Kind: KindFigures, Dimensions: dims(quantity.Length, quantity.Duration, quantity.Calendar), Floor: quantity.OverZero, Doc: "distance, hours or months after which it is due"},
		{Name: "on", Kind: KindDate, Doc: "day on which it is due"},
	}},
	{Name: "pulls", Kind: KindTables, Doc: "pulls on a dyno, repeats in one air", Keys: []Key{
		{Name: "data", Kind: KindTexts, Doc: "CSV files, one a pull"},
		{Name: "peak", Kind: KindFigures, Dimensions: dims(quantity.Power), Doc: "peak power of each pull, read off the screen"},
		{Name: "torque", Kind: KindFigures, Dimensions: dims(quantity.Torque), Doc: "peak torque of each pull, read off the screen"},
		{Name: "ratio", Kind: KindFigure, Dimensions: dims(quantity.AirFuel, quantity.Pure), Unit: "AFR", Floor: quantity.OverZero, Least: 1.5, Most: 40, Doc: "air-fuel ratio that the meter shows at lambda 1, where the files hold such; that of `[fuelling]` where it is left out"},
		{Name: "paths", Kind: KindReadings, Doc: "heads of further columns by the path that they read, where they are no paths themselves: oil.temp = \"T_OIL\""},
		{Name: "with", Kind: KindName, Doc: "what lambda and the further columns were read with, one of the tools"},
		{Name: "columns", Kind: KindTable, Doc: "heads of the columns, where they don't say it themselves", Keys: columnKeys},
		{Name: "dyno", Kind: KindName, Doc: "the dyno, one of the tools"},
		{Name: "gear", Kind: KindWhole, Doc: "gear that was used"},
		{Name: "air", Kind: KindTable, Doc: "the air at the place", Keys: []Key{
			{Name: "temp", Kind: KindFigure, Dimensions: dims(quantity.Temperature), Doc: "air temperature"},
			{Name: "pressure", Kind: KindFigure, Dimensions: dims(quantity.PressureAbs), Doc: "air pressure at the place"},
			{Name: "humidity", Kind: KindFigure, Dimensions: dims(quantity.Pure), Floor: quantity.ZeroFloor, Most: 1, Doc: "relative humidity"},
			{Name: "dew-point", Kind: KindFigure, Dimensions: dims(quantity.Temperature), Doc: "dew point"},
			{Name: "sea-level", Kind: KindFigure, Dimensions: dims(quantity.PressureAbs), Doc: "air pressure as a weather report gives it, reduced to sea level"},
			{Name: "altitude", Kind: KindFigure, Dimensions: dims(quantity.Length), Doc: "height of the place above the sea"},
		}},
		{Name: "corrected", Kind: KindChoice, Choices: Corrections, Doc: "correction that the figures carry, or none"},
		{Name: "at", Kind: KindChoice, Choices: []string{"wheel", "crank"}, Doc: "where the figures count: at the wheel, or reckoned back to the crank"},
		{Name: "state", Kind: KindChoice, Choices: []string{"before", "after"}, Doc: "before or after this entry's fitting; after where it is left out"},
		{Name: "note", Kind: KindText, Doc: "words for the reader"},
	}},
	{Name: "degreeing", Kind: KindTables, Doc: "a cam measured with a degree wheel", Keys: []Key{
		{Name: "data", Kind: KindText, Needed: true, Doc: "CSV file: crank angle, lift"},
		{Name: "of", Kind: KindPath, Needed: true, Doc: "cam.intake or cam.exhaust"},
		{Name: "zero", Kind: KindText, Doc: "what the wheel's nought is: overlap TDC, firing TDC, BDC, an angle from a dead centre, or stop, where `timing.stop` says it; overlap TDC where it is left out"},
		{Name: "at", Kind: KindChoice, Choices: []string{"valve", "cam"}, Doc: "where the lift was read; the valve where it is left out"},
		{Name: "lash", Kind: KindFigure, Dimensions: dims(quantity.Length), Floor: quantity.ZeroFloor, Most: 2e-3, Doc: "lash at the valve while a lift was read there; nought where it was taken up"},
		{Name: "columns", Kind: KindTable, Doc: "heads of the columns, where they don't say it themselves", Keys: []Key{
			{Name: "angle", Kind: KindText, Doc: "head of the column of crank angle"},
			{Name: "lift", Kind: KindText, Doc: "head of the column of lift"},
		}},
	}},
	{Name: "fuelling", Kind: KindTables, Doc: "a log of the mixture, one file or several", Keys: append([]Key{
		{Name: "data", Kind: KindTexts, Needed: true, Doc: "CSV files: engine speed, throttle, lambda or air-fuel ratio, and time"},
		{Name: "columns", Kind: KindTable, Doc: "heads of the columns, where they don't say it themselves", Keys: []Key{
			{Name: "rpm", Kind: KindText, Doc: "head of the column of engine speed"},
			{Name: "throttle", Kind: KindText, Doc: "head of the column of throttle opening"},
			{Name: "lambda", Kind: KindText, Doc: "head of the column of lambda or air-fuel ratio"},
			{Name: "time", Kind: KindText, Doc: "head of the column of time"},
		}},
		{Name: "ratio", Kind: KindFigure, Dimensions: dims(quantity.AirFuel, quantity.Pure), Unit: "AFR", Floor: quantity.OverZero, Least: 1.5, Most: 40, Doc: "air-fuel ratio that this meter shows at lambda 1; that of `[fuelling]` where it is left out"},
	}, logKeys...)},
	{Name: "logs", Kind: KindTables, Doc: "a log of temperatures, pressures and the like", Keys: append([]Key{
		{Name: "data", Kind: KindTexts, Needed: true, Doc: "CSV files: time, and a column a path"},
		{Name: "columns", Kind: KindTable, Doc: "heads of the columns, where they don't say it themselves", Keys: []Key{
			{Name: "time", Kind: KindText, Doc: "head of the column of time"},
		}},
	}, logKeys...)},
	{Name: "readings", Kind: KindTables, Doc: "many readings from one file", Keys: []Key{
		{Name: "data", Kind: KindText, Needed: true, Doc: "CSV file: path, found or set, and with, engine-temp, note"},
	}},
	{Name: "accept", Kind: KindTables, Doc: "a finding that is accepted, and why", Keys: []Key{
		{Name: "finding", Kind: KindName, Needed: true, Doc: "name of the finding"},
		{Name: "at", Kind: KindSubject, Doc: "path, part, tool, file or link that it is about, as the findings' JSON has it for `path`"},
		{Name: "why", Kind: KindText, Needed: true, Doc: "the reason"},
	}},
}}

// fullTurn is a turn in rad, with room for rounding.
const fullTurn = 6.2832

// detailKeys are the keys of a value written with details.
var detailKeys = &Key{Name: "value with details", Kind: KindTable, Keys: []Key{
	{Name: "value", Kind: KindFigures, Doc: "the value"},
	{Name: "words", Kind: KindText, Doc: "the value, where words begin like a figure"},
	{Name: "with", Kind: KindName, Doc: "the tool that took it"},
	{Name: "engine-temp", Kind: KindFigure, Dimensions: dims(quantity.Temperature), Doc: "engine temperature while reading"},
	{Name: "was", Kind: KindText, Doc: "what stood here before it was corrected"},
	{Name: "note", Kind: KindText, Doc: "words for the reader"},
	{Name: "adapter", Kind: KindFigure, Dimensions: dims(quantity.Length), Most: 1, Doc: "length of a wrench adapter, from drive to fastener"},
	{Name: "adapter-angle", Kind: KindFigure, Dimensions: dims(quantity.Angle), Least: -fullTurn, Most: fullTurn, Doc: "angle of the adapter to the wrench; 0° is straight on"},
}}
