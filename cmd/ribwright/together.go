package main

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// busy is how many goroutines of together are at work besides the one that the program began with.
var busy atomic.Int32

// hire reports whether a processor is free for one goroutine more; busy counts it then.
func hire() bool {
	if busy.Add(1) < int32(runtime.GOMAXPROCS(0)) {
		return true
	}
	busy.Add(-1)
	return false
}

// together does n things, the first ones first, as many at once as there are processors free for them: the caller's own, and others as they
// become free. So what is done may do things together itself, and hardly more is at work, or in memory, than there are processors: one
// that has waited for its others goes on at once.
func together(n int, do func(i int)) {
	var next atomic.Int64
	var all sync.WaitGroup
	var work func()
	work = func() {
		for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
			if int(next.Load()) < n && hire() {
				all.Go(func() {
					defer busy.Add(-1)
					work()
				})
			}
			do(i)
		}
	}
	work()
	busy.Add(-1) // what the others do may take this processor
	all.Wait()
	busy.Add(1)
}
