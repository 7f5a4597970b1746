package chart

import "slices"

// side is a stretch of a curve that lies on one side of nought: all of its band, where that is known. Its sign is 0 for one of which that can't be said.
type side struct {
	sign   int
	points []CurvePoint
}

// sides cuts a curve where it, or an end of its band, crosses nought.
func sides(points []CurvePoint) []side {
	var all []side
	add := func(a, b CurvePoint) {
		sign := signOf(between(a, b, 0.5))
		if n := len(all); n > 0 && all[n-1].sign == sign {
			all[n-1].points = append(all[n-1].points, b)
			return
		}
		all = append(all, side{sign, []CurvePoint{a, b}})
	}
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		from := a
		for _, at := range crossings(a, b) {
			to := between(a, b, at)
			add(from, to)
			from = to
		}
		add(from, b)
	}
	return all
}

// signOf is 1 where a point and its interval lie above nought, −1 where they lie below.
func signOf(p CurvePoint) int {
	switch {
	case p.low() > 0:
		return 1
	case p.high() < 0:
		return -1
	}
	return 0
}

// crossings are where the way from one point to the next, or an end of the interval, crosses nought: as shares of the way, rising.
func crossings(a, b CurvePoint) []float64 {
	var at []float64
	for _, of := range []func(CurvePoint) float64{CurvePoint.low, CurvePoint.high} {
		from, to := of(a), of(b)
		if share := from / (from - to); share > 0 && share < 1 {
			at = append(at, share)
		}
	}
	if len(at) == 2 && at[1] < at[0] {
		at[0], at[1] = at[1], at[0]
	}
	return at
}

// between is the point a share of the way from one to another.
func between(a, b CurvePoint, share float64) CurvePoint {
	on := func(from, to float64) float64 { return from + (to-from)*share }
	return CurvePoint{on(a.Speed, b.Speed), on(a.Value, b.Value), on(a.Expanded, b.Expanded)}
}

// filling fills between nought and a curve where that lies above it.
func (g *gainCurves) filling(on field, all []side) {
	drawn := false
	for _, s := range all {
		if s.sign <= 0 {
			continue
		}
		if !drawn {
			g.begin("c-gained")
			drawn = true
		}
		first, last := s.points[0], s.points[len(s.points)-1]
		foot := func(at CurvePoint) CurvePoint { return CurvePoint{Speed: at.Speed} }
		g.along(on, slices.Concat([]CurvePoint{foot(first)}, s.points, []CurvePoint{foot(last)}), middleOf)
		g.put("Z")
	}
	if drawn {
		g.end()
	}
}

// strokes hatches from nought to a curve where that lies below it. The strokes hang on a grid of the whole drawing, so that they stand below each other in all plots.
func (g *gainCurves) strokes(on field, all []side) {
	drawn := false
	zero := on.y.at(0)
	for _, s := range all {
		if s.sign >= 0 {
			continue
		}
		next := 1
		first, last := on.x.at(s.points[0].Speed), on.x.at(s.points[len(s.points)-1].Speed)
		for k := int(first/g.gap) + 1; float64(k)*g.gap < last; k++ {
			x := float64(k) * g.gap
			for next < len(s.points)-1 && on.x.at(s.points[next].Speed) < x {
				next++
			}
			if !drawn {
				g.begin("c-loss")
				drawn = true
			}
			g.step("M", x, zero)
			g.step("V", on.heightAt(s.points[next-1], s.points[next], x))
		}
	}
	if drawn {
		g.end()
	}
}

// heightAt is where the straight line between two points is, at a place along.
func (f field) heightAt(a, b CurvePoint, x float64) float64 {
	from, to := f.x.at(a.Speed), f.x.at(b.Speed)
	if !(to > from) {
		return f.y.at(b.Value)
	}
	return f.y.at(between(a, b, (x-from)/(to-from)).Value)
}

// share says how many points a line may have, and how close strokes may stand, so that all of it stays as small as it must be.
func (g *gainCurves) share() {
	lost, strokes := 0.0, strokesBytes
	if g.size != Wide {
		strokes /= 2
	}
	for i := range g.plots {
		for _, s := range sides(g.plots[i].points) {
			if s.sign < 0 {
				lost += g.x.at(s.points[len(s.points)-1].Speed) - g.x.at(s.points[0].Speed)
			}
		}
	}
	g.gap = max(4, lost*strokeBytes/float64(strokes))
	room := g.size.bytes() - 400 - int(lost/g.gap*strokeBytes) - gainPlotBytes*len(g.plots)
	for g.most = mostPoints; g.most > 12 && g.linesBytes() > room; {
		g.most = g.most * 5 / 6
	}
}

// linesBytes is how many bytes lines, bands and fillings take, about: of a curve that trembles about nought the fillings take most.
func (g *gainCurves) linesBytes() int {
	points, fillings := 0, 0
	for i := range g.plots {
		p := &g.plots[i]
		thin := thinned(p.points, g.most)
		points += len(thin)
		if p.isBand {
			points += min(len(thin), g.most)
		}
		for _, s := range sides(thin) {
			if s.sign > 0 {
				fillings++
				points += len(s.points) + 2
			}
		}
	}
	return points*pointBytes + fillings*8
}
