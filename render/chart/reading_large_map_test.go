package chart

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/locknut/journal/model"
)

// anyMap16 is a map of sixteen by sixteen in which anything was found.
func anyMap16(seed uint64) MixtureData {
	r := rand.New(rand.NewPCG(seed, 16))
	data := map16(func(_, _ int) model.SquareState { return model.SquareState(r.IntN(5)) })
	for i := range data.Squares {
		for k := range data.Squares[i] {
			if one := &data.Squares[i][k]; one.State != model.Unvisited {
				one.Mean = float64(70+r.IntN(40)) / 100 // of two decimals, as it is drawn
			}
			data.Squares[i][k].Load = r.IntN(2) > 0
		}
	}
	return data
}

// headsAt returns where a square's figure stands by the heads of its column and its row: of a further block those that are in it.
func headsAt(t *testing.T, words []word, throttle, speed string) (x, y float64) {
	t.Helper()
	column := slices.IndexFunc(words, func(w word) bool { return w.text == speed })
	if column < 0 {
		t.Fatalf("no head `%s`", speed)
	}
	for _, w := range words {
		if w.text == throttle && w.x < 60 && w.y < words[column].y {
			y = max(y, w.y)
		}
	}
	return words[column].x, y
}

// What a large map draws in each square, read at the heads, is what was found there.
func TestSignsOfALargeMap(t *testing.T) {
	for seed := range uint64(5) {
		data := anyMap16(seed)
		for _, size := range []Size{Wide, Narrow} {
			svg := MixtureSquares(nil, data, size)
			words := wordsOf(t, svg)
			edges := of(read(t, svg), "c-lean-harm")
			for i, row := range data.Squares {
				for k, one := range row {
					x, y := headsAt(t, words, data.Throttle[i], data.Speed[k])
					got := ""
					for _, w := range words {
						if w.x == x && w.y == y-16 || w.x == x && w.y == y {
							got += w.text + " "
						}
					}
					for _, e := range edges {
						for corner := range slices.Chunk(e.numbers, 5) { // left, top, right, bottom, left
							if corner[0] < x && x < corner[2] && corner[1] < y-4 && y-4 < corner[3] {
								got += "edge "
							}
						}
					}
					figure := strconv.FormatFloat(one.Mean, 'f', 2, 64)
					want := map[model.SquareState]string{model.Unvisited: "– ", model.Glimpsed: figure + " S ", model.OnTarget: figure + " ", model.Rich: figure + " R ", model.Lean: figure + " L "}[one.State]
					if one.State == model.Lean && one.Load {
						want = figure + " edge "
					}
					if got != want {
						t.Errorf("%d, %s: at %s and %s stands %q, want %q", seed, size.class(), data.Throttle[i], data.Speed[k], got, want)
					}
				}
			}
		}
	}
}

// Of a map whose squares have no room for figures each sign, read at the heads, is what was found there.
func TestSignsOfAMapWithoutFigures(t *testing.T) {
	for seed := range uint64(5) {
		r := rand.New(rand.NewPCG(seed, 20))
		data := mapOf(20, func(_, _ int) model.SquareState { return model.SquareState(r.IntN(5)) })
		for _, size := range []Size{Wide, Narrow} {
			words := wordsOf(t, MixtureSquares(nil, data, size))
			for i, row := range data.Squares {
				for k, one := range row {
					x, y := headsAt(t, words, data.Throttle[i], data.Speed[k])
					got := ""
					for _, w := range words {
						if w.x == x && w.y == y {
							got += w.text
						}
					}
					want := map[model.SquareState]string{model.Unvisited: "–", model.Glimpsed: "S", model.OnTarget: "", model.Rich: "R", model.Lean: "L"}[one.State]
					if one.State == model.Lean && one.Load {
						want = "✕"
					}
					if got != want {
						t.Errorf("%d, %s: at %s and %s stands %q, want %q", seed, size.class(), data.Throttle[i], data.Speed[k], got, want)
					}
				}
			}
		}
	}
	if svg := MixtureSquares(nil, mapOf(25, func(_, _ int) model.SquareState { return model.Lean }), Wide); len(svg) > 0 {
		t.Error("a map of 625 squares is drawn")
	}
}

// A large map counts its squares by what was found, and tells the five worst: lean under load before lean, lean before rich, and of each the one furthest off first.
func TestALargeMapTellsItsWorst(t *testing.T) {
	for seed := range uint64(20) {
		data := anyMap16(seed)
		for i := range data.Squares { // few off target, so that all kinds come up
			for k := range data.Squares[i] {
				if one := &data.Squares[i][k]; one.State >= model.Lean && (i*16+k+int(seed))%23 > 0 {
					one.State = model.OnTarget
				}
			}
		}
		type found struct {
			text string
			rank int
			off  float64
		}
		var off []found
		counts := map[string]int{}
		for i := range slices.Backward(data.Squares) {
			for k, one := range data.Squares[i] {
				name, rank := one.State.String(), 2
				if one.State == model.Lean {
					if rank = 1; one.Load {
						name, rank = "lean under load", 0
					}
				}
				counts[name]++
				if one.State >= model.Lean {
					off = append(off, found{fmt.Sprintf("%s and %s rpm (%.3f of 0.875, 12.8\u202fs)", data.Throttle[i], data.Speed[k], one.Mean), rank, max(one.Mean-0.875, 0.875-one.Mean)})
				}
			}
		}
		slices.SortStableFunc(off, func(a, b found) int { return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(b.off, a.off)) })
		told := read(t, MixtureSquares(nil, data, Narrow))[2].text
		at := 0
		for _, one := range off[:min(len(off), 5)] {
			next := strings.Index(told, one.text)
			if next <= at {
				t.Errorf("%d: %s is not told, or not in its turn: %s", seed, one.text, told)
			}
			at = next
		}
		if n := strings.Count(told, " and "); n != min(len(off), 5) {
			t.Errorf("%d: %d squares are told: %s", seed, n, told)
		}
		for name, n := range counts {
			if !strings.Contains(told, fmt.Sprintf("%d %s", n, name)) {
				t.Errorf("%d: not told: %d %s: %s", seed, n, name, told)
			}
		}
	}
}

// Up to a hundred squares have words, and more have signs with a key; the key names only what is in the map.
func TestALargeMapHasAKey(t *testing.T) {
	data := map16(func(_, column int) model.SquareState {
		return []model.SquareState{model.OnTarget, model.Rich}[column%2]
	})
	for rows, want := range map[int]bool{10: false, 11: true} {
		part := data
		part.Throttle, part.Speed = data.Throttle[:rows], data.Speed[:10]
		for _, size := range []Size{Wide, Narrow} {
			words := texts(read(t, MixtureSquares(nil, part, size)))
			if got := slices.Contains(words, "R:\u00a0rich"); got != want {
				t.Errorf("%d rows, %s: a key: %v, want %v: %q", rows, size.class(), got, want, words)
			}
		}
	}
}
