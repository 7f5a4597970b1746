package calc

import (
	"cmp"
	"math"
	"slices"

	"example.org/locknut/journal/quantity"
)

// ShimmedValve is a valve whose lash a shim sets. All figures are in m.
type ShimmedValve struct {
	Fitted float64 // the shim that is in
	Lash   float64 // with that
	Low    float64 // the least lash that is in limits; -Inf for none
	High   float64 // the most; +Inf for none
	Target float64 // what the lash should be
}

// InLimits reports whether a lash is within the valve's limits.
func (v ShimmedValve) InLimits(lash float64) bool {
	return quantity.Compare(lash, v.Low, v.Lash) >= 0 && quantity.Compare(lash, v.High, v.Lash) <= 0
}

// With returns the lash that a shim leaves.
func (v ShimmedValve) With(shim float64) float64 { return v.Lash + v.Fitted - shim }

// ShimFrom says where a shim comes from.
type ShimFrom uint8

// Where shims come from.
const (
	NoShim    ShimFrom = iota // none that there is, or can be had, brings the valve within its limits
	ShimStays                 // the valve keeps its own
	ShimMoves                 // that of another valve
	ShimStock                 // one of the drawer
	ShimBuy                   // one that must be bought
)

// ShimChoice is the shim that one valve gets.
type ShimChoice struct {
	From ShimFrom
	Of   int     // the valve that it comes from, or the piece of the stock
	Size float64 // m
	Lash float64 // that it leaves, m
}

// ShimSet returns the shim for each valve, by index, so that of all ways to share them out
//
//   - as few valves as can be are left without a shim that brings them within their limits,
//   - as few shims as can be are bought,
//   - as few as can be are taken from the stock, the others from the engine itself,
//   - the squares of what is left between the lashes and their targets add up to as little as can be, to the nanometre,
//   - and as few as can be change places,
//
// each of these weighing more than all after it together. Stock are the pieces in the drawer, one figure a piece; sizes are those that can be bought, any
// number of each; without sizes the very thickness is bought. It refuses figures that are none, and shims and sizes that are not more than zero. Source of the
// method: an assignment problem, solved exactly by shortest augmenting paths with potentials (the Hungarian method), in whole numbers; the order of what counts is the
// trade's: common practice, no source.
func ShimSet(valves []ShimmedValve, stock, sizes []float64) ([]ShimChoice, error) {
	for _, v := range valves {
		if err := first(finitely(v.Lash), finitely(v.Target), positive("the thickness of the shim that is in", v.Fitted)); err != nil {
			return nil, err
		}
		if math.IsNaN(v.Low) || math.IsNaN(v.High) {
			return nil, Refusal("a bound of the lash is no figure")
		}
	}
	for _, size := range slices.Concat(stock, sizes) {
		if err := positive("the thickness of a shim", size); err != nil {
			return nil, err
		}
	}
	n := len(valves)
	width := n + len(stock) + 2*n // of the engine, of the stock, bought, none
	table := make([]shimCost, n*width)
	for i, v := range valves {
		row := table[i*width : (i+1)*width]
		for column := range row {
			row[column] = v.cost(i, shimAt(valves, stock, sizes, i, column))
		}
	}
	choices := make([]ShimChoice, n)
	for i, column := range assign(table, n, width) {
		choices[i] = shimAt(valves, stock, sizes, i, column)
	}
	return choices, nil
}

// shimAt is what a column of the table means for a valve: the shims of the engine stand first, then those of the stock, then one to buy for each valve, then none
// for each. NoShim with a place of its own is a shim to buy for another valve.
func shimAt(valves []ShimmedValve, stock, sizes []float64, i, column int) ShimChoice {
	n, v := len(valves), valves[i]
	c := ShimChoice{Of: -1}
	switch {
	case column < n:
		c = ShimChoice{From: ShimMoves, Of: column, Size: valves[column].Fitted}
		if column == i {
			c.From = ShimStays
		}
	case column < n+len(stock):
		c = ShimChoice{From: ShimStock, Of: column - n, Size: stock[column-n]}
	case column == n+len(stock)+i:
		c = ShimChoice{From: ShimBuy, Of: -1, Size: v.With(v.Target)}
		if len(sizes) > 0 {
			c.Size = v.nearest(sizes)
		}
	default:
		return c
	}
	c.Lash = v.With(c.Size)
	if !(c.Size > 0) || !v.InLimits(c.Lash) {
		return ShimChoice{Of: -1}
	}
	return c
}

// nearest returns the size that leaves the lash nearest its target, of those that bring it within its limits; of all where none does.
func (v ShimmedValve) nearest(sizes []float64) float64 {
	return slices.MinFunc(sizes, func(a, b float64) int {
		in, other := v.InLimits(v.With(a)), v.InLimits(v.With(b))
		switch {
		case in && !other:
			return -1
		case other && !in:
			return 1
		}
		return cmp.Compare(math.Abs(v.With(a)-v.Target), math.Abs(v.With(b)-v.Target))
	})
}

// shimCost is what a choice costs: valves without a shim, shims bought, shims of the stock, square nanometres off the target, shims that change places. The
// first that differs decides; whole numbers add up exactly.
type shimCost [5]int64

func (v ShimmedValve) cost(i int, c ShimChoice) shimCost {
	off := int64(math.Round(min(math.Abs(c.Lash-v.Target)*1e9, 1e8)))
	switch c.From {
	case ShimStays:
		return shimCost{3: off * off}
	case ShimMoves:
		return shimCost{3: off * off, 4: 1}
	case ShimStock:
		return shimCost{2: 1, 3: off * off}
	case ShimBuy:
		return shimCost{1: 1, 3: off * off}
	}
	return shimCost{0: 1}
}

func (a shimCost) plus(b shimCost) shimCost {
	for i := range a {
		a[i] += b[i]
	}
	return a
}

func (a shimCost) minus(b shimCost) shimCost {
	for i := range a {
		a[i] -= b[i]
	}
	return a
}

// assign gives each row of a table a column of its own, so that what they cost adds up to as little as can be. There are at least as many columns as rows. One row
// after another gets in by the cheapest way of moving the others aside; potentials of rows and columns keep all other costs at nought or more.
func assign(table []shimCost, rows, columns int) []int {
	const none = -1
	ofRow, ofColumn := make([]shimCost, rows), make([]shimCost, columns+1)
	row := slices.Repeat([]int{none}, columns+1) // that has the column; the last column is where a new row begins
	for i := range rows {
		begin := columns
		row[begin] = i
		least, from := make([]shimCost, columns), slices.Repeat([]int{none}, columns)
		done := make([]bool, columns+1)
		at := begin
		for row[at] != none {
			done[at] = true
			next := none
			for c := range columns {
				if done[c] {
					continue
				}
				cost := table[row[at]*columns+c].minus(ofRow[row[at]]).minus(ofColumn[c])
				if from[c] == none || slices.Compare(cost[:], least[c][:]) < 0 {
					least[c], from[c] = cost, at
				}
				if next == none || slices.Compare(least[c][:], least[next][:]) < 0 {
					next = c
				}
			}
			step := least[next]
			for c := range columns + 1 {
				switch {
				case done[c]:
					ofRow[row[c]] = ofRow[row[c]].plus(step)
					ofColumn[c] = ofColumn[c].minus(step)
				case c < columns:
					least[c] = least[c].minus(step)
				}
			}
			at = next
		}
		for at != begin {
			row[at], at = row[from[at]], from[at]
		}
	}
	chosen := make([]int, rows)
	for c := range columns {
		if row[c] != none {
			chosen[row[c]] = c
		}
	}
	return chosen
}
