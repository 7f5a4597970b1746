package rule

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
	"example.org/locknut/journal/upkeep"
)

// calibrationExpired reports the tools that an entry read with after their calibration of that day had run out, or before they had one.
func calibrationExpired(c *Context) {
	for _, e := range c.Journal.Entries {
		if e.Plan || e.Date.IsZero() || c.isFarOff(e) {
			continue
		}
		var done []*model.Tool
		for _, v := range e.Values {
			if v.Tool != nil && v.Setting() == nil && !slices.Contains(done, v.Tool) {
				done = append(done, v.Tool)
				c.calibration(e, v.Tool)
			}
		}
	}
}

// calibration reports a tool at an entry: settled once all that it read there has been read again.
func (c *Context) calibration(e *model.Entry, t *model.Tool) {
	if t.Fields.Get("calibrated") == nil || t.Fields.IsBad("calibrated", "calibrate-every") {
		return
	}
	of, until := upkeep.CalibrationAt(t, e.Date)
	message := ""
	switch {
	case of.IsZero():
		message = fmt.Sprintf("`%s` had no calibration yet on %s", t.Name, e.Date)
	case !until.IsZero() && e.Date.CompareDay(until) > 0:
		message = fmt.Sprintf("the calibration of `%s` of %s had run out on %s", t.Name, of, until)
	default:
		return
	}
	f := source.Finding{Severity: source.Warning, Subject: t.Name, Entry: e.Path, State: source.Settled, Message: message,
		Do: "have it calibrated and measure again; if it turned out right, add that day to `calibrated` and accept this", Notes: []source.Remark{{At: t.Fields.Get("calibrated").At, Message: "calibrations"}}}
	for _, v := range e.Values {
		if v.Tool != t {
			continue
		}
		if f.At.File == nil {
			f.At = v.At()
		}
		if !v.Settled {
			f.State = source.Open
		}
	}
	c.report(f, c.Journal.EndOf(e))
}
