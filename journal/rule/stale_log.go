package rule

import (
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// breathing are slots whose parts change what an engine breathes or is fed: common practice, no source.
var breathing = []string{
	"airbox", "air-filter", "cam", "cams", "camshaft", "camshafts", "carburettor", "carburettors", "carburetor", "carburetors", "cylinder", "cylinders", "ecu", "exhaust", "filter", "fuel-pump", "fuel-pressure", "head",
	"cylinder-head", "header", "headers", "injector", "injectors", "intake", "inlet", "jets", "main-jet", "main-jets", "manifold", "map", "muffler", "needle", "needles", "pilot-jets", "pipe", "piston", "pistons", "port", "ports", "reeds", "silencer", "throttle-body", "throttle-bodies", "velocity-stacks",
}

// staleLog reports that the newest log of the mixture was made before a part went in or came out that changes what the engine breathes. Parts that ask for the fuelling themselves have a
// finding where that was not done.
func staleLog(c *Context) {
	logs := c.rides()
	if len(logs) == 0 || c.Journal.IsFitUnclear() {
		return
	}
	last := logs[len(logs)-1]
	history := c.Journal.History("fuelling.lambda")
	if c.Journal.IsUnreadSince("fuelling.lambda", history[len(history)-1], nil) {
		return // a newer one that can't be read may speak
	}
	var parts []*model.Part
	var notes []source.Remark
	for _, change := range c.Journal.Changes {
		part := change.Ref.Part
		if c.Journal.OrderOf(change) <= last.Order || part == nil || change.Kind == model.RemovesAbsent || slices.Contains(parts, part) || !changesMixture(part) {
			continue
		}
		goesIn := change.Kind == model.Fits || change.Kind == model.Renews
		if goesIn && slices.ContainsFunc(part.Fields.Names("then"), func(n parse.Name) bool { return parse.IsOfMixture(n.Name) }) {
			continue // it asks for itself
		}
		parts, notes = append(parts, part), append(notes, source.Remark{At: change.Ref.At, Message: "changed here"})
	}
	if len(parts) == 0 {
		return
	}
	var names []string
	for _, part := range parts {
		names = append(names, "`"+part.Name+"`")
	}
	c.report(source.Finding{
		Severity: source.Warning, At: last.At, Subject: "fuelling", Entry: last.Entry.Path, Notes: notes,
		Message: fmt.Sprintf("this is the newest log of the mixture, and it no longer speaks for the engine: %s changed since", strings.Join(names, ", ")),
		Do:      "log it again, under load too; a part that always asks for that says so by `then = [\"fuelling\"]`",
	}, last.Order)
}

// changesMixture reports whether a part changes what an engine breathes or is fed: by its slot, or by the power that it is said to give.
func changesMixture(p *model.Part) bool {
	claim := p.Fields.Table("claim")
	return slices.Contains(breathing, p.Slot) || claim.Value("power") != nil || claim.Value("torque") != nil
}
