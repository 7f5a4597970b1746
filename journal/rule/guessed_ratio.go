package rule

import (
	"fmt"
	"math"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// sameRatio is how far two ratios may stand apart and be as good as one, as a share: meters show a tenth. Common practice, no source.
const sameRatio = 0.01

// guessedRatio notes logs in air-fuel ratios of which nobody said what the meter shows at lambda 1, with a fuel for which that matters.
func guessedRatio(c *Context) {
	petrol, _ := calc.Blend(0) // most meters count by it, whatever the fuel: common practice, no source
	for _, log := range c.mixtures() {
		ratio := log.Mixture.Ratio
		if !log.Mixture.Guessed || math.Abs(ratio/petrol.Stoichiometric-1) < sameRatio {
			continue
		}
		show := func(x float64) quantity.Shown { return quantity.Show(x, parse.UnitSpelled("AFR"), 0.1) }
		c.report(source.Finding{
			Severity: source.Note, At: log.At, Subject: "fuelling", Origin: log.Files[0].Name, Entry: log.Entry.Path,
			Message: fmt.Sprintf("this log's air-fuel ratios are read as those of the fuel, %s at lambda 1; most meters count by petrol's %s whatever is burnt, and then it was richer by %s", show(ratio), show(petrol.Stoichiometric),
				quantity.Show(1-ratio/petrol.Stoichiometric, parse.UnitSpelled("%"), 0.001)),
			Do: "say in `ratio` what the meter shows at lambda 1: its manual tells; or log lambda",
		}, log.Order)
	}
}
