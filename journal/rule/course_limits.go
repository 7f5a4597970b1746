package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// farLogged is how many times a bound all that was logged lies beyond it before the bound is doubted, and not the engine: nearer to a point that has slipped than to the bound. Common practice, no source.
const farLogged = 3

// loggedLimits finds the limits that all of every log under them is far outside, where the point moved by one place has all of it inside.
func (c *Context) loggedLimits() []*cause {
	var order []*model.Limit
	under := map[*model.Limit][]*model.Course{}
	for _, e := range c.Journal.Entries {
		for _, log := range e.Logs {
			for _, course := range log.Courses {
				if v := course.Worst; v != nil && v.Limit != nil && v.Limit.Unit != nil && v.Limit.IsFigures() {
					if under[v.Limit] == nil {
						order = append(order, v.Limit)
					}
					under[v.Limit] = append(under[v.Limit], course)
				}
			}
		}
	}
	var found []*cause
	for _, l := range order {
		if c.isLimitUnsure(l) || c.isAnyIn(l) {
			continue
		}
		for _, factor := range []float64{10, 0.1} {
			if meant, ok := pointMoved(l, under[l], factor); ok {
				found = append(found, loggedLimit(l, meant, under[l]))
			}
		}
	}
	return found
}

// isAnyIn reports whether something else than a log speaks for a limit as it is written.
func (c *Context) isAnyIn(l *model.Limit) bool {
	for _, v := range c.Journal.Values {
		if v.Limit == l && !v.IsLogged() && v.Verdict != model.Out {
			return true
		}
	}
	return false
}

// pointMoved returns a limit with the point of its figures moved, as they are written; not ok unless all that was logged is far outside the one and inside the other.
func pointMoved(l *model.Limit, courses []*model.Course, factor float64) (*model.Limit, bool) {
	moved := *l
	moved.Low.SI, moved.High.SI = l.Unit.SI(l.Unit.FromSI(l.Low.SI)*factor), l.Unit.SI(l.Unit.FromSI(l.High.SI)*factor)
	moved.Size, moved.Step = l.Size*factor, l.Step*factor
	for _, course := range courses {
		least, greatest := l.Unit.FromSI(course.Least.SI), l.Unit.FromSI(course.Greatest.SI)
		isFar := factor > 1 && l.High.Is && l.Unit.FromSI(l.High.SI) > 0 && least > farLogged*l.Unit.FromSI(l.High.SI) ||
			factor < 1 && l.Low.Is && greatest > 0 && farLogged*greatest < l.Unit.FromSI(l.Low.SI)
		if !isFar || !holdsIn(&moved, quantity.Quantity{Kind: quantity.Figure, Unit: l.Unit, Value: least}) || !holdsIn(&moved, quantity.Quantity{Kind: quantity.Figure, Unit: l.Unit, Value: greatest}) {
			return nil, false
		}
	}
	return &moved, true
}

// loggedLimit is what is told of such a limit.
func loggedLimit(l, meant *model.Limit, courses []*model.Course) *cause {
	first := courses[0]
	between := quantity.Between(quantity.Show(first.Least.SI, l.Unit, l.Step), quantity.Show(first.Greatest.SI, l.Unit, l.Step))
	all := "all that was logged"
	if len(courses) > 1 {
		all = fmt.Sprintf("all that was logged in %d logs", len(courses))
	}
	f := source.Finding{Severity: source.Error, At: l.PathAt, Subject: l.Path, Origin: string(model.FromSheet),
		Message: fmt.Sprintf("%s at `%s`, as %s, is far outside %s, and would all be inside %s", all, l.Path, between, l.BoundsText(), meant.BoundsText()),
		Do:      "look the limit up again, its unit and its point; if it is right, see what the logger counts by",
		Notes:   []source.Remark{{At: first.Worst.At(), Message: "the worst"}}}
	if l.Part != nil {
		f.Origin = string(model.FromPart)
	}
	return &cause{limits: []*model.Limit{l}, report: report{f, -1}}
}
