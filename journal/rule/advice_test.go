package rule

import (
	"strings"
	"testing"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
)

// A gap can be measured again; a bolt that was pulled too far can't be pulled again as if nothing had been. An engine's torque is no bolt's.
func TestAnOvertightenedFastenerIsNotMeasuredAgain(t *testing.T) {
	limit := &model.Limit{Limit: &parse.Limit{}}
	for _, r := range []struct {
		path     string
		side     int8
		fastener bool
	}{{"torque.head-bolt", 1, true}, {"torque", 1, true}, {"torque.head-bolt", -1, false}, {"power.torque", 1, false}, {"torquemeter", 1, false}, {"lash.intake", 1, false}} {
		advice := outAdvice(&model.Value{Path: r.path, Side: r.side, Origin: model.Set, Limit: limit})
		if strings.Contains(advice, "slacken") != r.fastener || strings.Contains(advice, "measure again") == r.fastener {
			t.Errorf("%s on side %d: %s", r.path, r.side, advice)
		}
	}
}
