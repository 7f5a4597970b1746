package rule

import (
	"fmt"
	"math"
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// leanUnderLoad reports logs that are leaner than their target where the engine works hard.
func leanUnderLoad(c *Context) {
	c.squares(model.Lean, source.Error, model.Square.IsLoad, "lean under load", "don't run it there until it is richer: an engine that is lean under load knocks and melts")
}

// squares reports what logs found in the squares of one state, a finding a log. It is settled once later logs were in all of those squares, or a log beside it tells worse of them: logs of one entry and state don't settle each other.
func (c *Context) squares(state model.SquareState, severity source.Severity, of func(model.Square) bool, what, do string) {
	target := c.Journal.Target
	if target == nil {
		return
	}
	logs := c.mixtures()
	isFound := func(log *model.Log, s model.Square) bool {
		return s.State == state && of(s) && !(state == model.Lean && log.Mixture.Guessed && !c.isLeanByPetrol(log, s))
	}
	for i, log := range logs {
		var worst model.Square
		count, most, settled, where := 0, 0.0, true, ""
		var cell parse.Cell
		log.Mixture.Each(func(row, column int, s model.Square) {
			if !isFound(log, s) {
				return
			}
			settled = settled && (slices.ContainsFunc(logs[i+1:], func(later *model.Log) bool { return !later.IsBeside(log) && later.Mixture.At(row, column).IsJudged() }) ||
				slices.ContainsFunc(logs, func(other *model.Log) bool {
					there := other.Mixture.At(row, column)
					return other != log && other.IsBeside(log) && isFound(other, there) && math.Abs(there.Off()) > math.Abs(s.Off())
				}))
			harm := math.Abs(s.Off()) * target.Throttle[row] // the wider open, the worse
			if count++; count == 1 || harm > most {
				most, worst, cell, where = harm, s, target.Cells[row][column], squareName(target, row, column)
			}
		})
		if count == 0 {
			continue
		}
		others := ""
		if count > 1 {
			others = fmt.Sprintf("; it is %s in %d squares", what, count)
		}
		extreme := worst.Leanest
		if state == model.Rich {
			extreme = worst.Richest
		}
		f := source.Finding{
			Severity: severity, At: log.At, Subject: "fuelling", Origin: log.Files[0].Name, Entry: log.Entry.Path,
			Message: fmt.Sprintf("%s at %s: lambda %s over %s, the target is %s ± %s%s", what, where, model.ShowMean(worst.Seen.Mean()), log.ShowTime(worst.Seen.Seen),
				model.ShowLambda(worst.Target), model.ShowLambda(target.Tolerance), others),
			Do: do,
			Notes: []source.Remark{{At: cell.At, Message: "the target"},
				{At: extreme.Cell, Message: fmt.Sprintf("the worst row there, lambda %s", model.ShowLambda(extreme.Lambda))}},
		}
		if settled || c.isMixtureUnreadSince(log) {
			f.State = source.Settled // by a later one that can't be read, for all anybody knows
		}
		c.report(f, log.Order)
	}
}

// isLeanByPetrol reports whether a square is lean even if the meter counted by petrol's ratio, as most do: of a log that doesn't say what it counts by nothing worse is told.
func (c *Context) isLeanByPetrol(log *model.Log, s model.Square) bool {
	petrol, _ := calc.Blend(0)
	return quantity.Compare(s.Seen.Mean()*min(log.Mixture.Ratio/petrol.Stoichiometric, 1)-s.Target, c.Journal.Target.Tolerance, 1) > 0
}

// isMixtureUnreadSince reports whether a log of the mixture that can't be read came after one: a ride's, or, of pulls, theirs too. A ride is in squares that pulls are never in.
func (c *Context) isMixtureUnreadSince(log *model.Log) bool {
	return c.Journal.IsUnreadAfter("fuelling.lambda", log) || log.Pulls != nil && c.Journal.IsUnreadAfter("power.lambda", log)
}

// rides returns the logs of the mixture but for those of pulls, which are made at full throttle alone.
func (c *Context) rides() []*model.Log {
	return slices.DeleteFunc(c.mixtures(), func(log *model.Log) bool { return log.Pulls != nil })
}

// mixtures returns the logs of the mixture in order of time, those of pulls too.
func (c *Context) mixtures() []*model.Log {
	var logs []*model.Log
	for _, e := range c.Journal.Entries {
		for _, log := range e.Logs {
			if log.TellsMixture() {
				logs = append(logs, log)
			}
		}
	}
	slices.SortStableFunc(logs, func(a, b *model.Log) int { return a.Order - b.Order })
	return logs
}

// squareName names a square by its breakpoints: "50 % throttle and 6000 rpm".
func squareName(t *model.Target, row, column int) string {
	throttle, speed := t.Names(row, column)
	return throttle.String() + " throttle and " + speed.String()
}
