package model

import (
	"fmt"
	"math"

	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// lobeElsewhere is a degree-wheel file whose lobe stands where none of its side is.
type lobeElsewhere struct {
	*Degreeing
	of    source.Range // where the entry says what it is of
	angle float64      // of its middle, in rad after the top dead centre of overlap
}

// fits reports whether the lobe stands where one of a side does, whichever turn of the crank it was counted in.
func (e lobeElsewhere) fits(side string) bool {
	return math.Abs(math.Remainder(e.angle-UsualMiddle(side), 2*math.Pi)) <= nearOther
}

// nearOther is as near as a lobe is to where those of the other side usually stand to be taken for one, in rad: 30°. A lobe of its own side that was read half a turn off stands further from there. Common practice, no source.
const nearOther = math.Pi / 6

func otherSide(side string) string {
	if side == "intake" {
		return "exhaust"
	}
	return "intake"
}

// misplaced reports the files of an entry whose lobe stands elsewhere: two that are each of the other lobe once, and one that is of the other lobe, for which the entry has no file, where it says so.
func (l *linker) misplaced(e *Entry) {
	all := l.elsewhere
	l.elsewhere = nil
	for i, file := range all {
		side := file.Of[len("cam."):]
		other := otherSide(side)
		away := l.fromOverlap(file.angle)
		switch {
		case areSwapped(all):
			if i > 0 {
				continue // told with the first
			}
			theirs := l.fromOverlap(all[1].angle)
			l.report("bad-degreeing", source.Error, file.name, file.Of,
				fmt.Sprintf("`%s` is said to be of `%s`, and its lobe has its middle at %s of overlap; `%s`, of `%s`, at %s: each is the other's", file.Name.Text, file.Of, away, all[1].Name.Text, all[1].Of, theirs),
				"change the two over", source.Remark{At: all[1].name, Message: "the other file"}).Entry = e.Path
		case file.fits(other) && !l.hasFileOf(e, "cam."+other):
			for _, what := range degreedWords { // read, but for its name
				l.unread("cam."+other+"."+what, orderOf(e.Index, momentDegreed))
			}
			l.report("bad-degreeing", source.Error, file.of, file.Of, fmt.Sprintf("the lobe's middle would be at %s of overlap: there an %s lobe stands, and no %s lobe", away, other, side),
				fmt.Sprintf("write `of = \"cam.%s\"` if the dial stood there; if not, say in `zero` what the wheel's nought is", other), source.Remark{At: file.name, Message: "the file"}).Entry = e.Path
		default:
			l.notDegreed(file.Degreeing, fmt.Sprintf("the lobe's middle would be at %s of overlap, where no %s lobe is", away, side),
				"say in `zero` what the wheel's nought is: `firing TDC`, `BDC`, or where it stands, as in `12° BTDC`; after is plus; and see whether `of` names the right lobe")
		}
	}
}

// fromOverlap shows an angle from the top dead centre of overlap, in rad, before it less than zero.
func (l *linker) fromOverlap(angle float64) quantity.Shown {
	return quantity.ShowFrom(quantity.ATDC, angle, l.journal.Units.Leading(quantity.Angle), WheelStep)
}

// areSwapped reports whether two files are each of the lobe that the other is said to be of.
func areSwapped(all []lobeElsewhere) bool {
	return len(all) == 2 && all[0].Of != all[1].Of && all[0].fits(all[1].Of[len("cam."):]) && all[1].fits(all[0].Of[len("cam."):])
}

func (l *linker) hasFileOf(e *Entry, lobe string) bool {
	for _, table := range e.Fields.Tables("degreeing") {
		if table.Name("of").Name == lobe {
			return true
		}
	}
	return false
}

// leastNought is as much as a wheel's nought has to be off for it to matter which is meant, in rad: half a degree, as finely as one is read. Common practice, no source.
const leastNought = math.Pi / 360

// zeroUntold reports files of an entry that say nothing of the wheel's nought, where the entry found by a stop that it isn't at top dead centre.
func (l *linker) zeroUntold(e *Entry) {
	if len(e.Degreeings) == 0 {
		return
	}
	order := orderOf(e.Index, momentDegreed)
	before, after := figureOfAngle(l.journal.at(StopBefore, order)), figureOfAngle(l.journal.at(StopAfter, order))
	if before == nil || after == nil || before.Entry != e || after.Entry != e {
		return
	}
	centre, fault := StopCentre(before, after)
	if fault != nil || math.Abs(centre) < leastNought {
		return
	}
	for _, d := range e.Degreeings {
		if d.zeroSaid {
			continue
		}
		l.report("zero-untold", source.Warning, d.name, d.Of, fmt.Sprintf("by the stop of this entry the wheel shows %s at top dead centre, and nothing says whether this file was read so: its angles count as if the nought was right", l.fromOverlap(centre)),
			"write `zero = \"stop\"` here, or `zero = \"overlap TDC\"` if the pointer was shifted before it was read", source.Remark{At: before.At(), Message: "the stop"}).Entry = e.Path
	}
}

// figureOfAngle returns a value that is an angle with a middle; nil for any other.
func figureOfAngle(v *Value) *Value {
	if v == nil || v.Quantity.Unit == nil || v.Quantity.Unit.Dimension != quantity.Angle || v.Quantity.IsOpenEnded() {
		return nil
	}
	return v
}
