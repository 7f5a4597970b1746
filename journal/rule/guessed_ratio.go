package rule

import (
	"fmt"
	"math"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// petrolRatio is what most meters call lambda 1, whatever the fuel: common practice, no source.
const petrolRatio = 14.7

// guessedRatio notes logs in air-fuel ratios of which nobody said what the meter shows at lambda 1, with a fuel for which that matters.
func guessedRatio(c *Context) {
	for _, log := range c.mixtures() {
		ratio := log.Mixture.Ratio
		if !log.Mixture.Guessed || math.Abs(ratio/petrolRatio-1) < 0.01 {
			continue
		}
		show := func(x float64) quantity.Shown { return quantity.Show(x, parse.UnitSpelled("AFR"), 0.1) }
		c.report(source.Finding{
			Severity: source.Note, At: log.At, Subject: "fuelling", Origin: log.Files[0].Name, Entry: log.Entry.Path,
			Message: fmt.Sprintf("this log's air-fuel ratios are read as those of the fuel, %s at lambda 1; most meters count by petrol's %s whatever is burnt, and then it was leaner by %s", show(ratio), show(petrolRatio),
				quantity.Show(1-ratio/petrolRatio, parse.UnitSpelled("%"), 0.001)),
			Do: "say in `ratio` what the meter shows at lambda 1: its manual tells; or log lambda",
		}, log.Order)
	}
}
