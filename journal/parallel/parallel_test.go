package parallel

import (
	"iter"
	"runtime"
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
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(2))
	var done atomic.Int64
	var stopped atomic.Bool
	Share(1000, func(tasks iter.Seq[int]) {
		for range tasks {
			done.Add(1)
			if stopped.CompareAndSwap(false, true) {
				return
			}
		}
	})
	if n := done.Load(); n != 1000 {
		t.Errorf("of two workers one stopped, and %d of 1000 tasks were done", n)
	}
}
