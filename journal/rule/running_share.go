package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// runningTorques is what it takes to run a self-locking fastener, as a share of the torque that it is tightened to: those of ISO 2320 are 3 to 30 % of what bolts of their class take, from memory; these are wider, as common practice, no source.
var runningTorques = quantity.Span{Low: 0.01, High: 0.5}

// runningShares finds running torques that are too large or too small a share of the torque that they are added to, each once where several limits have them from above. More than that torque is told where the
// limit is linked. One that is given as a range belongs to something that is set by it.
func (c *Context) runningShares() []*cause {
	var found []*cause
	told := map[source.Range]*cause{}
	for _, l := range c.Journal.Limits {
		torque, ok := aimOf(l)
		if !ok || !parse.IsAtOrBelow(l.Path, "torque") {
			continue
		}
		running := l.Running()
		if running == nil || running.HasSpread || runningTorques.Holds(running.SI()/torque) {
			continue
		}
		at := l.Figures("running-torque")[0].At
		k := told[at]
		if k == nil {
			k = runningCause(l, *running, torque, at)
			told[at], found = k, append(found, k)
		}
		if c.isOutUnder(l, func(v *model.Value) bool { return isInWithout(v, l, *running) }) {
			k.limits, k.report.Severity = append(k.limits, l), source.Error // it stands for their findings
		} else {
			k.unsure = append(k.unsure, l)
		}
	}
	return found
}

// runningCause is what is told of a running torque beside the torque that it is added to, in N·m.
func runningCause(l *model.Limit, running quantity.Quantity, torque float64, at source.Range) *cause {
	share := running.SI() / torque
	f := source.Finding{Severity: source.Warning, At: at, Subject: l.Path, Do: "look it up again, its point and its unit", Notes: limitNote(l),
		Message: fmt.Sprintf("a running torque of %s is %s of the %s that `%s` is tightened to: self-locking fasteners take %s to %s", running.Shown(), showShare(share), showTorque(torque, l.Unit), l.Path, showShare(runningTorques.Low), showShare(runningTorques.High))}
	if meant, ok := quantity.TheOne(running.OtherReadings(quantity.OnePlace), func(q quantity.Quantity) bool { return runningTorques.Holds(q.SI() / torque) }); ok {
		f.Do = fmt.Sprintf("%s? %s", quantity.Show(meant.SI(), meant.Unit, 0), f.Do)
	}
	return &cause{report: report{f, -1}}
}

// isInWithout reports whether a torque is out by its running torque alone: a tenth or ten times of that, and it would be in.
func isInWithout(v *model.Value, l *model.Limit, running quantity.Quantity) bool {
	if v.Setting() == nil || v.Quantity.Unit == nil || v.Quantity.IsOpenEnded() {
		return false
	}
	for _, other := range running.OtherReadings(quantity.OnePlace) {
		q, by := v.Quantity, v.Quantity.Unit.FromSI(running.SI()-other.SI())
		q.Value, q.Low, q.High = q.Value+by, q.Low+by, q.High+by
		if holdsIn(l, q) {
			return true
		}
	}
	return false
}

func showShare(share float64) string {
	u := quantity.UnitOf("%", quantity.Pure)
	return quantity.Show(share, u, quantity.TwoFigures(u.FromSI(share))*u.Factor).String()
}
