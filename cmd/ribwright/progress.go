package main

import (
	"fmt"
	"os"
	"sync"
	"time"
)

// Work that takes longer than patience shows on a terminal how far it is, at most so often.
const (
	patience = 500 * time.Millisecond
	refresh  = 100 * time.Millisecond
)

// progress returns what shows on a terminal how far a piece of work is, and wipes it out at its end; nil where
// messages go elsewhere.
func (a *app) progress(what string) func(done, all int) {
	f, ok := a.err.(*os.File)
	if !ok {
		return nil
	}
	if info, err := f.Stat(); err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return nil
	}
	return bar(f, what, time.Now)
}

// bar writes a line that is written over until the work is done. The clock decides only whether it shows.
func bar(f *os.File, what string, now func() time.Time) func(done, all int) {
	const cells = 30
	var start, last time.Time
	shown := false
	return func(done, all int) {
		t := now()
		if start.IsZero() {
			start = t
		}
		switch {
		case done >= all && shown:
			fmt.Fprintf(f, "\r%*s\r", len(what)+cells+10, "")
			shown = false
		case done >= all || t.Sub(start) < patience || t.Sub(last) < refresh:
		default:
			n := cells * done / all
			fmt.Fprintf(f, "\r%s [%-*.*s] %3d %%", what, cells, n, "##############################", 100*done/all)
			last, shown = t, true
		}
	}
}

// counter returns what tells progress that one of all is done more. It may be called from several goroutines.
func counter(all int, progress func(done, all int)) func() {
	var lock sync.Mutex
	done := 0
	return func() {
		if progress == nil {
			return
		}
		lock.Lock()
		defer lock.Unlock()
		done++
		progress(done, all)
	}
}
