package parse

import (
	"strings"
	"testing"
)

// keySample is a key of the format with a text in which it is right, what must be decoded from that, a text in which it is wrong,
// and the finding that this must give. `⏎` stands for a line end.
type keySample struct {
	key        string // its tables, by dots
	good, want string
	bad, wrong string // wrong: rule and underlined text
}

// Figures are worked out by hand into SI units: metres, cubic metres, kelvin, pascals, radians … Factors that are not decimal are
// those of the international yard and pound agreement of 1959 (inch 25.4 mm, pound 0.45359237 kg), from memory.
var keySamples = map[string][]keySample{
	"build.toml": {
		{"format", `format = 1`, `1`, `format = "one"`, `wrong-kind: "one"`},
		{"title", `title = "Curlew for the hill"`, `"Curlew for the hill"`, `title = 250`, `wrong-kind: 250`},
		{"url", `url = "https://example.org/curlew/"`, `"https://example.org/curlew/"`, `url = ["a"]`, `wrong-kind: ["a"]`},
		{"fitted", `fitted = ["cam_std", "Head-Std"]`, `cam-std, head-std`, `fitted = ["cam std"]`, `bad-name: "cam std"`},
		{"site", "[site]⏎theme = \"plain\"", `{theme plain}`, `site = "plain"`, `wrong-kind: "plain"`},
		{"site.theme", `site.theme = "workshop"`, `workshop`, `site.theme = 1`, `wrong-kind: 1`},
		{"site.home", `site.home = "A *twin*."`, `"A *twin*."`, `site.home = ""`, `empty-value: ""`},
		{"site.hide", `site.hide = ["spend", "photos"]`, `spend, photos`, `site.hide = [true]`, `wrong-kind: true`},
		{"units", "[units]⏎torque = [\"Nm\", \"ft-lb\"]⏎money = \"GBP\"", `torque: N·m lbf·ft, money: GBP GBP`, "[units]⏎torque = \"mm\"", `unknown-unit: "mm"`},
		{"machine", "[machine]⏎name = \"Curlew 250\"", `{name "Curlew 250"}`, `machine = 250`, `wrong-kind: 250`},
		{"machine.name", `machine.name = "Curlew 250"`, `"Curlew 250"`, `machine.name = 250`, `wrong-kind: 250`},
		{"machine.year", `machine.year = 1987`, `1987`, `machine.year = 1987.5`, `wrong-kind: 1987.5`},
		{"machine.meter", `machine.meter = "KM"`, `"km"`, `machine.meter = "miles"`, `unknown-word: "miles"`},
		{"goals", "[goals]⏎power.peak = \"30 kW\"", `goals power.peak = 30000 power`, "[goals]⏎power.peak = \"30,5 kW\"", `decimal-comma: 30,5`},
		{"engine", "[engine]⏎bore = \"53 mm\"", `{bore 0.053 length}`, `engine = "twin"`, `wrong-kind: "twin"`},
		{"engine.cylinders", `engine.cylinders = ["Left", "right"]`, `left, right, 2`, `engine.cylinders = 0`, `wrong-kind: 0`},
		{"engine.cycle", `engine.cycle = "Two_Stroke"`, `"two-stroke"`, `engine.cycle = "2T"`, `unknown-word: "2T"`},
		{"engine.bore", `engine.bore = "53.0 mm"`, `0.053 length`, `engine.bore = "53.0 kg"`, `wrong-dimension: kg`},
		{"engine.stroke", `engine.stroke = "2 in"`, `0.0508 length`, `engine.stroke = 56.4`, `missing-unit: 56.4`},
		{"engine.rod", `engine.rod = "104 mm"`, `0.104 length`, `engine.rod = "long"`, `bad-quantity: "long"`},
		{"engine.chamber", `engine.chamber = "12.9 cc"`, `1.29e-05 volume`, `engine.chamber = "12.9 mm"`, `wrong-dimension: mm`},
		{"engine.deck", `engine.deck = "-0.4 mm"`, `-0.0004 length`, `engine.deck = ".4 mm"`, `leading-dot: .4`},
		{"engine.gasket", `engine.gasket = { bore = "54 mm" }`, `{bore 0.054 length}`, `engine.gasket = "54 mm"`, `wrong-kind: "54 mm"`},
		{"engine.gasket.bore", `engine.gasket.bore = "54 mm"`, `0.054 length`, `engine.gasket.bore = "54 rpm"`, `wrong-dimension: rpm`},
		{"engine.gasket.thickness", `engine.gasket.thickness = "0.8 mm"`, `0.0008 length`, `engine.gasket.thickness = "0.8"`, `missing-unit: 0.8`},
		{"engine.dome", `engine.dome = "1.2 cm3"`, `1.2e-06 volume`, `engine.dome = "1.2 cm"`, `wrong-dimension: cm`},
		{"engine.dish", `engine.dish = "0.5 mL"`, `5e-07 volume`, `engine.dish = false`, `wrong-kind: false`},
		{"engine.valve", `engine.valve = { intake = "27 mm" }`, `{intake 0.027 length}`, `engine.valve = "27 mm"`, `wrong-kind: "27 mm"`},
		{"engine.valve.intake", `engine.valve.intake = "27 mm"`, `0.027 length`, `engine.valve.intake = 27`, `missing-unit: 27`},
		{"engine.valve.exhaust", `engine.valve.exhaust = "23 mm"`, `0.023 length`, `engine.valve.exhaust = "23 °"`, `wrong-dimension: °`},
		{"engine.redline", `engine.redline = 12000`, `1256.64 speed of rotation`, `engine.redline = "12,000 rpm"`, `thousands: 12,000`},
		{"engine.cam-sprocket", `engine.cam_sprocket = 34`, `34 number of teeth`, `engine.cam-sprocket = "34 mm"`, `wrong-dimension: mm`},
		{"engine.rocker-ratio", `engine.rocker-ratio = { intake = 1.22 }`, `{intake 1.22 pure number}`, `engine.rocker-ratio = 1.22`, `wrong-kind: 1.22`},
		{"engine.rocker-ratio.intake", `engine.rocker-ratio.intake = 1.22`, `1.22 pure number`, `engine.rocker-ratio.intake = "1.22 mm"`, `wrong-dimension: mm`},
		{"engine.rocker-ratio.exhaust", `engine.rocker-ratio.exhaust = "1.18:1"`, `1.18 pure number`, `engine.rocker-ratio.exhaust = nan`, `bad-number: nan`},
		{"engine.adjuster", `engine.adjuster = { kind = "shim" }`, `{kind "shim"}`, `engine.adjuster = "shim"`, `wrong-kind: "shim"`},
		{"engine.adjuster.kind", `engine.adjuster.kind = "screw"`, `"screw"`, `engine.adjuster = { pitch = "0.5 mm" }`, `missing-key: { pitch = "0.5 mm" }`},
		{"engine.adjuster.pitch", `engine.adjuster = { kind = "screw", pitch = "0.5 mm" }`, `0.0005 length`, `engine.adjuster = { kind = "screw", pitch = "M5" }`, `bad-quantity: "M5"`},
		{"engine.adjuster.at", `engine.adjuster = { kind = "screw", at = "cam" }`, `"cam"`, `engine.adjuster = { kind = "screw", at = "vale" }`, `unknown-word: "vale"`},
		{"engine.adjuster.sizes", `engine.adjuster = { kind = "shim", sizes = "1.20..3.50 mm by 0.05" }`, `47 sizes, 0.0012 to 0.0035`,
			`engine.adjuster = { kind = "shim", sizes = "1.20..3.50 mm by 0.07" }`, `bad-quantity: "1.20..3.50 mm by 0.07"`},
		{"engine.adjuster.stock", `engine.adjuster = { kind = "shim", stock = ["2.35 mm", "2.40 mm"] }`, `0.00235 length, 0.0024 length`,
			`engine.adjuster = { kind = "shim", stock = ["2.35 mm", "2.40"] }`, `missing-unit: 2.40`},
		{"engine.adjuster.intake", `engine.adjuster = { kind = "shim", intake = { stock = ["2.35 mm"] } }`, `{stock 0.00235 length}`, `engine.adjuster = { kind = "shim", intake = "2.35 mm" }`, `wrong-kind: "2.35 mm"`},
		{"engine.adjuster.intake.sizes", `engine.adjuster = { kind = "shim", intake.sizes = "1.20..3.50 mm by 0.05" }`, `47 sizes, 0.0012 to 0.0035`,
			`engine.adjuster = { kind = "shim", intake.sizes = "1.20..3.50 mm" }`, `bad-quantity: "1.20..3.50 mm"`},
		{"engine.adjuster.intake.stock", `engine.adjuster = { kind = "shim", intake.stock = ["2.35 mm"] }`, `0.00235 length`, `engine.adjuster = { kind = "shim", intake.stock = ["2.35"] }`, `missing-unit: 2.35`},
		{"engine.adjuster.exhaust", `engine.adjuster = { kind = "shim", exhaust = { stock = ["2.35 mm"] } }`, `{stock 0.00235 length}`, `engine.adjuster = { kind = "shim", exhaust = ["2.35 mm"] }`, `wrong-kind: ["2.35 mm"]`},
		{"engine.adjuster.exhaust.sizes", `engine.adjuster = { kind = "shim", exhaust.sizes = "1.20..3.50 mm by 0.05" }`, `47 sizes, 0.0012 to 0.0035`,
			`engine.adjuster = { kind = "shim", exhaust.sizes = "1.20..3.50 mm by 0" }`, `bad-quantity: "1.20..3.50 mm by 0"`},
		{"engine.adjuster.exhaust.stock", `engine.adjuster = { kind = "shim", exhaust.stock = ["2.35 mm"] }`, `0.00235 length`, `engine.adjuster = { kind = "shim", exhaust.stock = ["2.35 rpm"] }`, `wrong-dimension: rpm`},
		{"engine.injector", `engine.injector = { count = 2 }`, `{count 2 pure number}`, `engine.injector = 2`, `wrong-kind: 2`},
		{"engine.injector.count", `engine.injector.count = 2`, `2 pure number`, `engine.injector.count = "two"`, `bad-quantity: "two"`},
		{"engine.injector.flow", `engine.injector.flow = "180 cm3/min"`, `3e-06 volume flow`, `engine.injector.flow = "180 cm3"`, `wrong-dimension: cm3`},
		{"engine.consumption", `engine.consumption = "300 g/(kW·h)"`, `8.33333e-08 specific fuel consumption`, `engine.consumption = "300 g"`, `wrong-dimension: g`},
		{"drive", "[drive]⏎final = \"41/15\"", `{final 2.73333 pure number}`, `drive = "chain"`, `wrong-kind: "chain"`},
		{"drive.primary", `drive.primary = "68/21"`, `3.2381 pure number`, `drive.primary = "68/0"`, `bad-quantity: 68/0`},
		{"drive.gears", `drive.gears = ["36/12", "2:1", 1.5]`, `3 pure number, 2 pure number, 1.5 pure number`, `drive.gears = ["36/12", "x"]`, `bad-quantity: "x"`},
		{"drive.final", `drive.final = "41/15"`, `2.73333 pure number`, `drive.final = "41 teeth"`, `wrong-dimension: teeth`},
		{"drive.tyre", `drive.tyre = "130/80-17"`, `"130/80-17"`, `drive.tyre = "130/8O-17"`, `bad-quantity: "130/8O-17"`},
		{"drive.chain-pitch", `drive.chain-pitch = "12.7 mm"`, `0.0127 length`, `drive.chain-pitch = "428"`, `missing-unit: 428`},
		{"drive.cruise", `drive.cruise = "90 km/h"`, `25 speed`, `drive.cruise = "90 km"`, `wrong-dimension: km`},
		{"power", "[power]⏎correct-to = \"SAE J1349\"", `{correct-to "SAE J1349"}`, `power = "30 hp"`, `wrong-kind: "30 hp"`},
		{"power.correct-to", `power.correct-to = "SAE J1349"`, `"SAE J1349"`, `power.correct-to = "J1349"`, `unknown-word: "J1349"`},
		{"power.band", `power.band = "6000..9000 rpm"`, `628.319..942.478 speed of rotation`, `power.band = "9000..6000 rpm"`, `reversed-interval: 9000..6000 rpm`},
		{"fuelling", "[fuelling]⏎fuel = \"E10\"", `{fuel "E10"}`, `fuelling = "E10"`, `wrong-kind: "E10"`},
		{"fuelling.fuel", `fuelling.fuel = "E10"`, `"E10"`, `fuelling.fuel = 10`, `wrong-kind: 10`},
		{"fuelling.ratio", `fuelling.ratio = 14.7`, `14.7 air-fuel ratio`, `fuelling.ratio = "14.7 mm"`, `wrong-dimension: mm`},
		{"fuelling.seen-for", `fuelling.seen-for = "2 s"`, `2 time`, `fuelling.seen-for = "-2 s"`, `bad-quantity: -2 s`},
		{"fuelling.tolerance", `fuelling.tolerance = 0.03`, `0.03 lambda`, `fuelling.tolerance = 3`, `bad-quantity: 3`},
		{"fuelling.target", "fuelling.target = \"\"\"⏎lambda 2000 4000⏎10 1.00 0.98⏎100 0.90 0.88⏎\"\"\"", `lambda 2000 4000 / 10 1.00 0.98 / 100 0.90 0.88`,
			"fuelling.target = \"\"\"⏎lambda 2000⏎10 rich⏎\"\"\"", `bad-grid: rich`},
	},
	"limits.toml": {
		{"title", `title = "Lash, cold"`, `"Lash, cold"`, `title = []`, `wrong-kind: []`},
		{"basis", `basis = "Manual"`, `"manual"`, `basis = "forum"`, `unknown-word: "forum"`},
		{"source", `source = "label under the seat"`, `"label under the seat"`, `source = 4`, `wrong-kind: 4`},
		{"every", `every = ["4000 km", "12 months", "20 h"]`, `4e+06 length, 12 calendar time, 72000 time`, `every = "4000 kg"`, `wrong-dimension: kg`},
		{"when", `when = { engine-temp = "..35 °C" }`, `{engine-temp -Inf..308.15 temperature}`, `when = "cold"`, `wrong-kind: "cold"`},
		{"when.engine-temp", `when.engine-temp = "60..80 °C"`, `333.15..353.15 temperature`, `when.engine-temp = "cold"`, `bad-quantity: "cold"`},
		{"decision", `decision = "guarded"`, `"guarded"`, `decision = "maybe"`, `unknown-word: "maybe"`},
		{"nominal", `nominal = "20 N·m then 35 N·m then 48 N·m"`, `3 steps, last 48 torque`, `nominal = "20 N·m then"`, `bad-quantity: then`},
		{"tolerance", `tolerance = "0.02 mm"`, `2e-05 length`, `tolerance = "0,02 mm"`, `decimal-comma: 0,02`},
		{"plus", `plus = "3 Nm"`, `3 torque`, `plus = ["3 Nm"]`, `wrong-kind: ["3 Nm"]`},
		{"minus", `minus = "1 Nm"`, `1 torque`, `minus = ".5 Nm"`, `leading-dot: .5`},
		{"low", `low = "0.015 mm"`, `1.5e-05 length`, `low = "<0.015 mm"`, `rough-figure: <`},
		{"high", `high = "0.045 mm"`, `4.5e-05 length`, `high = "0.045 mn"`, `unknown-unit: mn`},
		{"expect", `expect = ["aligned", "half a tooth late"]`, `"aligned", "half a tooth late"`, `expect = 1`, `wrong-kind: 1`},
		{"service", `service = "..0.20 mm"`, `-Inf..0.0002 length`, `service = "0.08-0.20 mm"`, `range-dash: -`},
		{"allowance", `allowance = "0.10 mm"`, `0.0001 length`, `allowance = ".1 mm"`, `leading-dot: .1`},
		{"also", `also = "0.005 in"`, `0.000127 length`, `also = "0.005\" or so"`, `bad-quantity: or so`},
		{"thread", `thread = "M9x1.25"`, `"M9x1.25"`, `thread = "M9x7"`, `bad-thread: "M9x7"`},
		{"class", `class = "10.9"`, `"10.9"`, `class = "10,9"`, `decimal-comma: "10,9"`},
		{"into", `into = "aluminium"`, `"aluminium"`, `into = true`, `wrong-kind: true`},
		{"into-shear", `into-shear = "140 MPa"`, `1.4e+08 pressure`, `into-shear = "0 MPa"`, `bad-quantity: 0 MPa`},
		{"engagement", `engagement = "18 mm"`, `0.018 length`, `engagement = "18 N·m"`, `wrong-dimension: N·m`},
		{"threads", `threads = "oiled"`, `"oiled"`, `threads = "oild"`, `unknown-word: "oild"`},
		{"thread-friction", `thread-friction = "0.10..0.16"`, `0.1..0.16 pure number`, `thread-friction = "0.10..1.6"`, `bad-quantity: 0.10..1.6`},
		{"running-torque", `running-torque = "1.2 N·m"`, `1.2 torque`, `running-torque = "-1.2 N·m"`, `bad-quantity: -1.2 N·m`},
		{"drive", `drive = "12 mm hex"`, `"12 mm hex"`, `drive = 12`, `wrong-kind: 12`},
		{"order", `order = "5 6 4, 7-3 8 2 1"`, `"5 6 4 7 3 8 2 1"`, `order = "1 2 12 2"`, `bad-order: 2`},
		{"of", `of = ["Bore", "piston"]`, `bore, piston`, `of = ["bore", "the piston"]`, `bad-name: "the piston"`},
		{"note", `note = "Cold."`, `"Cold."`, `note = 1`, `wrong-kind: 1`},
	},
	"parts.toml": {
		{"title", `title = "212-profile camshaft"`, `"212-profile camshaft"`, `title = 212`, `wrong-kind: 212`},
		{"slot", `slot = "Camshaft"`, `camshaft`, `slot = ["camshaft"]`, `wrong-kind: ["camshaft"]`},
		{"price", `price = 145`, `145 money GBP`, `price = "145,00 GBP"`, `decimal-comma: 145,00`},
		{"mass", `mass = "1 lb"`, `0.453592 mass`, `mass = 0.61`, `missing-unit: 0.61`},
		{"needs", `needs = ["fuelling"]`, `fuelling`, `needs = [1]`, `wrong-kind: 1`},
		{"gives", `gives = "fuelling"`, `fuelling`, `gives = "more fuel"`, `bad-name: "more fuel"`},
		{"clashes", `clashes = ["head-std-springs"]`, `head-std-springs`, `clashes = true`, `wrong-kind: true`},
		{"then", `then = ["lash.Inlet", "timing.marks"]`, `lash.intake, timing.marks`, `then = ["lash..left"]`, `bad-name: "lash..left"`},
		{"claim", `claim = { power = "1.5..2.5 kW", from = "7000 rpm" }`, `{power 1500..2500 power, from 733.038 speed of rotation}`, `claim = "2 hp"`, `wrong-kind: "2 hp"`},
		{"claim.power", `claim.power = "1.5..2.5 kW"`, `1500..2500 power`, `claim.power = "1.5..2.5 N·m"`, `wrong-dimension: N·m`},
		{"claim.torque", `claim.torque = "2 N·m"`, `2 torque`, `claim.torque = "2 kW"`, `wrong-dimension: kW`},
		{"claim.mass", `claim.mass = "300 g"`, `0.3 mass`, `claim.mass = "300 mm"`, `wrong-dimension: mm`},
		{"claim.from", `claim.from = "7000 rpm"`, `733.038 speed of rotation`, `claim.from = 7000`, `missing-unit: 7000`},
		{"claim.to", `claim.to = "10000 rpm"`, `1047.2 speed of rotation`, `claim.to = "10.000 km"`, `wrong-dimension: km`},
		{"every", `every = ["20000 km"]`, `2e+07 length`, `every = ["20000"]`, `missing-unit: 20000`},
		{"meter", `meter = "4.8 h"`, `17280 time`, `meter = "4,8 h"`, `decimal-comma: 4,8`},
		{"source", `source = "supplier's card"`, `"supplier's card"`, `source = 1`, `wrong-kind: 1`},
		{"note", `note = "Second hand."`, `"Second hand."`, `note = 1`, `wrong-kind: 1`},
		{"brings", "[p.brings.cam.intake]⏎opens = \"18° BTDC\"⏎lift = \"7.9 mm\"", "brings cam.intake.opens = -0.314159 BTDC angle\nbrings cam.intake.lift = 0.0079 length",
			"[p.brings.cam.intake]⏎lift = \"7,9 mm\"", `decimal-comma: 7,9`},
		{"limits", "[p.limits.lash]⏎intake = \"0.10 ± 0.02 mm\"", `lash.intake = 0.0001±2e-05 length`, "[p.limits.lash]⏎intake = \".10 mm\"", `leading-dot: .10`},
	},
	"tools.toml": {
		{"title", `title = "Feeler gauge"`, `"Feeler gauge"`, `title = 1`, `wrong-kind: 1`},
		{"for", `for = ["lash", "gap.plug"]`, `lash, gap.plug`, `for = ["lash", 1]`, `wrong-kind: 1`},
		{"leaves", `leaves = ["0.05 mm", "0.10 mm"]`, `5e-05 length, 0.0001 length`, `leaves = ["0.05 mm", "0,10 mm"]`, `decimal-comma: 0,10`},
		{"range", `range = "5..60 N·m"`, `5..60 torque`, `range = "60..5 N·m"`, `reversed-interval: 60..5 N·m`},
		{"resolution", `resolution = "0.01 mm"`, `1e-05 length`, `resolution = inf`, `bad-number: inf`},
		{"error", `error = "4 %"`, `0.04 pure number`, `error = "4 xq"`, `unknown-unit: xq`},
		{"error-of", `error-of = "Maximum"`, `"maximum"`, `error-of = "scale"`, `unknown-word: "scale"`},
		{"uncertainty", `uncertainty = "0.004 mm"`, `4e-06 length`, `uncertainty = ""`, `empty-value: ""`},
		{"repeatability", `repeatability = "1 %"`, `0.01 pure number`, `repeatability = ["1 %"]`, `wrong-kind: ["1 %"]`},
		{"length", `length = "180 mm"`, `0.18 length`, `length = "180 g"`, `wrong-dimension: g`},
		{"calibrated", `calibrated = [2025-01-12, "2026-01-10"]`, `2025-01-12, 2026-01-10`, `calibrated = [2025-01-12, "10/01/2026"]`, `slash-date: "10/01/2026"`},
		{"calibrate-every", `calibrate-every = "12 months"`, `12 calendar time`, `calibrate-every = "12 mm"`, `wrong-dimension: mm`},
		{"note", `note = "Borrowed."`, `"Borrowed."`, `note = 1`, `wrong-kind: 1`},
	},
	"entry": {
		{"title", `title = "Cam in"`, `"Cam in"`, `title = 2026-04-18`, `wrong-kind: 2026-04-18`},
		{"date", `date = 2026-04-18T19:30`, `2026-04-18 19:30`, `date = "April"`, `bad-date: "April"`},
		{"meter", `meter = 18240`, `1.824e+07 length`, `meter = "18,240 km"`, `thousands: 18,240`},
		{"meter-was", `meter-was = "38.0 h"`, `136800 time`, `meter-was = "38,0 h"`, `decimal-comma: 38,0`},
		{"engine-temp", `engine-temp = "19 °C"`, `292.15 temperature`, `engine-temp = "19"`, `missing-unit: 19`},
		{"bought", `bought = ["cam-212"]`, `cam-212`, `bought = "cam 212"`, `bad-name: "cam 212"`},
		{"fitted", `fitted = "cam-212"`, `cam-212`, `fitted = [212]`, `wrong-kind: 212`},
		{"removed", `removed = []`, ``, `removed = 1`, `wrong-kind: 1`},
		{"with", `with = ["feeler", "click_wrench"]`, `feeler, click-wrench`, `with = [["feeler"]]`, `wrong-kind: ["feeler"]`},
		{"expects", `expects = ["torque.cam-cover"]`, `torque.cam-cover`, `expects = ["torque."]`, `bad-name: "torque."`},
		{"hours", `hours = 3.5`, `12600 time`, `hours = "3.5 km"`, `wrong-dimension: km`},
		{"spent", `spent = [{ for = "oil", price = 9.40 }]`, `{for "oil", price 9.4 money GBP}`, `spent = 9.40`, `wrong-kind: 9.40`},
		{"spent.for", `spent = { for = "oil", price = 9 }`, `"oil"`, `spent = { price = 9 }`, `missing-key: { price = 9 }`},
		{"spent.price", `spent = { for = "oil", price = "9.40 EUR" }`, `9.4 money EUR`, `spent = { for = "oil" }`, `missing-key: { for = "oil" }`},
		{"spent.part", `spent = { for = "post", price = 9, part = "Cam-212" }`, `cam-212`, `spent = { for = "post", price = 9, part = 1 }`, `wrong-kind: 1`},
		{"spent.note", `spent = { for = "oil", price = 9, note = "dear" }`, `"dear"`, `spent = { for = "oil", price = 9, note = 1 }`, `wrong-kind: 1`},
		{"tags", `tags = ["Valve_Train"]`, `valve-train`, `tags = ["valve train"]`, `bad-name: "valve train"`},
		{"found", "[found]⏎lash.intake.left = \"0.10..0.13 mm\"", `found lash.intake.left = 0.0001..0.00013 length`, "[found]⏎lash.intake.left = \"0,10 mm\"", `decimal-comma: 0,10`},
		{"set", "[set]⏎timing.marks = \"aligned\"", `set timing.marks = "aligned"`, "[set]⏎torque.x = true", `wrong-kind: true`},
		{"later", "[[later]]⏎do = \"Lash\"⏎after = \"300 km\"", `{do "Lash", after 300000 length}`, `later = "Lash"`, `wrong-kind: "Lash"`},
		{"later.do", "[[later]]⏎do = \"Lash\"", `"Lash"`, "[[later]]⏎after = \"300 km\"", `missing-key: [[later]]`},
		{"later.reading", "[[later]]⏎do = \"x\"⏎reading = [\"lash\", \"gap.plug\"]", `lash, gap.plug`, "[[later]]⏎do = \"x\"⏎reading = \"the lash\"", `bad-name: "the lash"`},
		{"later.after", "[[later]]⏎do = \"x\"⏎after = [\"300 km\", \"6 months\"]", `300000 length, 6 calendar time`, "[[later]]⏎do = \"x\"⏎after = 300", `missing-unit: 300`},
		{"later.on", "[[later]]⏎do = \"x\"⏎on = 2026-09-01", `2026-09-01`, "[[later]]⏎do = \"x\"⏎on = \"01/09/2026\"", `slash-date: "01/09/2026"`},
		{"pulls", "[[pulls]]⏎data = \"data/p7.csv\"", `{data "data/p7.csv"}`, `pulls = "data/p7.csv"`, `wrong-kind: "data/p7.csv"`},
		{"pulls.data", "[[pulls]]⏎data = [\"data/p7.csv\", \"data/p8.csv\"]", `"data/p7.csv", "data/p8.csv"`, "[[pulls]]⏎data = [7]", `wrong-kind: 7`},
		{"pulls.peak", "[[pulls]]⏎peak = [\"10 kW\", \"10.2 kW\"]", `10000 power, 10200 power`, "[[pulls]]⏎peak = [\"10 kW\", \"10.2\"]", `missing-unit: 10.2`},
		{"pulls.torque", "[[pulls]]⏎torque = \"19.2 N·m\"", `19.2 torque`, "[[pulls]]⏎torque = \"19,2 N·m\"", `decimal-comma: 19,2`},
		{"pulls.ratio", "[[pulls]]⏎ratio = 14.7", `14.7 air-fuel ratio`, "[[pulls]]⏎ratio = \"rich\"", `bad-quantity: "rich"`},
		{"pulls.paths", "[[pulls]]⏎paths = { oil.temp = \"T_OIL\" }", `goals oil.temp = "T_OIL"`, "[[pulls]]⏎paths = \"T_OIL\"", `wrong-kind: "T_OIL"`},
		{"pulls.with", "[[pulls]]⏎with = \"lambda-meter\"", `lambda-meter`, "[[pulls]]⏎with = 1", `wrong-kind: 1`},
		{"pulls.columns", "[[pulls]]⏎columns = { rpm = \"RPM\", power = \"P [hp]\" }", `{rpm "RPM", power "P [hp]"}`, "[[pulls]]⏎columns = [\"RPM\"]", `wrong-kind: ["RPM"]`},
		{"pulls.columns.rpm", "[[pulls]]⏎columns.rpm = \"RPM\"", `"RPM"`, "[[pulls]]⏎columns.rpm = 1", `wrong-kind: 1`},
		{"pulls.columns.power", "[[pulls]]⏎columns.power = \"P [hp]\"", `"P [hp]"`, "[[pulls]]⏎columns.power = 2", `wrong-kind: 2`},
		{"pulls.columns.torque", "[[pulls]]⏎columns.torque = \"T\"", `"T"`, "[[pulls]]⏎columns.torque = 3", `wrong-kind: 3`},
		{"pulls.columns.lambda", "[[pulls]]⏎columns.lambda = \"L\"", `"L"`, "[[pulls]]⏎columns.lambda = 4", `wrong-kind: 4`},
		{"pulls.columns.throttle", "[[pulls]]⏎columns.throttle = \"TPS\"", `"TPS"`, "[[pulls]]⏎columns.throttle = 5", `wrong-kind: 5`},
		{"pulls.columns.time", "[[pulls]]⏎columns.time = \"t\"", `"t"`, "[[pulls]]⏎columns.time = 6", `wrong-kind: 6`},
		{"pulls.dyno", "[[pulls]]⏎dyno = \"Rolling-Road\"", `rolling-road`, "[[pulls]]⏎dyno = \"rolling road\"", `bad-name: "rolling road"`},
		{"pulls.gear", "[[pulls]]⏎gear = 4", `4`, "[[pulls]]⏎gear = \"4th\"", `wrong-kind: "4th"`},
		{"pulls.air", "[[pulls]]⏎air = { temp = \"21 °C\", humidity = \"55 %\" }", `{temp 294.15 temperature, humidity 0.55 pure number}`, "[[pulls]]⏎air = \"21 °C\"", `wrong-kind: "21 °C"`},
		{"pulls.air.temp", "[[pulls]]⏎air.temp = \"21 C\"", `294.15 temperature`, "[[pulls]]⏎air.temp = \"21 kPa\"", `wrong-dimension: kPa`},
		{"pulls.air.pressure", "[[pulls]]⏎air.pressure = \"98.6 kPa\"", `98600 absolute pressure`, "[[pulls]]⏎air.pressure = \"98,6 kPa\"", `decimal-comma: 98,6`},
		{"pulls.air.humidity", "[[pulls]]⏎air.humidity = \"55 %\"", `0.55 pure number`, "[[pulls]]⏎air.humidity = 55", `missing-unit: 55`},
		{"pulls.air.dew-point", "[[pulls]]⏎air.dew_point = \"11 °C\"", `284.15 temperature`, "[[pulls]]⏎air.dew-point = \"wet\"", `bad-quantity: "wet"`},
		{"pulls.air.sea-level", "[[pulls]]⏎air.sea-level = \"1018 hPa\"", `101800 absolute pressure`, "[[pulls]]⏎air.sea-level = \"1018\"", `missing-unit: 1018`},
		{"pulls.air.altitude", "[[pulls]]⏎air.altitude = \"240 m\"", `240 length`, "[[pulls]]⏎air.altitude = \"240 °C\"", `wrong-dimension: °C`},
		{"pulls.corrected", "[[pulls]]⏎corrected = \"none\"", `"none"`, "[[pulls]]⏎corrected = \"SAE\"", `unknown-word: "SAE"`},
		{"pulls.at", "[[pulls]]⏎at = \"wheel\"", `"wheel"`, "[[pulls]]⏎at = \"hub\"", `unknown-word: "hub"`},
		{"pulls.state", "[[pulls]]⏎state = \"before\"", `"before"`, "[[pulls]]⏎state = \"befor\"", `unknown-word: "befor"`},
		{"pulls.note", "[[pulls]]⏎note = \"hot\"", `"hot"`, "[[pulls]]⏎note = 1", `wrong-kind: 1`},
		{"degreeing", "[[degreeing]]⏎data = \"data/lift.csv\"⏎of = \"cam.intake\"", `{data "data/lift.csv", of cam.intake}`, `degreeing = true`, `wrong-kind: true`},
		{"degreeing.data", "degreeing = { data = \"data/lift.csv\", of = \"cam.intake\" }", `"data/lift.csv"`, "degreeing = { of = \"cam.intake\" }", `missing-key: { of = "cam.intake" }`},
		{"degreeing.of", "degreeing = { data = \"d.csv\", of = \"cam.inlet\" }", `cam.intake`, "degreeing = { data = \"d.csv\", of = \"the cam\" }", `bad-name: "the cam"`},
		{"degreeing.zero", "degreeing = { data = \"d.csv\", of = \"cam.intake\", zero = \"TDC\" }", `"TDC"`, "degreeing = { data = \"d.csv\", of = \"cam.intake\", zero = 0 }", `wrong-kind: 0`},
		{"degreeing.columns", "degreeing = { data = \"d.csv\", of = \"cam.intake\", columns = { angle = \"A\" } }", `{angle "A"}`, "degreeing = { data = \"d.csv\", of = \"cam.intake\", columns = \"A\" }", `wrong-kind: "A"`},
		{"degreeing.columns.angle", "degreeing = { data = \"d.csv\", of = \"cam.intake\", columns = { angle = \"A\" } }", `"A"`, "degreeing = { data = \"d.csv\", of = \"cam.intake\", columns = { angle = 1 } }", `wrong-kind: 1`},
		{"degreeing.columns.lift", "degreeing = { data = \"d.csv\", of = \"cam.intake\", columns = { lift = \"L\" } }", `"L"`, "degreeing = { data = \"d.csv\", of = \"cam.intake\", columns = { lift = true } }", `wrong-kind: true`},
		{"degreeing.at", "degreeing = { data = \"d.csv\", of = \"cam.intake\", at = \"cam\" }", `"cam"`, "degreeing = { data = \"d.csv\", of = \"cam.intake\", at = \"lobe\" }", `unknown-word: "lobe"`},
		{"degreeing.lash", "degreeing = { data = \"d.csv\", of = \"cam.intake\", lash = \"0.10 mm\" }", `0.0001 length`, "degreeing = { data = \"d.csv\", of = \"cam.intake\", lash = \"0.10\" }", `missing-unit: 0.10`},
		{"fuelling", "[[fuelling]]⏎data = \"data/log.csv\"", `{data "data/log.csv"}`, `fuelling = "rich"`, `wrong-kind: "rich"`},
		{"fuelling.data", "fuelling = { data = \"data/log.csv\" }", `"data/log.csv"`, "fuelling = { columns = { rpm = \"R\" } }", `missing-key: { columns = { rpm = "R" } }`},
		{"fuelling.columns", "fuelling = { data = \"d.csv\", columns = { rpm = \"R\" } }", `{rpm "R"}`, "fuelling = { data = \"d.csv\", columns = 1 }", `wrong-kind: 1`},
		{"fuelling.columns.rpm", "fuelling = { data = \"d.csv\", columns.rpm = \"R\" }", `"R"`, "fuelling = { data = \"d.csv\", columns.rpm = 1 }", `wrong-kind: 1`},
		{"fuelling.columns.lambda", "fuelling = { data = \"d.csv\", columns.lambda = \"R\" }", `"R"`, "fuelling = { data = \"d.csv\", columns.lambda = 1 }", `wrong-kind: 1`},
		{"fuelling.columns.throttle", "fuelling = { data = \"d.csv\", columns.throttle = \"R\" }", `"R"`, "fuelling = { data = \"d.csv\", columns.throttle = 1 }", `wrong-kind: 1`},
		{"fuelling.columns.time", "fuelling = { data = \"d.csv\", columns.time = \"R\" }", `"R"`, "fuelling = { data = \"d.csv\", columns.time = 1 }", `wrong-kind: 1`},
		{"fuelling.ratio", "fuelling = { data = \"d.csv\", ratio = 14.7 }", `14.7 air-fuel ratio`, "fuelling = { data = \"d.csv\", ratio = \"rich\" }", `bad-quantity: "rich"`},
		{"fuelling.paths", "fuelling = { data = \"d.csv\", paths = { oil.temp = \"T_OIL\" } }", `goals oil.temp = "T_OIL"`, "fuelling = { data = \"d.csv\", paths = \"T_OIL\" }", `wrong-kind: "T_OIL"`},
		{"fuelling.with", "fuelling = { data = \"d.csv\", with = \"lambda-meter\" }", `lambda-meter`, "fuelling = { data = \"d.csv\", with = 1 }", `wrong-kind: 1`},
		{"fuelling.state", "fuelling = { data = \"d.csv\", state = \"before\" }", `"before"`, "fuelling = { data = \"d.csv\", state = \"befor\" }", `unknown-word: "befor"`},
		{"fuelling.note", "fuelling = { data = \"d.csv\", note = \"warm\" }", `"warm"`, "fuelling = { data = \"d.csv\", note = 1 }", `wrong-kind: 1`},
		{"logs", "[[logs]]⏎data = \"data/heat.csv\"", `{data "data/heat.csv"}`, `logs = "hot"`, `wrong-kind: "hot"`},
		{"logs.data", "logs = { data = [\"a.csv\", \"b.csv\"] }", `"a.csv", "b.csv"`, "logs = { note = \"hot\" }", `missing-key: { note = "hot" }`},
		{"logs.columns", "logs = { data = \"d.csv\", columns = { time = \"T\" } }", `{time "T"}`, "logs = { data = \"d.csv\", columns = 1 }", `wrong-kind: 1`},
		{"logs.columns.time", "logs = { data = \"d.csv\", columns.time = \"T\" }", `"T"`, "logs = { data = \"d.csv\", columns.time = 1 }", `wrong-kind: 1`},
		{"logs.paths", "logs = { data = \"d.csv\", paths = { oil.temp = \"T_OIL\" } }", `goals oil.temp = "T_OIL"`, "logs = { data = \"d.csv\", paths = \"T_OIL\" }", `wrong-kind: "T_OIL"`},
		{"logs.with", "logs = { data = \"d.csv\", with = \"logger\" }", `logger`, "logs = { data = \"d.csv\", with = 1 }", `wrong-kind: 1`},
		{"logs.state", "logs = { data = \"d.csv\", state = \"after\" }", `"after"`, "logs = { data = \"d.csv\", state = \"later\" }", `unknown-word: "later"`},
		{"logs.note", "logs = { data = \"d.csv\", note = \"hot\" }", `"hot"`, "logs = { data = \"d.csv\", note = 1 }", `wrong-kind: 1`},
		{"readings", "[[readings]]⏎data = \"data/bores.csv\"", `{data "data/bores.csv"}`, `readings = [1]`, `wrong-kind: 1`},
		{"readings.data", "readings = { data = \"data/bores.csv\" }", `"data/bores.csv"`, "readings = { }", `missing-key: { }`},
		{"accept", "[[accept]]⏎finding = \"worn\"⏎why = \"one season\"", `{finding worn, why "one season"}`, `accept = "worn"`, `wrong-kind: "worn"`},
		{"accept.finding", "accept = { finding = \"assumed-limit\", why = \"w\" }", `assumed-limit`, "accept = { why = \"w\" }", `missing-key: { why = "w" }`},
		{"accept.at", "accept = { finding = \"worn\", why = \"w\", at = \"lash.Inlet\" }", `lash.intake`, "accept = { finding = \"worn\", why = \"w\", at = \"\" }", `bad-name: ""`},
		{"accept.why", "accept = { finding = \"worn\", why = \"w\" }", `"w"`, "accept = { finding = \"worn\" }", `missing-key: { finding = "worn" }`},
	},
}

// A sample stands below a header where its file wants one.
func (s keySample) wrapped(table, text string) (name, whole string) {
	text = strings.ReplaceAll(text, "⏎", "\n")
	switch table {
	case "limits.toml":
		return table, "[lash.intake]\n" + text + "\n"
	case "parts.toml":
		return table, "[p]\n" + text + "\n"
	case "tools.toml":
		return table, "[t]\n" + text + "\n"
	case "entry":
		return entryName, headed(text)
	}
	return table, text + "\n"
}

func TestEveryKeyIsReadAndValidated(t *testing.T) {
	for table, keys := range Tables() {
		if keys == detailKeys {
			continue // a value's own keys are tried below
		}
		samples := map[string]keySample{}
		for _, s := range keySamples[table] {
			samples[s.key] = s
		}
		if len(samples) != len(keySamples[table]) {
			t.Errorf("a key of %s has two samples", table)
		}
		checkKeys(t, table, "", keys, samples)
		for left := range samples {
			t.Errorf("%s has a sample of `%s`, which is not a key", table, left)
		}
	}
}

// checkKeys tries the samples of a table's keys and takes them out; a key without one fails.
func checkKeys(t *testing.T, table, above string, keys *Key, samples map[string]keySample) {
	for i := range keys.Keys {
		key := above + keys.Keys[i].Name
		sample, ok := samples[key]
		if !ok {
			t.Errorf("`%s` of %s has no sample: every key needs one that is right and one that is wrong", key, table)
			continue
		}
		delete(samples, key)
		t.Run(table+"/"+key, func(t *testing.T) { sample.check(t, table) })
		checkKeys(t, table, key+".", &keys.Keys[i], samples)
	}
}

func (s keySample) check(t *testing.T, table string) {
	good := decode(s.wrapped(table, s.good))
	wantNothingFound(t, good)
	if field := fieldAt(good.fields, s.key); field == nil {
		t.Errorf("%s: not decoded", s.good)
	} else if got := shownField(field); got != s.want {
		t.Errorf("%s\ndecoded %s\nwant    %s", s.good, got, s.want)
	}
	bad := decode(s.wrapped(table, s.bad))
	wantFound(t, bad, s.wrong)
	if bad.fields != nil && !strings.HasPrefix(s.wrong, "missing-key") {
		if field := fieldAt(bad.fields, s.key); field != nil && field.Readings == nil && field.Limits == nil && field.Units == nil && !s.holdsSome(field) {
			t.Errorf("%s\nis wrong, yet decoded %s", s.bad, shownField(field))
		}
	}
}

// holdsSome reports whether a field is a list that was right in part.
func (s keySample) holdsSome(f *Field) bool {
	return f.holds() && strings.Contains(s.bad, "[")
}

// fieldAt returns the field of a key, by dots through tables and the first items of lists.
func fieldAt(t *Fields, key string) *Field {
	name, rest, deeper := strings.Cut(key, ".")
	f := t.Get(name)
	switch {
	case f == nil || !deeper:
		return f
	case f.Table != nil:
		return fieldAt(f.Table, rest)
	case len(f.Tables) > 0:
		return fieldAt(&f.Tables[0], rest)
	}
	return nil
}

func TestEveryDetailOfAValueIsReadAndValidated(t *testing.T) {
	samples := map[string]struct{ good, want, bad, wrong string }{
		"value":         {`{ value = "0.08 mm" }`, `8e-05 length {}`, `{ value = "0,08 mm" }`, `decimal-comma: 0,08`},
		"words":         {`{ words = "10W-40" }`, `"10W-40" {}`, `{ words = 10 }`, "wrong-kind: 10"},
		"with":          {`{ value = "1 mm", with = "Feeler" }`, `0.001 length {with feeler}`, `{ value = "1 mm", with = "the feeler" }`, `bad-name: "the feeler"`},
		"engine-temp":   {`{ value = "1 mm", engine-temp = "75 °C" }`, `0.001 length {engine-temp 348.15 temperature}`, `{ value = "1 mm", engine-temp = 75 }`, `missing-unit: 75`},
		"was":           {`{ value = "1 mm", was = "0.8 mm" }`, `0.001 length {was "0.8 mm"}`, `{ value = "1 mm", was = 0.8 }`, `wrong-kind: 0.8`},
		"note":          {`{ value = "1 mm", note = "twice" }`, `0.001 length {note "twice"}`, `{ value = "1 mm", note = [] }`, `wrong-kind: []`},
		"adapter":       {`{ value = "9 N·m", adapter = "30 mm" }`, `9 torque {adapter 0.03 length}`, `{ value = "9 N·m", adapter = "30 N" }`, `wrong-dimension: N`},
		"adapter-angle": {`{ value = "9 N·m", adapter = "30 mm", adapter_angle = "180°" }`, `9 torque {adapter 0.03 length, adapter-angle 3.14159 angle}`, `{ value = "9 N·m", adapter = "30 mm", adapter-angle = "90 mm" }`, `wrong-dimension: mm`},
	}
	for _, key := range detailKeys.Keys {
		s, ok := samples[key.Name]
		if !ok {
			t.Errorf("`%s` has no sample", key.Name)
			continue
		}
		t.Run(key.Name, func(t *testing.T) {
			good := decodeHead("[set]\nx = " + s.good)
			wantNothingFound(t, good)
			if got := shownReadings(good.readings); got != "set x = "+s.want {
				t.Errorf("%s\ndecoded %s\nwant    set x = %s", s.good, got, s.want)
			}
			wantFound(t, decodeHead("[set]\nx = "+s.bad), s.wrong)
		})
	}
}

// A key that is mistyped, wrongly cased or in the wrong table must never be passed over.
func TestUnknownKeysAreNeverPassedOver(t *testing.T) {
	for _, c := range []struct{ name, file, text, want, do string }{
		{"near in the build sheet", "build.toml", "titel = \"x\"", "unknown-key: titel", "did you mean `title`?"},
		{"near in a table of it", "build.toml", "[engine]\nbroe = \"53 mm\"", "unknown-key: broe", "did you mean `bore`?"},
		{"near in a table in braces", "build.toml", "engine.gasket = { thicknes = \"1 mm\" }", "unknown-key: thicknes", "did you mean `thickness`?"},
		{"a whole table", "build.toml", "[motor]\nbore = \"53 mm\"", "unknown-key: motor", "known here: "},
		{"in a part", "parts.toml", "[p]\nslto = \"camshaft\"", "unknown-key: slto", "did you mean `slot`?"},
		{"in a tool", "tools.toml", "[t]\nleafs = [\"1 mm\"]", "unknown-key: leafs", "known here: "},
		{"a dimension", "build.toml", "[units]\ntourque = \"N·m\"", "unknown-key: tourque", "did you mean `torque`?"},
		{"in an entry", entryName, headed("fited = \"cam\""), "unknown-key: fited", "did you mean `fitted`?"},
		{"in a list of an entry", entryName, headed("[[later]]\ndo = \"x\"\naftr = \"300 km\""), "unknown-key: aftr", "did you mean `after`?"},
		{"in details", entryName, headed("[set]\nx = { value = \"1 mm\", wiht = \"feeler\" }"), "unknown-key: wiht", "did you mean `with`?"},
		{"of another sort of file", entryName, headed("price = 9"), "unknown-key: price", "known here: "},
		{"twice after folding", "tools.toml", "[t]\nCalibrate_Every = \"1 months\"\ncalibrate-every = \"2 months\"", "defined-twice: calibrate-every", "keep one"},
		{"part twice after folding", "parts.toml", "[cam_212]\n[Cam-212]", "defined-twice: Cam-212", "keep one"},
		{"dimension twice after folding", "build.toml", "[units]\ntorque = \"N·m\"\nTorque = \"lbf·ft\"", "defined-twice: Torque", "keep one"},
		{"key above the first part", "parts.toml", "title = \"x\"", "wrong-kind: title", "a table of its own"},
		{"list of tables for a part", "parts.toml", "[[cam]]\nprice = 9", "wrong-kind: cam", "write `[cam]`"},
		{"list of tables for a tool", "tools.toml", "[[feeler]]\nfor = \"lash\"", "wrong-kind: feeler", "write `[feeler]`"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := decode(c.file, c.text)
			wantFound(t, d, c.want)
			if got := said(d.findings); !strings.Contains(got, c.do) {
				t.Errorf("said %s\nwant it to hold %s", got, c.do)
			}
		})
	}
}
