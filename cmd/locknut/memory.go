package main

import (
	"os"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
)

// The heap may grow by 32 MiB before it is collected; by as much again as is in use up to 128 MiB; and always by half of what is in use. The
// runtime's usual share, all of what is in use, collects a small journal a dozen times and lets a large one take twice what it needs.
const (
	freeGrowth   = 32 << 20
	doubledUpTo  = 128 << 20
	growthAlways = 50 // per cent
)

// tuneCollection has the garbage collector go by these figures. It looks at the heap after each collection and sets the next one's share.
func tuneCollection() {
	if os.Getenv("GOGC") != "" || os.Getenv("GOMEMLIMIT") != "" {
		return // whoever sets these knows what they want
	}
	debug.SetGCPercent(growthFor(0))
	type sentinel struct{ _ *int } // what has a pointer is not put together with other small things, which would live on
	var again func(*sentinel)
	again = func(s *sentinel) {
		debug.SetGCPercent(growthFor(heapInUse()))
		runtime.SetFinalizer(s, again)
	}
	runtime.SetFinalizer(&sentinel{}, again)
}

// growthFor returns the share of a heap, in per cent, by which it may grow. Below 4 MiB the runtime counts as if there were that much.
func growthFor(heap uint64) int {
	heap = max(heap, 4<<20)
	return max(growthAlways, min(100, int(100*doubledUpTo/heap)), int(100*freeGrowth/heap))
}

// heapInUse returns the bytes that the last collection left.
func heapInUse() uint64 {
	sample := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	metrics.Read(sample)
	if sample[0].Value.Kind() != metrics.KindUint64 {
		return 0
	}
	return sample[0].Value.Uint64()
}
