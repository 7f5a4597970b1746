// Package parallel has several workers share a list of tasks.
//
// How the tasks are shared out, and over how many workers, stays in here. The one invariant: each task is given out once at most, lower numbers
// first, and none is being worked on after the return; as long as a worker goes on, all are given out. What the workers write must not overlap; a result that is kept by the number of its task comes out in order.
package parallel

import (
	"iter"
	"runtime"
	"sync"
	"sync/atomic"
)

// Share runs as many workers as there are processors, though never more than tasks. Each ranges over the numbers of its tasks, from 0 to n-1.
// A worker that stops early leaves the rest to the others; tasks that none of them took are not done.
func Share(n int, worker func(tasks iter.Seq[int])) {
	var next atomic.Int64
	tasks := func(yield func(int) bool) {
		for i := next.Add(1) - 1; i < int64(n); i = next.Add(1) - 1 {
			if !yield(int(i)) {
				return
			}
		}
	}
	var wait sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), n) {
		wait.Go(func() { worker(tasks) })
	}
	wait.Wait()
}

// Each does each of n tasks, for workers that have nothing of their own.
func Each(n int, do func(i int)) {
	Share(n, func(tasks iter.Seq[int]) {
		for i := range tasks {
			do(i)
		}
	})
}
