package main

import (
	"os"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
	"sync/atomic"
)

// What the heap may hold, what is out of use counted in: so much in any case, and so much for each file of the journal; or nearly half as much
// again as is in use, if that is more. By the runtime's usual measure, twice what is in use, a journal is collected a dozen times while it is
// read, and a large one takes more memory in the end.
const (
	heapAlways   = 26 << 20
	heapPerFile  = 30 << 10
	growthAlways = 44 // per cent
)

// collector has the garbage collector go by these figures. It looks at the heap after each collection and sets the next one's share.
type collector struct {
	usual   bool // whoever set GOGC or GOMEMLIMIT knows what they want
	allowed atomic.Uint64
}

func newCollector() *collector {
	c := &collector{usual: os.Getenv("GOGC") != "" || os.Getenv("GOMEMLIMIT") != ""}
	if c.usual {
		return c
	}
	type sentinel struct{ _ *int } // what has a pointer is not put together with other small things, which would live on
	var again func(*sentinel)
	again = func(s *sentinel) {
		c.tune()
		runtime.SetFinalizer(s, again)
	}
	runtime.SetFinalizer(&sentinel{}, again)
	c.expect(0)
	return c
}

// expect allows for a journal of so many files, beside what is in use by now.
func (c *collector) expect(files int) {
	c.allowed.Store(heapInUse() + heapAlways + heapPerFile*uint64(files))
	c.tune()
}

func (c *collector) tune() {
	if !c.usual {
		debug.SetGCPercent(growthFor(heapInUse(), c.allowed.Load()))
	}
}

// growthFor returns the share of a heap, in per cent, by which it may grow. Below 4 MiB the runtime counts as if there were that much.
func growthFor(heap, allowed uint64) int {
	heap = max(heap, 4<<20)
	if heap >= allowed {
		return growthAlways
	}
	return max(growthAlways, int(100*(allowed-heap)/heap))
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
