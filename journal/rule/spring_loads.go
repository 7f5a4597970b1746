package rule

import (
	"fmt"
	"math"
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// How many times as stiff as others a spring must be for one of its loads to be mistyped, and up to how many times it is like them: springs of one set differ by a tenth, and loads read at two lengths make more of that. Common practice,
// no source.
const (
	otherRate = 2.5
	likeRate  = 1.25
)

// press is a spring that was pressed to two lengths.
type press struct {
	path           string
	loads, lengths [2]*model.Value // at the seat, and open
	rate           float64         // N/m; 0 where it carries no more at the shorter length
}

// misloads finds loads of springs that make one many times as stiff as its fellow, or as its limit, and that would fit in another unit or with the point elsewhere; not by what has a finding already.
func (c *Context) misloads(lengths []*cause) []*cause {
	told := map[*model.Value]bool{}
	for _, k := range lengths {
		for _, v := range k.against {
			told[v] = true
		}
	}
	presses := c.presses(told)
	var found []*cause
	for i, p := range presses {
		isOff, fits := c.rateFits(presses, i)
		if !isOff {
			continue
		}
		var meant []quantity.OtherReading
		var at *model.Value
		plain := true
		for k, load := range p.loads {
			for _, r := range quantity.Fitting(otherLoads(load.Quantity), func(q quantity.Quantity) bool {
				loads := [2]float64{p.loads[0].Estimate.Value, p.loads[1].Estimate.Value}
				loads[k] = q.SI()
				rate, err := p.rateBy(loads)
				return err == nil && fits(rate)
			}) {
				plain = plain && (at == nil || at == load)
				at, meant = load, append(meant, r)
			}
		}
		if at == nil || !plain {
			continue
		}
		m := meant[0] // a unit before the point
		k := &cause{against: []*model.Value{at}, weight: suspect, report: reportAbout(at, source.Error,
			fmt.Sprintf("`%s` is %s, which makes %s; with %s it would be a spring like its fellows, or its limit", at.Path, at.Quantity.Shown(), c.rateWords(p.rate), orShown(meant)),
			fmt.Sprintf("%s? if so write `%s`; if not, look at the loads and the lengths again", m.Why, m.Shown()), source.Remark{At: p.other(at).At(), Message: "the other load"})}
		if at.Entry != nil && at.Written != nil {
			k.report.Fixes = writeInstead(at, m.Shown().String())
		}
		found = append(found, k)
	}
	return found
}

// otherLoads returns what the digits of a load may have been meant for: a kilogram-force is nearly ten newtons, so that the unit and the point explain the same, and only the loads beside it tell. The unit is likelier.
func otherLoads(q quantity.Quantity) []quantity.OtherReading {
	var all []quantity.OtherReading
	for _, symbol := range []string{"N", "kgf", "lbf"} {
		if other := q; symbol != q.Unit.Symbol {
			other.Unit = quantity.UnitOf(symbol, quantity.Force)
			all = append(all, quantity.OtherReading{Quantity: other, Way: quantity.AnotherUnit, Why: "a figure in " + symbol})
		}
	}
	return append(all, q.OtherReadings(quantity.OnePlace)...)
}

func (p press) other(load *model.Value) *model.Value {
	if p.loads[0] == load {
		return p.loads[1]
	}
	return p.loads[0]
}

// rateBy returns the rate by other loads, in N/m.
func (p press) rateBy(loads [2]float64) (float64, error) {
	return calc.SpringRate(loads[0], p.lengths[0].Estimate.Value, loads[1], p.lengths[1].Estimate.Value)
}

// presses are the springs of which both loads and both lengths are known now, and none has a finding already.
func (c *Context) presses(told map[*model.Value]bool) []press {
	var all []press
	for _, v := range c.Journal.Values {
		base, isSeat := strings.CutSuffix(v.Path, ".seat.load")
		if !isSeat || !strings.HasPrefix(base, "spring.") {
			continue
		}
		p := press{path: base}
		known := v.Current && !told[v]
		for i, where := range []string{".seat", ".open"} {
			p.loads[i], p.lengths[i] = c.figureNow(base+where+".load"), c.figureNow(base+where+".length")
			known = known && p.loads[i] != nil && p.lengths[i] != nil && p.loads[i].Estimate.Dimension == quantity.Force && p.lengths[i].Estimate.Dimension == quantity.Length && !told[p.loads[i]] && !told[p.lengths[i]]
		}
		if !known || !(p.lengths[0].Estimate.Value > p.lengths[1].Estimate.Value) {
			continue
		}
		rate, err := p.rateBy([2]float64{p.loads[0].Estimate.Value, p.loads[1].Estimate.Value})
		if err == nil {
			p.rate = rate
		}
		all = append(all, p)
	}
	return all
}

// rateFits reports whether a spring is many times as stiff as its limit or its fellows, or a small share, and what a rate must be that is not; by its limit, where there is one. Of two that differ nothing says which is off.
func (c *Context) rateFits(presses []press, i int) (isOff bool, fits func(rate float64) bool) {
	p := presses[i]
	path := "spring-rate" + strings.TrimPrefix(p.path, "spring")
	if l := c.Journal.LimitAt(path, nil); l != nil && l.Dimension == quantity.SpringRate && l.IsFigures() && !c.isLimitUnsure(l) {
		in := func(rate float64) bool { return holdsBetween(l, rate, rate) }
		far := l.High.Is && p.rate > otherRate*l.High.SI || l.Low.Is && p.rate < l.Low.SI/otherRate
		return far, in
	}
	isLike := func(a, b float64) bool { return math.Abs(math.Log(a/b)) < math.Log(likeRate) }
	var fellows []float64
	for k, other := range presses {
		if k != i && parse.Above(other.path) == parse.Above(p.path) {
			fellows = append(fellows, other.rate)
		}
	}
	if len(fellows) < 2 {
		return false, nil
	}
	for _, rate := range fellows[1:] {
		if !isLike(rate, fellows[0]) {
			return false, nil
		}
	}
	return math.Abs(math.Log(p.rate/fellows[0])) > math.Log(otherRate), func(rate float64) bool { return isLike(rate, fellows[0]) }
}

func (c *Context) rateWords(si float64) string {
	if si == 0 {
		return "no spring"
	}
	u := c.Journal.Units.Leading(quantity.SpringRate)
	return "a spring of " + quantity.Show(si, u, quantity.TwoFigures(u.FromSI(si))/10*u.Factor).String()
}
