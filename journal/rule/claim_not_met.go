package rule

import (
	"fmt"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// claimNotMet reports claims of parts that the pulls contradict.
func claimNotMet(c *Context) {
	for _, n := range c.Numbers {
		if n.Claim == nil || n.Reason != "" || n.Claim.Met != derive.NotMet || restsOn(n, c.isSuspect) {
			continue
		}
		after := n.Inputs[0].Value
		gain, half := quantity.ShowEstimate(n.Estimate, n.Unit)
		f := source.Finding{
			Severity: source.Warning, At: n.Claim.At, Subject: n.Path,
			Message: fmt.Sprintf("`%s` is claimed to give %s, and gave %s ± %s", n.Claim.Part.Name, n.Claim.Promised.Shown(), gain.Number, half),
			Do:      "ask what it was measured on, and say so beside the part; its fuelling may not suit it yet",
		}
		for _, in := range n.Inputs {
			if in.Value == after || in.Symbol == "before" {
				f.Notes = append(f.Notes, source.Remark{At: in.Value.At(), Message: "the pulls " + in.Symbol})
			}
		}
		c.report(f, after.Order)
	}
}
