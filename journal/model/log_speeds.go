package model

import (
	"fmt"
	"math"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// What engine speeds of a log are held to. Common practice, no source.
const (
	leastRedline = 3000 * math.Pi / 30  // rad/s: less is no redline of an engine that is tuned
	overRedline  = 1.2                  // times the redline that an engine may be driven to
	overAny      = 12000 * math.Pi / 30 // rad/s, where no redline is given
	besideFellow = 2                    // times the greatest of all other rows
)

// redline returns the engine's redline in rad/s; nought where none is given, or none that an engine has.
func (l *linker) redline() float64 {
	engine := l.sources.Build.Fields.Table("engine")
	v := engine.Value("redline")
	if v == nil {
		return 0
	}
	q, slip := v.Resolve(engine.Get("redline").Key.Want())
	if slip != nil || q.IsOpenEnded() || q.SI() < leastRedline {
		return 0
	}
	return q.SI()
}

// stray reports an engine speed that one row of a log has alone, far above all others.
func (r *logReader) stray(f *logFile) {
	over := overAny
	if redline := r.redline(); redline > 0 {
		over = overRedline * redline
	}
	if r.log.Pulls != nil || f.run < judgeable || f.top.SI <= over || f.top.SI < besideFellow*f.second {
		return // the rows of pulls are looked at by themselves
	}
	r.report("bad-csv", source.Error, f.top.Cell, f.csv.File.Name, fmt.Sprintf("%s stands in this row alone: in all others the engine turns at %s at most", showSpeed(f.top.SI), showSpeed(f.second)), "mend the cell, or take its row out")
}

// turning takes in the engine speed of a row.
func (f *logFile) turning(speed float64, row []parse.Cell) {
	if !(speed > 0) {
		return
	}
	if f.run++; speed >= f.swift {
		f.fast++
	}
	if speed > f.top.SI {
		f.top, f.second = Peak{SI: speed, Cell: row[f.speed.at].At}, f.top.SI
	} else {
		f.second = max(f.second, speed)
	}
}

// turns reports whether the engine speeds are those of an engine, or it stood still.
func (r *logReader) turns(f *logFile) bool {
	if !(f.top.SI > 0) {
		return true
	}
	if do := neverTurns(f.top.SI); do != "" {
		r.report("bad-csv", source.Error, f.top.Cell, f.csv.File.Name, fmt.Sprintf("an engine that turns at %s at most tells nothing of its mixture", showSpeed(f.top.SI)), do)
		return false
	}
	r.stray(f)
	return true
}
