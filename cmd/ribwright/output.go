package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"sync"
)

// file is one output: a name and what writes it.
type file struct {
	name  string
	write func(io.Writer) error
}

// writeAll writes files into a folder: each to a temporary name first, and renamed only when all of them are
// complete, so that an error leaves older output whole and never half a file.
func writeAll(dir string, files []file) (err error) {
	temps, errs := make([]string, len(files)), make([]error, len(files))
	defer func() {
		for _, t := range temps {
			if t != "" {
				os.Remove(t)
			}
		}
	}()
	together(len(files), func(i int) { temps[i], errs[i] = writeTemp(dir, files[i]) })
	for i, err := range errs {
		if err != nil {
			return fmt.Errorf("%s cannot be written: %w", filepath.Join(dir, files[i].name), err)
		}
	}
	for i, f := range files {
		if err := os.Rename(temps[i], filepath.Join(dir, f.name)); err != nil {
			return fmt.Errorf("%s cannot be written: %w", filepath.Join(dir, f.name), err)
		}
		temps[i] = ""
	}
	return nil
}

// writeTemp writes one file under a temporary name in the folder it belongs to, and returns that name.
func writeTemp(dir string, f file) (name string, err error) {
	name = filepath.Join(dir, fmt.Sprintf(".%s.%d.part", f.name, os.Getpid()))
	t, err := os.Create(name)
	if err != nil {
		return "", err
	}
	if err = f.write(t); err == nil {
		err = t.Close()
	} else {
		t.Close()
	}
	if err != nil {
		os.Remove(name)
		return "", err
	}
	return name, nil
}

// together does n things, as many at once as there are processors.
func together(n int, do func(i int)) {
	free := make(chan struct{}, runtime.GOMAXPROCS(0))
	var all sync.WaitGroup
	for i := range n {
		free <- struct{}{}
		all.Go(func() {
			defer func() { <-free }()
			do(i)
		})
	}
	all.Wait()
}

// writeOne writes to a file, or to the standard output for "-". The standard output gets all or nothing of
// what could be made.
func (a *app) writeOne(name string, write func(io.Writer) error) error {
	if name == "-" {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			return err
		}
		_, err := b.WriteTo(a.out)
		return err
	}
	return writeAll(filepath.Dir(name), []file{{filepath.Base(name), write}})
}
