package rule

import (
	"fmt"
	"math"
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// emptyLog reports logs that were in no square of the target for long enough; where that is asked for so long that none was, it reports what is asked. Why a log tells nothing of the mixture at all is found where it is read.
func emptyLog(c *Context) {
	target := c.Journal.Target
	if target == nil {
		return
	}
	c.unjudgedPulls()
	rides := slices.DeleteFunc(c.rides(), func(log *model.Log) bool { return log.Mixture.TellsNothing })
	brief := slices.DeleteFunc(slices.Clone(rides), func(log *model.Log) bool { return judgedSquares(log) > 0 })
	if len(brief) == 0 {
		return
	}
	if best := slices.MaxFunc(brief, func(a, b *model.Log) int { return int(1e3*longestSeen(a)) - int(1e3*longestSeen(b)) }); len(brief) == len(rides) && target.SeenForAt.File != nil && longestSeen(best) >= model.UsualSeenFor {
		c.report(source.Finding{Severity: source.Warning, At: target.SeenForAt, Subject: "fuelling", Message: fmt.Sprintf("no square was seen for %s in any log: the longest was %s", showSeconds(target.SeenFor), showSeconds(longestSeen(best))),
			Do: fmt.Sprintf("ask for less: %s is usual; it is the time that a log is in one square, all in all", showSeconds(model.UsualSeenFor)), Notes: []source.Remark{{At: best.At, Message: "this log"}}}, -1)
		return
	}
	for _, log := range brief {
		if quantity.Compare(log.Mixture.Outside, mostOutside*log.Mixture.All.Seen, log.Mixture.All.Seen) > 0 {
			continue // that is told
		}
		wanted := showSeconds(target.SeenFor).String()
		if !log.Timed {
			wanted = quantity.Counted(model.LeastRows, "row")
		}
		c.report(source.Finding{Severity: source.Warning, At: log.At, Subject: "fuelling", Origin: log.Files[0].Name, Entry: log.Entry.Path,
			Message: fmt.Sprintf("this log is too short to tell: it was in no square of the target for %s, and burnt for %s in all", wanted, log.ShowTime(log.Mixture.All.Seen)),
			Do:      "log for longer, under load too, or name the whole file"}, log.Order)
	}
}

// unjudgedPulls notes pulls that hold a mixture, and too few rows in any square for it to be held to the target.
func (c *Context) unjudgedPulls() {
	for _, log := range c.mixtures() {
		if log.Pulls == nil || log.Mixture.TellsNothing || judgedSquares(log) > 0 || log.Mixture.Outside > 0 {
			continue
		}
		c.report(source.Finding{Severity: source.Note, At: log.At, Subject: "fuelling", Origin: log.Files[0].Name, Entry: log.Entry.Path,
			Message: fmt.Sprintf("these pulls hold their mixture, and were in no square of the target for %s: it is held to nothing", quantity.Counted(model.LeastRows, "row")),
			Do:      "name all pulls of the session, or take files with more rows; squares as wide as the rows are apart tell nothing either"}, log.Order)
	}
}

func showSeconds(s float64) quantity.Shown {
	step := 0.1
	if s == math.Trunc(s) {
		step = 1
	}
	return quantity.Show(s, parse.UnitSpelled("s"), step)
}

// judgedSquares counts the squares that a log was in for long enough to tell.
func judgedSquares(log *model.Log) (n int) {
	log.Mixture.Each(func(_, _ int, s model.Square) {
		if s.IsJudged() {
			n++
		}
	})
	return n
}

// longestSeen returns for how long a log was in the square that it was in most, in s; nought of one that doesn't hold the time.
func longestSeen(log *model.Log) (most float64) {
	if !log.Timed {
		return 0
	}
	log.Mixture.Each(func(_, _ int, s model.Square) { most = max(most, s.Seen.Seen) })
	return most
}

// lastInVain returns the moment of the last log of which a finding says that it tells too little of the mixture: what was asked for before waits for that. It is -1 where there is none.
func (c *Context) lastInVain() int {
	isAccepted := func(log *model.Log) bool {
		return slices.ContainsFunc(c.Journal.Accepts, func(a *model.Accept) bool { return a.Finding.Name == "empty-log" && a.Entry.Index >= log.Entry.Index })
	}
	for _, e := range slices.Backward(c.Journal.Entries) {
		for _, log := range slices.Backward(e.Logs) {
			if log.Mixture != nil && log.Pulls == nil && (log.Mixture.TellsNothing || c.Journal.Target != nil && log.Span > 0 && judgedSquares(log) == 0) && !isAccepted(log) {
				return log.Order
			}
		}
	}
	return -1
}
