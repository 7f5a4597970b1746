package model

import (
	"math"
	"slices"
	"strings"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// ShimStore is where the shims of one side of the engine come from.
type ShimStore struct {
	Sizes *parse.Field // that can be bought; nil: any
	Stock *parse.Field // the drawer; nil: nothing is in it
	Own   bool         // they fit no valve of the other side

	Unread bool // some of that can't be read
}

// ShimStore returns where the shims of a side come from. A side that has a table of its own has a drawer of its own; what can be bought is the same for both unless it says so.
func (j *Journal) ShimStore(side string) ShimStore {
	if j.Build.Fields == nil {
		return ShimStore{}
	}
	adjuster := j.Build.Fields.Table("engine").Table("adjuster")
	s := ShimStore{Sizes: adjuster.Get("sizes"), Stock: adjuster.Get("stock"), Unread: adjuster.IsBad("sizes", "stock", side)}
	for _, other := range parse.Sides {
		s.Own = s.Own || adjuster.Get(other) != nil
	}
	if adjuster.Get(side) != nil {
		own := adjuster.Table(side)
		s.Stock = own.Get("stock")
		s.Unread = s.Unread || own.IsBad("sizes", "stock")
		if sizes := own.Get("sizes"); sizes != nil {
			s.Sizes = sizes
		}
	}
	return s
}

// ShimRange is how thick the shims of a side are, in m: from the least to the most that can be bought; where the sheet doesn't say, both are the middle of those that are known.
type ShimRange struct {
	Least, Most float64
	Sold        bool         // the sheet says what can be bought
	Doubted     *parse.Field // sizes that most of the shims are far from, which agree with each other: the sizes are wrong then, and Least and Most are 0
}

// farShim is how many times as thick as the thickest, or as thin as the thinnest, a shim must be to be none that there is. Common practice, no source.
const farShim = 2

// IsFar reports whether a thickness (m) is none that a shim of the side can have.
func (r ShimRange) IsFar(size float64) bool {
	return r.Most > 0 && (quantity.Compare(size, farShim*r.Most, 0) > 0 || quantity.Compare(size, r.Least/farShim, 0) < 0)
}

// ShimRange returns how thick the shims of a side are.
func (j *Journal) ShimRange(side string) ShimRange { return j.shimRanges[side] }

// ShimRangeAt returns how thick the shims are that fit at the path of a shim; nothing for another path.
func (j *Journal) ShimRangeAt(path string) ShimRange {
	side, isShim := strings.CutPrefix(path, "shim.")
	if !isShim {
		return ShimRange{}
	}
	side, _, _ = strings.Cut(side, ".")
	return j.shimRanges[side]
}

// AreShimsKnown reports whether it is known, of either side, how thick its shims are.
func (j *Journal) AreShimsKnown() bool { return len(j.shimRanges) > 0 }

// IsFarShim reports whether a value is that of a shim, and none that a shim can have.
func (j *Journal) IsFarShim(v *Value) bool {
	r := j.ShimRangeAt(v.Path)
	return r.Most > 0 && v.Quantity.Unit != nil && !v.Quantity.IsOpenEnded() && r.IsFar(v.Estimate.Value)
}

// shimSizes finds out how thick the shims of each side are.
func (l *linker) shimSizes() {
	j := l.journal
	for _, side := range parse.Sides {
		if len(j.placeAt("shim."+side).values) == 0 && len(j.Positions.Below("shim."+side)) == 1 && j.ShimStore(side).Stock == nil {
			continue // nearly all journals
		}
		if r := j.shimRange(side); r.Most > 0 || r.Doubted != nil {
			if j.shimRanges == nil {
				j.shimRanges = map[string]ShimRange{}
			}
			j.shimRanges[side] = r
		}
	}
}

// fewShims are too few to tell which of them is wrong. Common practice, no source.
const fewShims = 3

func (j *Journal) shimRange(side string) ShimRange {
	store := j.ShimStore(side)
	known := j.shimsIn(side)
	for _, other := range parse.Sides {
		if other != side && !store.Own {
			known = append(known, j.shimsIn(other)...)
		}
	}
	if store.Sizes != nil && len(store.Sizes.Sizes) > 0 {
		r := ShimRange{Least: slices.Min(store.Sizes.Sizes), Most: slices.Max(store.Sizes.Sizes), Sold: true}
		agree := 0 // with each other, and not with the sizes
		if middle := middleOf(known); r.IsFar(middle.Most) {
			for _, size := range known {
				if !middle.IsFar(size) {
					agree++
				}
			}
		}
		if agree >= fewShims && 2*agree > len(known) {
			return ShimRange{Doubted: store.Sizes}
		}
		return r
	}
	for _, piece := range PiecesOf(store.Stock) {
		known = append(known, piece.SI())
	}
	if len(known) < fewShims {
		return ShimRange{}
	}
	return middleOf(known)
}

// middleOf returns the middle of shims that are known, which the most and the least of them leave alone.
func middleOf(known []float64) ShimRange {
	if len(known) == 0 {
		return ShimRange{}
	}
	slices.Sort(known)
	middle := (known[(len(known)-1)/2] + known[len(known)/2]) / 2
	return ShimRange{Least: middle, Most: middle}
}

// shimsIn returns how thick the shims are that are in now at the valves of a side, in m.
func (j *Journal) shimsIn(side string) []float64 {
	var sizes []float64
	for _, position := range j.Positions.Below("shim." + side) {
		if v := j.currentAt(position, j.end()); v != nil && v.Quantity.Unit != nil && !v.Quantity.IsOpenEnded() && !math.IsNaN(v.Estimate.Value) {
			sizes = append(sizes, v.Estimate.Value)
		}
	}
	return sizes
}

// PiecesOf returns the figures of a list of shims, those that can be read.
func PiecesOf(stock *parse.Field) []quantity.Quantity {
	if stock == nil {
		return nil
	}
	var pieces []quantity.Quantity
	for _, piece := range stock.Figures {
		if q, slip := piece.Resolve(stock.Key.Want()); slip == nil {
			pieces = append(pieces, q)
		}
	}
	return pieces
}
