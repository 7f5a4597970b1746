package model

import (
	"slices"
	"strings"

	"example.org/locknut/journal/parse"
)

// lasting are the paths of what comes with parts that hardly anybody renews by another of the same: camshafts, cranks, rods, heads, rockers, barrels of two-strokes, gearboxes, injectors and igniters. What comes with gaskets, pistons,
// rings, valves, springs, jets, chains, sprockets and tyres is not among them. Common practice, no source.
var lasting = []string{"cam", "port", "ignition", "engine.stroke", "engine.rod", "engine.chamber", "engine.rocker-ratio", "engine.injector", "drive.gears", "drive.primary"}

// wearing are the words in the name of a part by which it is one that is renewed, whatever comes with it. Common practice, no source.
var wearing = []string{"gasket", "seal", "plug", "filter", "bolt", "stud", "nut", "screw", "chain", "belt", "ring", "oil", "spring", "bearing", "shell", "kit"}

// IsAgain reports whether a part goes in that is in, and hardly was renewed: it brings figures of what lasts or is claimed to give power, is nothing that is renewed, and was not bought there.
func (c Change) IsAgain() bool {
	part := c.Ref.Part
	return c.Kind == Renews && part.Lasts() && !slices.ContainsFunc(c.Entry.Bought, func(ref Ref) bool { return ref.Part == part })
}

// Lasts reports whether a part brings figures of what lasts, or is claimed to give power, and has neither an interval after which it is renewed nor a name that says so.
func (p *Part) Lasts() bool {
	if p.Fields.Get("every") != nil || slices.ContainsFunc(strings.Split(p.Name, "-"), isWearing) {
		return false
	}
	claim := p.Fields.Table("claim")
	return claim.Get("power") != nil || claim.Get("torque") != nil || slices.ContainsFunc(p.Brings, func(r parse.Reading) bool {
		return slices.ContainsFunc(lasting, func(path string) bool { return parse.IsAtOrBelow(r.Path, path) })
	})
}

// isWearing reports whether a word of a part's name is one of those, or of several of them: `bolts`, `head-gasket`, `o-rings`.
func isWearing(word string) bool {
	return slices.ContainsFunc(wearing, func(w string) bool { return word == w || word == w+"s" })
}
