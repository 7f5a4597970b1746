package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// unknownGear reports pulls in a gear that the drive doesn't have.
func unknownGear(c *Context) {
	for _, e := range c.Journal.Entries {
		for _, p := range e.Pulls {
			if gears, unknown := c.isGearUnknown(p); unknown {
				c.report(source.Finding{
					Severity: source.Error, At: p.GearAt, Subject: "drive.gears", Entry: e.Path,
					Message: fmt.Sprintf("there is no gear %d: `gears` has %d", p.Gear, gears), Do: "write the gear that it was pulled in; or add its ratio to `gears` in `[drive]`",
				}, p.Order)
			}
		}
	}
}

// isGearUnknown reports whether a session says a gear that the drive didn't have then, and how many it had. Of a drive without gears nothing is known.
func (c *Context) isGearUnknown(p *model.Pulls) (gears int, unknown bool) {
	if p.GearAt.IsZero() {
		return 0, false
	}
	for c.Journal.At(fmt.Sprintf("drive.gears.%d", gears+1), p.Entry) != nil {
		gears++
	}
	return gears, gears > 0 && (p.Gear < 1 || p.Gear > gears)
}
