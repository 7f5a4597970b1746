package chart

import (
	"strings"

	"example.org/locknut/journal/quantity"
)

// ValveData is when the valves of a four-stroke open and close: as they were measured, and as the part's card says.
type ValveData struct {
	Unit      *quantity.Unit // of the angles
	Now, Card Valves
}

// Valves are the openings of both sides. The exhaust opens from the bottom dead centre before the exhaust stroke and closes from the top dead centre after it; the
// intake opens from that same top dead centre, of overlap, and closes from the bottom dead centre after it.
type Valves struct {
	Exhaust, Intake Opening
	Overlap         Reading // as the page tells it; less than nought where one has shut before the other opens
	Lift            string  // at which the events were taken, as the page writes it: "1.0 mm"; empty where it isn't known
}

// PortData is when the ports of a two-stroke open and close: as they were measured, and as they were before, or as somebody's sheet says.
type PortData struct {
	Unit      *quantity.Unit // of the angles
	Now, Card Ports
}

// Ports are the openings of a two-stroke. Exhaust and transfers open and close from the bottom dead centre, the intake from the top.
type Ports struct {
	Exhaust, Transfer, Intake Opening
	Blowdown                  Reading // from where the exhaust opens until the transfers do, as the page tells it
}

// timing is a diagram of openings while it is drawn.
type timing struct {
	pen
	unit          *quantity.Unit
	size          Size
	width, height float64
	x             axis
	rows          []timingRow
	shared        sharedTime
	strokes       []stroke
	card          string // what the thin bars are
}

// stroke is half a turn of the crank, from a dead centre in degrees.
type stroke struct {
	name string
	from float64
}

// timingRow is what opens and closes, one under the other.
type timingRow struct {
	name      string
	now, card stretch
	isBelow   bool // its words stand below its bars
	y         float64
}

// sharedTime is what the first two rows have to do with each other: overlap, or blowdown.
type sharedTime struct {
	from, to   crankEvent
	name, text string
}

const (
	openTall   = 14 // of the bar of what was measured
	cardTall   = 5
	whiskTall  = 10 // between both, where the whiskers are
	sharedTall = 30 // between the first row and the second
)

// ValveTiming appends the valve timing of a four-stroke, laid along the crank angle. Without an event there is nothing to draw.
func ValveTiming(dst []byte, data ValveData, size Size) []byte {
	if data.Unit == nil || data.Unit.Dimension != quantity.Angle {
		return dst
	}
	t := newTiming(dst, data.Unit, size)
	now, card := data.Now, data.Card
	t.add(timingRow{name: "exhaust", now: now.Exhaust.stretch(-180, 0, t.unit), card: card.Exhaust.stretch(-180, 0, t.unit)})
	t.add(timingRow{name: "intake", now: now.Intake.stretch(0, 180, t.unit), card: card.Intake.stretch(0, 180, t.unit), isBelow: true})
	if len(t.rows) == 2 {
		t.shared = sharedTime{t.rows[1].now.opens, t.rows[0].now.closes, "overlap", t.angleText(now.Overlap)}
	}
	t.strokes = []stroke{{"power", -360}, {"exhaust stroke", -180}, {"intake stroke", 0}, {"compression", 180}}
	t.card = "thin and grey: the card, " + liftWords(card.Lift)
	title := "valve timing " + liftWords(now.Lift)
	if !t.hasNow() {
		title = "valve timing by the card, " + liftWords(card.Lift)
	}
	if t.shared.text != "" {
		title += ": overlap " + t.shared.text
	}
	return t.draw(title+t.durations(), -180, 180)
}

// PortTiming appends the port timing of a two-stroke, laid along the crank angle. Without an event there is nothing to draw.
func PortTiming(dst []byte, data PortData, size Size) []byte {
	if data.Unit == nil || data.Unit.Dimension != quantity.Angle {
		return dst
	}
	t := newTiming(dst, data.Unit, size)
	now, card := data.Now, data.Card
	t.add(timingRow{name: "exhaust", now: now.Exhaust.stretch(180, 180, t.unit), card: card.Exhaust.stretch(180, 180, t.unit)})
	t.add(timingRow{name: "transfers", now: now.Transfer.stretch(180, 180, t.unit), card: card.Transfer.stretch(180, 180, t.unit), isBelow: true})
	if len(t.rows) == 2 {
		t.shared = sharedTime{t.rows[0].now.opens, t.rows[1].now.opens, "blowdown", t.angleText(now.Blowdown)}
	}
	t.add(timingRow{name: "intake", now: now.Intake.stretch(360, 360, t.unit), card: card.Intake.stretch(360, 360, t.unit), isBelow: true})
	t.card = "thin and grey: the card"
	title := "port timing"
	if !t.hasNow() {
		title += " by the card"
	}
	if t.shared.text != "" {
		title += ": blowdown " + t.shared.text
	}
	return t.draw(title+t.durations(), 90, 270)
}

func liftWords(lift string) string {
	if lift == "" {
		return "at a lift that is not given"
	}
	return "at " + lift + " of lift"
}

func newTiming(dst []byte, u *quantity.Unit, size Size) *timing {
	t := &timing{pen: pen{dst}, unit: u, size: size, width: 640}
	if size != Wide {
		t.size, t.width = Narrow, 320
	}
	return t
}

// add takes a row in, if there is anything in it.
func (t *timing) add(r timingRow) {
	if r.now.is() || r.card.is() {
		t.rows = append(t.rows, r)
	}
}

func (t *timing) hasNow() bool {
	for _, r := range t.rows {
		if r.now.is() {
			return true
		}
	}
	return false
}

func (t *timing) hasCard() bool {
	for _, r := range t.rows {
		if r.card.is() {
			return true
		}
	}
	return false
}

// angleText is an angle as the page tells it, nothing where it isn't known.
func (t *timing) angleText(r Reading) string {
	if _, ok := r.drawnIn(degree()); !ok {
		return ""
	}
	return readingText(r, t.unit)
}

// durations goes on with a title that has the figure of the shared time, where there is one, or none yet.
func (t *timing) durations() string {
	text := ""
	for _, r := range t.rows {
		long := r.now.duration
		if !t.hasNow() {
			long = r.card.duration
		}
		if long == "" {
			continue
		}
		switch {
		case text != "":
			text += ", " + r.name + " " + long
			continue
		case t.shared.text != "":
			text = "; "
		default:
			text = ": "
		}
		text += r.name + " open for " + long
	}
	return text
}

// draw lays the rows under each other over the scale of the crank, which has at least two of its dead centres.
func (t *timing) draw(title string, least, most float64) []byte {
	if len(t.rows) == 0 {
		return t.out
	}
	places := []float64{least, most}
	for _, r := range t.rows {
		places = append(append(places, r.now.figures()...), r.card.figures()...)
	}
	t.x = crankSpan(places, 2, t.width-2)
	lines := wrap(title, t.width/1.12, 4)
	top := 10 + float64(len(lines))*rowTall
	y := top
	for i := range t.rows {
		if i > 0 {
			y += sharedTall
		}
		t.rows[i].y = y
		y += t.rows[i].tall()
	}
	foot := y + 8
	t.height = foot + 25
	if len(t.strokes) > 0 {
		t.height += rowTall - 2
	}
	if t.hasCard() && t.hasNow() {
		t.height += rowTall
	}
	t.open("c-timing", t.size, t.width, t.height, title, t.describes())
	for i, line := range lines {
		t.label("c-title", start, 0, 13+float64(i)*rowTall, line)
	}
	t.foot(top+4, foot)
	t.share()
	for _, r := range t.rows {
		t.row(r)
	}
	t.shut()
	return t.out
}

// describes tells all events, since a narrow drawing may leave some out.
func (t *timing) describes() string {
	var parts []string
	for _, r := range t.rows {
		if text := r.now.words(); text != "" {
			parts = append(parts, r.name+" "+text)
		}
		if text := r.card.words(); text != "" {
			parts = append(parts, r.name+" by the card "+text)
		}
	}
	return strings.Join(parts, "; ")
}

// foot draws the scale of the crank, with a line up from each dead centre, and the strokes between them.
func (t *timing) foot(top, foot float64) {
	centres := t.crankTicks(t.x, foot, ticksApart(t.size))
	for _, c := range centres {
		x := t.x.at(float64(c))
		t.line("c-grid", x, top, x, foot)
		t.label("c-figure", middle, min(max(x, 15), t.width-15), foot+21, c.label())
	}
	for _, s := range t.strokes {
		from, to := t.x.at(max(t.x.lo, s.from)), t.x.at(min(t.x.hi, s.from+180))
		if to-from > widthOf(s.name) {
			t.label("c-name", middle, (from+to)/2, foot+36, s.name)
		}
	}
	if t.hasCard() && t.hasNow() {
		t.label("c-name", start, 0, t.height-4, cut(t.card, t.width))
	}
}

// share hatches the time that the first two rows share, or lie apart by, and says how long it is.
func (t *timing) share() {
	s := t.shared
	if !s.from.is || !s.to.is {
		return
	}
	top := t.rows[0].y + t.rows[0].tall()
	from, to := t.x.at(s.from.at), t.x.at(s.to.at)
	t.group(strings.TrimSpace(s.name + " " + s.text))
	t.hatch("c-shared", from, top, to, top+sharedTall, 4.5)
	if text := s.name + " " + s.text; s.text != "" {
		right := max(from, to) + 8
		if right+widthOf(text) > t.width {
			right = min(from, to) - 8 - widthOf(text)
		}
		t.label("c-figure c-halo", start, max(0, right), top+sharedTall/2+4.5, text)
	}
	t.ungroup()
}

// tall is the height of a row: its name, the lines of its events, its bars.
func (r timingRow) tall() float64 {
	tall := 20.0
	if r.now.is() {
		tall += rowTall + whiskTall + openTall
	}
	if r.card.is() {
		tall += rowTall + cardTall
	}
	return tall
}
