package main

import (
	"fmt"
	"os"
	"sync"
)

// spool keeps texts in a file until they are wanted: those of many ribs would fill the memory. They come as they are made,
// and go in order.
type spool struct {
	f    *os.File
	lock sync.Mutex
	end  int64
	at   [][2]int64 // where each text begins, and its length
}

// newSpool makes a spool of n texts, in a folder.
func newSpool(dir string, n int) (*spool, error) {
	f, err := os.CreateTemp(dir, ".report.*.part")
	if err != nil {
		return nil, fmt.Errorf("the report cannot be written: %w", err)
	}
	return &spool{f: f, at: make([][2]int64, n)}, nil
}

// put makes text i and takes it in.
func (s *spool) put(i int, text func() ([]byte, error)) error {
	b, err := text()
	if err != nil {
		return err
	}
	s.lock.Lock()
	at := s.end
	s.end += int64(len(b))
	s.lock.Unlock()
	s.at[i] = [2]int64{at, int64(len(b))}
	if _, err := s.f.WriteAt(b, at); err != nil {
		return fmt.Errorf("the report cannot be written: %w", err)
	}
	return nil
}

// all hands the texts out.
func (s *spool) all(yield func([]byte, error) bool) {
	for _, at := range s.at {
		b := make([]byte, at[1])
		if _, err := s.f.ReadAt(b, at[0]); !yield(b, err) {
			return
		}
	}
}

// drop takes the file away.
func (s *spool) drop() {
	s.f.Close()
	os.Remove(s.f.Name())
}
