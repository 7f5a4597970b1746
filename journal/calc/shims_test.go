package calc_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/locknut/journal/calc"
)

const mm = 1e-3

// set returns valves of one tolerance, each with a shim and the lash that it gives.
func set(shimsAndLashes ...float64) []calc.ShimmedValve {
	var valves []calc.ShimmedValve
	for i := 0; i < len(shimsAndLashes); i += 2 {
		valves = append(valves, calc.ShimmedValve{Fitted: shimsAndLashes[i] * mm, Lash: shimsAndLashes[i+1] * mm, Low: 0.10 * mm, High: 0.20 * mm, Target: 0.15 * mm})
	}
	return valves
}

func millimetres(figures ...float64) []float64 {
	for i := range figures {
		figures[i] *= mm
	}
	return figures
}

func TestShimSet(t *testing.T) {
	buyable := millimetres(2.50, 2.55, 2.60, 2.65, 2.70)
	stay, move, stock, buy, none := calc.ShimStays, calc.ShimMoves, calc.ShimStock, calc.ShimBuy, calc.NoShim
	for _, c := range []struct {
		what         string
		valves       []calc.ShimmedValve
		stock, sizes []float64
		from         []calc.ShimFrom
		size, lash   []float64 // mm; nothing is held where there is none
	}{
		// 2.70 + (0.08 − 0.15) is 2.63; of 0.05 mm steps 2.65 leaves 0.13, 2.60 leaves 0.18.
		{"the nearest size is bought", set(2.70, 0.08), nil, buyable, []calc.ShimFrom{buy}, []float64{2.65}, []float64{0.13}},
		{"without sizes the very thickness", set(2.70, 0.08), nil, nil, []calc.ShimFrom{buy}, []float64{2.63}, []float64{0.15}},
		{"the drawer comes before the shop", set(2.70, 0.08), millimetres(2.60), buyable, []calc.ShimFrom{stock}, []float64{2.60}, []float64{0.18}},
		{"two change places rather than open the drawer", set(2.70, 0.08, 2.63, 0.22), millimetres(2.63, 2.70), buyable,
			[]calc.ShimFrom{move, move}, []float64{2.63, 2.70}, []float64{0.15, 0.15}},
		{"one that is right stays", set(2.70, 0.15, 2.60, 0.15), millimetres(2.70), buyable, []calc.ShimFrom{stay, stay}, []float64{2.70, 2.60}, []float64{0.15, 0.15}},
		{"alike shims stay where they are", set(2.60, 0.15, 2.60, 0.15), nil, nil, []calc.ShimFrom{stay, stay}, []float64{2.60, 2.60}, []float64{0.15, 0.15}},
		{"a piece of the drawer serves once, where it leaves the most right", set(2.70, 0.07, 2.70, 0.08), millimetres(2.65), nil, []calc.ShimFrom{buy, stock}, []float64{2.62, 2.65}, []float64{0.15, 0.13}},
		{"on the bound is in", set(2.70, 0.05), nil, millimetres(2.65), []calc.ShimFrom{buy}, []float64{2.65}, []float64{0.10}},
		{"the nearest is out, a further one is in", []calc.ShimmedValve{{Fitted: 2.10 * mm, Lash: 0.45 * mm, Low: 0.09 * mm, High: 0.30 * mm, Target: 0.10 * mm}}, nil, millimetres(2.40, 2.465),
			[]calc.ShimFrom{buy}, []float64{2.40}, []float64{0.15}},
		{"no size will do, the other valve is served", set(2.70, 0.95, 2.70, 0.08), nil, buyable, []calc.ShimFrom{none, buy}, []float64{0, 2.65}, []float64{0, 0.13}},
		{"none is thin enough", set(0.05, -0.20), nil, nil, []calc.ShimFrom{none}, []float64{0}, []float64{0}},
		{"open on a side", []calc.ShimmedValve{{Fitted: 2.7 * mm, Lash: 0.08 * mm, Low: 0.1 * mm, High: math.Inf(1), Target: 0.15 * mm}}, nil, buyable, []calc.ShimFrom{buy}, []float64{2.65}, []float64{0.13}},
		{"no valve", nil, buyable, buyable, nil, nil, nil},
	} {
		got, err := calc.ShimSet(c.valves, c.stock, c.sizes)
		if err != nil || len(got) != len(c.from) {
			t.Errorf("%s: %+v, %v", c.what, got, err)
			continue
		}
		for i, choice := range got {
			if choice.From != c.from[i] || math.Abs(choice.Size-c.size[i]*mm) > 1e-12 || math.Abs(choice.Lash-c.lash[i]*mm) > 1e-12 {
				t.Errorf("%s: valve %d: %+v; want from %v, %v mm, %v mm left", c.what, i, choice, c.from[i], c.size[i], c.lash[i])
			}
		}
	}
	for what, valves := range map[string][]calc.ShimmedValve{"no shim": set(0, 0.1), "no lash": {{Fitted: mm, Lash: math.NaN()}}, "no target": {{Fitted: mm, Target: math.Inf(1)}}, "no bound": {{Fitted: mm, High: math.NaN()}}} {
		if got, err := calc.ShimSet(valves, nil, nil); err == nil {
			t.Errorf("%s: %+v", what, got)
		}
	}
	if got, err := calc.ShimSet(set(2.70, 0.08), millimetres(-1), nil); err == nil {
		t.Errorf("a shim below nought in the drawer: %+v", got)
	}
}

// The second method goes through all the ways there are: piece after piece of the engine and the drawer, each to one of the valves that have none yet or to nobody,
// remembering only the cheapest way to have served a set of valves. What no piece serves is bought for, or goes without.
func TestShimSetAgainstASecondMethod(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for round := range 300 {
		n := 1 + r.IntN(8)
		if round == 0 {
			n = 16
		}
		var valves []calc.ShimmedValve
		for range n {
			valves = append(valves, calc.ShimmedValve{Fitted: (2.4 + 0.05*float64(r.IntN(12))) * mm, Lash: 0.01 * float64(r.IntN(40)) * mm, Low: 0.10 * mm, High: (0.14 + 0.02*float64(r.IntN(4))) * mm, Target: 0.12 * mm})
		}
		var stock, sizes []float64
		for range r.IntN(6) {
			stock = append(stock, (2.3+0.05*float64(r.IntN(14)))*mm)
		}
		for range r.IntN(5) {
			sizes = append(sizes, (2.3+0.05*float64(r.IntN(14)))*mm)
		}
		got, err := calc.ShimSet(valves, stock, sizes)
		if err != nil {
			t.Fatal(err)
		}
		if have, want := costOf(t, valves, stock, sizes, got), cheapest(valves, stock, sizes); have != want {
			t.Fatalf("round %d: %v, want %v: %+v of %+v, drawer %v, shop %v", round, have, want, got, valves, stock, sizes)
		}
	}
}

// sum is what a set costs: valves without, bought, of the drawer, square nanometres, moved.
type sum [5]int64

func (a sum) and(b sum) sum {
	for i := range a {
		a[i] += b[i]
	}
	return a
}

func (a sum) less(b sum) bool {
	for i := range a {
		if a[i] != b[i] {
			return a[i] < b[i]
		}
	}
	return false
}

// serves says what a shim costs at a valve, and whether it brings it within its limits.
func serves(v calc.ShimmedValve, size float64) (sum, bool) {
	lash := v.Lash + v.Fitted - size
	off := int64(math.Round(math.Abs(lash-v.Target) * 1e9))
	return sum{3: off * off}, size > 0 && lash > v.Low-1e-12 && lash < v.High+1e-12
}

func cheapest(valves []calc.ShimmedValve, stock, sizes []float64) sum {
	far := sum{1 << 30}
	best := make([]sum, 1<<len(valves)) // by the set of valves served
	for set := range best {
		best[set] = far
	}
	best[0] = sum{}
	give := func(size float64, extra func(valve int) sum) {
		for set := len(best) - 1; set >= 0; set-- {
			for i, v := range valves {
				if cost, ok := serves(v, size); ok && set&(1<<i) != 0 {
					if c := best[set&^(1<<i)].and(cost).and(extra(i)); c.less(best[set]) {
						best[set] = c
					}
				}
			}
		}
	}
	for piece, v := range valves {
		give(v.Fitted, func(i int) sum {
			if i == piece {
				return sum{}
			}
			return sum{4: 1}
		})
	}
	for _, size := range stock {
		give(size, func(int) sum { return sum{2: 1} })
	}
	all := far
	for set, c := range best {
		for i, v := range valves {
			if set&(1<<i) != 0 {
				continue
			}
			without := sum{1}
			shop := sizes
			if len(shop) == 0 {
				shop = []float64{v.Lash + v.Fitted - v.Target}
			}
			for _, size := range shop {
				if cost, ok := serves(v, size); ok && cost.and(sum{1: 1}).less(without) {
					without = cost.and(sum{1: 1})
				}
			}
			c = c.and(without)
		}
		if c.less(all) {
			all = c
		}
	}
	return all
}

// costOf adds up what a set costs, and fails where a piece serves twice or a lash is not what the shim leaves.
func costOf(t *testing.T, valves []calc.ShimmedValve, stock, sizes []float64, choices []calc.ShimChoice) sum {
	t.Helper()
	var total sum
	used := map[[2]int]bool{}
	for i, c := range choices {
		if c.From == calc.NoShim {
			total = total.and(sum{1})
			continue
		}
		cost, ok := serves(valves[i], c.Size)
		piece := [2]int{int(min(c.From, calc.ShimStock)), c.Of}
		switch c.From {
		case calc.ShimStays, calc.ShimMoves:
			piece[0] = int(calc.ShimStays)
			ok = ok && c.Size == valves[c.Of].Fitted && (c.Of == i) == (c.From == calc.ShimStays)
			if c.Of != i {
				cost[4]++
			}
		case calc.ShimStock:
			ok = ok && c.Size == stock[c.Of]
			cost[2]++
		case calc.ShimBuy:
			piece = [2]int{-1, i}
			cost[1]++
		}
		if !ok || used[piece] || math.Abs(c.Lash-(valves[i].Lash+valves[i].Fitted-c.Size)) > 1e-15 {
			t.Fatalf("valve %d gets %+v of %v, %v", i, c, stock, sizes)
		}
		used[piece] = true
		total = total.and(cost)
	}
	return total
}

// BenchmarkShimSet is the whole set of a sixteen-valve engine, with a full drawer and shop.
func BenchmarkShimSet(b *testing.B) {
	r := rand.New(rand.NewPCG(7, 8))
	var valves []calc.ShimmedValve
	for range 16 {
		valves = append(valves, calc.ShimmedValve{Fitted: (2.4 + 0.025*float64(r.IntN(20))) * mm, Lash: 0.01 * float64(r.IntN(30)) * mm, Low: 0.10 * mm, High: 0.15 * mm, Target: 0.12 * mm})
	}
	var pieces []float64
	for i := range 100 {
		pieces = append(pieces, (1.2+0.025*float64(i))*mm)
	}
	for b.Loop() {
		if _, err := calc.ShimSet(valves, pieces, pieces); err != nil {
			b.Fatal(err)
		}
	}
}
