package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
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
// complete, so that an error in making them leaves older output whole, and no file is ever half written.
func writeAll(dir string, files []file) error {
	for _, f := range files {
		if t, err := os.Stat(filepath.Join(dir, f.name)); err == nil && !t.Mode().IsRegular() {
			return fmt.Errorf("%s is in the way: it is no file that could be written over", filepath.Join(dir, f.name))
		}
	}
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
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "", fmt.Errorf("there is no folder %s: make it first", dir)
	case errors.Is(err, fs.ErrPermission):
		return "", fmt.Errorf("you may not write in the folder %s: choose another", dir)
	case err != nil:
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

// writeOne writes to a file, or to the standard output for "-". The standard output, and what is no plain file,
// such as a pipe, gets all or nothing of what could be made. The input is never written over.
func (a *app) writeOne(name, input string, write func(io.Writer) error) error {
	target, err := os.Stat(name)
	switch in, inErr := os.Stat(input); {
	case name == "-":
	case err == nil && target.IsDir():
		return usage("%s is a folder: name a file in it", name)
	case err == nil && inErr == nil && os.SameFile(target, in):
		return usage("%s is the rib file itself: name another file for the output", name)
	case err != nil || target.Mode().IsRegular():
		if real, err := filepath.EvalSymlinks(name); err == nil {
			name = real // a link stays a link
		}
		return writeAll(filepath.Dir(name), []file{{filepath.Base(name), write}})
	}
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return err
	}
	to := a.out
	if name != "-" {
		f, err := os.OpenFile(name, os.O_WRONLY, 0)
		if err != nil {
			return fmt.Errorf("%s cannot be written: %w", name, err)
		}
		defer f.Close()
		to = f
	}
	_, err = b.WriteTo(to)
	return err
}
