package rule

import (
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// conditionUnmet reports readings that were taken at another engine temperature than their limit asks for.
func conditionUnmet(c *Context) {
	c.conditions(model.ConditionUnmet, func(v *model.Value, what, was, counts string) (message, do string) {
		return fmt.Sprintf("%s %s read at %s; %s %s, so there is no verdict and nothing is settled", what, was, v.Temp.Shown(), counts, intervalWords(*v.Limit.When)),
			"let the engine come to that temperature and read again"
	})
}

// conditions reports readings that get no verdict for the state of the engine: those of one entry that one figure of it makes so together. Settled ones, and those at a path that the
// builder accepts, stand by their limits: what is accepted of one doesn't speak for another.
func (c *Context) conditions(why model.Unjudged, words func(v *model.Value, what, was, counts string) (message, do string)) {
	type group struct {
		entry     *model.Entry
		temp      float64 // K; nought where it isn't written
		low, high float64 // K, that the limit counts
		limit     *model.Limit
		origin    model.Origin
	}
	var order []group
	readings := map[group][]*model.Value{}
	for _, v := range c.Journal.Values {
		if v.Unjudged != why {
			continue
		}
		g := group{entry: v.Entry, low: v.Limit.When.LowSI(), high: v.Limit.When.HighSI()}
		if v.Temp != nil {
			g.temp = v.Temp.SI()
		}
		if v.Settled || c.accepts(v.Path) {
			g.limit, g.origin = v.Limit, v.Origin
		}
		if readings[g] == nil {
			order = append(order, g)
		}
		readings[g] = append(readings[g], v)
	}
	for _, g := range order {
		first := readings[g][0]
		what, was, counts := "`"+first.Path+"`", "was", "the limit counts"
		if n := len(readings[g]); n > 1 {
			what, was = fmt.Sprintf("%d readings under %s", n, limitsOf(readings[g])), "were"
		}
		if slices.ContainsFunc(readings[g], func(v *model.Value) bool { return v.Limit.Path != first.Limit.Path }) {
			counts = "the limits count"
		}
		message, do := words(first, what, was, counts)
		c.value(first, source.Warning, message, do, source.Remark{At: first.Limit.WhenAt, Message: "limit"})
	}
}

// limitsOf names the limits of some readings.
func limitsOf(values []*model.Value) string {
	var paths []string
	for _, v := range values {
		if path := "`" + v.Limit.Path + "`"; !slices.Contains(paths, path) {
			paths = append(paths, path)
		}
	}
	if more := len(paths) - mostLimitsNamed; more > 0 {
		paths = append(paths[:mostLimitsNamed], fmt.Sprintf("%d more", more))
	}
	if last := len(paths) - 1; last > 0 {
		return strings.Join(paths[:last], ", ") + " and " + paths[last]
	}
	return paths[0]
}

// mostLimitsNamed is how many limits one finding names.
const mostLimitsNamed = 3

// intervalWords says an interval as one would: up to, from, from … to.
func intervalWords(q quantity.Quantity) string {
	low, high := q, q
	low.Kind, low.Value, low.HasLow, low.HasHigh = quantity.Figure, q.Low, false, false
	high.Kind, high.Value, high.HasLow, high.HasHigh = quantity.Figure, q.High, false, false
	switch {
	case q.Kind != quantity.Interval:
		return "at " + q.Shown().String()
	case !q.HasLow:
		return "up to " + high.Shown().String()
	case !q.HasHigh:
		return "from " + low.Shown().String()
	}
	return "from " + quantity.Between(low.Shown(), high.Shown()).String()
}
