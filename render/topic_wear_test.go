package render

import (
	"strings"
	"testing"
)

// bored is an engine of two cylinders whose bores were read by depth and direction.
func bored() map[string]string {
	return map[string]string{
		"build.toml": "[engine]\ncylinders = 2\n[drive]\nprimary = \"85/44\"\ngears = [\"37/13\", \"25/24\"]\nfinal = \"44/16\"\ntyre = \"1.96 m\"\ncruise = \"110 km/h\"\n",
		"limits.toml": "[bore]\nlow = \"65.500 mm\"\nhigh = \"65.515 mm\"\nservice = \"..65.600 mm\"\n[taper]\nhigh = \"0.010 mm\"\nservice = \"..0.050 mm\"\n[out-of-round]\nhigh = \"0.010 mm\"\n" +
			"[clearance.piston]\nof = [\"bore\", \"piston\"]\nlow = \"0.010 mm\"\nhigh = \"0.045 mm\"\n",
		"entries/2026-03-01-strip.md": "```toml\n[found]\nbore = \"\"\"\nmm   top.x   top.y   mid.x   mid.y   low.x   low.y\n1    65.512  65.520  65.508  65.514  65.505  65.507\n2    65.511  65.513  65.507  65.511  65.504  65.506\n\"\"\"\n" +
			"piston = { 1 = \"65.478 mm\", 2 = \"65.477 mm\" }\ngap.plug = { 1 = \"0.85 mm\", 2 = \"0.85 mm\" }\ngap.ring.1.top = \"0.26 mm\"\nclearance.retainer.intake = \"11.2 mm\"\nlash.intake.1 = \"0.10 mm\"\n```\n",
	}
}

// A bore is a table of its own, in the order in which it was written, beside what is worked out from it; none of it is told again in the lists.
func TestBoresAreTables(t *testing.T) {
	m := rendered(t, inMemory(bored()))
	checkSite(t, m)
	text := strings.ReplaceAll(words(m, "wear.html"), "\u202f", " ")
	for _, want := range []string{
		"bore .1 Depth x y top 65.512 mm 65.520 mm ◐ worn mid 65.508 mm 65.514 mm low 65.505 mm 65.507 mm",
		"out of round 0.008 mm ✓ in up to 0.010 mm", "taper 0.013 mm ◐ worn up to 0.010 mm ; service up to 0.050 mm", "clearance piston 0.027 to 0.042 mm ✓ in",
		"limit of the bore 65.500..65.515 mm ; service up to 65.600 mm read 2026-03-01-strip", "gap .ring .1 .top 0.26 mm",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("wear.html doesn't say %q:\n%s", want, text)
		}
	}
	for what, times := range map[string]int{"65.520 mm": 1, "0.013 mm": 1, "limit of the bore": 1, "gap .plug": 0, "retainer": 0} {
		if got := strings.Count(text, what); got != times {
			t.Errorf("wear.html says %q %d times, want %d:\n%s", what, got, times, text)
		}
	}
	if !strings.Contains(words(m, "engine.html"), "gap .plug .1") || !strings.Contains(words(m, "valve-train.html"), "clearance .retainer .intake") {
		t.Error("the gap of the plugs is not the engine's, or the retainer not of the valve train")
	}
	if got := words(m, "drive.html"); !strings.Contains(strings.ReplaceAll(got, "\u202f", " "), "Engine at 110 km/h") {
		t.Errorf("drive.html doesn't say at which speed:\n%s", got)
	}
}

// An engine with ports and no valves has no valve train; the page keeps its address.
func TestPortsAreNoValveTrain(t *testing.T) {
	ports := map[string]string{
		"build.toml":                  "[engine]\ncycle = \"two-stroke\"\nstroke = \"54.5 mm\"\nrod = \"105 mm\"\n",
		"entries/2026-03-01-ports.md": "```toml\n[found]\nport.exhaust.height = \"26.8 mm\"\nignition.timing = \"1.75 mm BTDC\"\n```\n",
	}
	m := rendered(t, inMemory(ports))
	checkSite(t, m)
	if got := words(m, "valve-train.html"); strings.Contains(got, "Valve train") || strings.Count(got, "Ports and ignition") < 3 {
		t.Errorf("the page of the ports is called something else:\n%s", got)
	}
	if got := words(m, "entries/2026-03-01-ports.html"); strings.Contains(got, "Valve train") || !strings.Contains(got, "Ports and ignition") {
		t.Errorf("the way to the page of the ports is called something else:\n%s", got)
	}
	ports["entries/2026-03-02-cam.md"] = "```toml\n[found]\ncam.intake.lift = \"9.1 mm\"\n```\n"
	if got := words(rendered(t, inMemory(ports)), "valve-train.html"); strings.Contains(got, "Ports and ignition") || !strings.Contains(got, "Valve train") {
		t.Errorf("an engine with a cam has no valve train:\n%s", got)
	}
}

// What differs from valve to valve by the lash alone is one row a side.
func TestCurtainsAreOneRowASide(t *testing.T) {
	m := rendered(t, inMemory(map[string]string{
		"build.toml": "[engine]\ncylinders = 2\nvalve = { intake = \"25.5 mm\", exhaust = \"22.0 mm\" }\nrocker-ratio = { intake = 1, exhaust = 1 }\n",
		"entries/2026-03-01.md": "```toml\n[found]\ncam = { intake = { lift = \"9.10 mm\" }, exhaust = { lift = \"8.60 mm\" } }\n" +
			"lash.intake = { 1 = \"0.10 mm\", 2 = \"0.20 mm\" }\nlash.exhaust = { 1 = \"0.20 mm\", 2 = \"0.20 mm\" }\n```\n",
	}))
	checkSite(t, m)
	text := strings.ReplaceAll(words(m, "engine.html"), "\u202f", " ")
	// by hand: π · 25.5 · 8.90 and 9.00 are 712.98 and 720.99, π · 22.0 · 8.40 is 580.57
	for _, want := range []string{"curtain area at full lift, intake 713.0 to 721.0 mm²", "curtain area at full lift, exhaust 580.6 mm²"} {
		if strings.Count(text, want) != 1 {
			t.Errorf("engine.html doesn't say %q once:\n%s", want, text)
		}
	}
}

// A torque says what the wrench is set to, and why nothing is known of the strength of a nut without a class; titles are those of the limits.
func TestTheCardOfTorquesTellsAll(t *testing.T) {
	m := rendered(t, inMemory(map[string]string{
		"build.toml": "",
		"tools.toml": "[wrench]\nfor = [\"torque\"]\nlength = \"300 mm\"\n",
		"limits.toml": "[torque]\nthreads = \"oiled\"\n[torque.clutch-nut]\ntitle = \"Clutch centre nut\"\nnominal = \"95 ± 6 N·m\"\nthread = \"M20x1.5\"\nrunning-torque = \"4 N·m\"\n" +
			"[torque.case-bolt]\nnominal = \"24 ± 2 N·m\"\nthread = \"M8\"\nclass = \"8.8\"\n",
		"entries/2026-03-01.md": "```toml\nwith = [\"wrench\"]\n[set]\ntorque.clutch-nut = \"99 N·m\"\ntorque.case-bolt = { value = \"20 N·m\", adapter = \"60 mm\" }\n```\n",
	}))
	checkSite(t, m)
	text := strings.ReplaceAll(words(m, "fasteners.html"), "\u202f", " ")
	for _, want := range []string{"clutch-nut Clutch centre nut 95 ± 6 N·m", "set the wrench to 99 N·m , with 4 N·m to run it", "the wrench was set to 99 N·m", "– of the proof load not given: class",
		"set the wrench to 20 N·m , through an adapter of 60 mm"} {
		if !strings.Contains(text, want) {
			t.Errorf("fasteners.html doesn't say %q:\n%s", want, text)
		}
	}
	for _, other := range []string{"Read, and in force now", "Worked out"} {
		if strings.Contains(text, other) {
			t.Errorf("fasteners.html tells the settings again, under %q:\n%s", other, text)
		}
	}
}

// What was worked out from what an entry found, and then set or renewed, stands on its page and on that of its side, apart from what holds now: 641 mm over 635 is 0.94 % too long.
func TestWhatWasFoundIsWorkedOutToo(t *testing.T) {
	m := rendered(t, inMemory(map[string]string{
		"build.toml":                  "[drive]\nchain-pitch = \"15.875 mm\"\n",
		"limits.toml":                 "[lash]\nintake = \"0.10 ± 0.02 mm\"\n[chain]\nelongation = { high = \"1.5 %\" }\n",
		"entries/2026-03-01-chain.md": "```toml\n[found]\nchain.length = \"641.0 mm\"\nchain.links = 40\nlash.intake = \"0.15 mm\"\n[set]\nchain.length = \"635.0 mm\"\nlash.intake = \"0.10 mm\"\n```\n",
		"entries/2026-04-01-none.md":  "```toml\n[found]\nlash.intake = \"0.11 mm\"\n```\n",
	}))
	checkSite(t, m)
	for page, want := range map[string]string{
		"entries/2026-03-01-chain.html": "Numbers, as this entry found the engine Number Figure From Limit Verdict chain elongation 0.944",
		"wear.html":                     "Worked out from what was found, and then set or renewed Number Figure Found in Limit Verdict chain elongation 0.944",
		"valve-train.html":              "Worked out from what was found, and then set or renewed Number Figure Found in lash deviation, intake 0.05 mm",
	} {
		if text := strings.ReplaceAll(words(m, page), "\u202f", " "); !strings.Contains(text, want) {
			t.Errorf("%s doesn't say %q:\n%s", page, want, text)
		}
	}
	if text := words(m, "entries/2026-04-01-none.html"); strings.Contains(text, "found the engine") {
		t.Errorf("an entry that set nothing has numbers of what it found:\n%s", text)
	}
}
