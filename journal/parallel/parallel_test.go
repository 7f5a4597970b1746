package parallel

import (
	"iter"
	"slices"
	"sync/atomic"
	"testing"
)

func TestEachTaskIsDoneOnce(t *testing.T) {
	for _, n := range []int{0, 1, 2, 1000} {
		done := make([]int, n)
		Each(n, func(i int) { done[i]++ })
		if slices.ContainsFunc(done, func(times int) bool { return times != 1 }) {
			t.Errorf("of %d tasks: %v", n, done)
		}
	}
}

func TestAWorkerThatStopsLeavesTheRest(t *testing.T) {
	var done atomic.Int64
	Share(1000, func(tasks iter.Seq[int]) {
		for range tasks {
			done.Add(1)
			return
		}
	})
	if n := done.Load(); n < 1 || n > 1000 {
		t.Errorf("%d tasks were done by workers that do one each", n)
	}
}
