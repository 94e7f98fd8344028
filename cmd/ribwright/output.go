package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// file is one output: a name and what writes it.
type file struct {
	name  string
	write func(io.Writer) error
}

// writeAll writes files into a folder: each to a temporary name first, and renamed only when all of them are
// complete, so that an error in making them leaves older output whole, and no file is ever half written.
func writeAll(dir string, files []file) error {
	d := &draft{dir: dir}
	defer d.drop()
	if err := d.write(files); err != nil {
		return err
	}
	return d.keep()
}

// draft is files of a folder that are complete but for their names.
type draft struct {
	dir          string
	names, temps []string
	made         []string // folders that were made for it, the innermost first
}

// write adds files to the draft. Where one of them cannot be made, the first is told.
func (d *draft) write(files []file) error {
	temps, errs := make([]string, len(files)), make([]error, len(files))
	together(len(files), func(i int) { temps[i], errs[i] = writeTemp(d.dir, files[i]) })
	for i, f := range files {
		if temps[i] != "" {
			d.names, d.temps = append(d.names, f.name), append(d.temps, temps[i])
		}
	}
	for i, err := range errs {
		if err != nil {
			return fmt.Errorf("%s cannot be written: %w", filepath.Join(d.dir, files[i].name), err)
		}
	}
	return nil
}

// keep gives the files their names.
func (d *draft) keep() error {
	for _, name := range d.names {
		if t, err := os.Stat(filepath.Join(d.dir, name)); err == nil && !t.Mode().IsRegular() {
			return fmt.Errorf("%s is in the way: it is no file that could be written over", filepath.Join(d.dir, name))
		}
	}
	for i, name := range d.names {
		if err := os.Rename(d.temps[i], filepath.Join(d.dir, name)); err != nil {
			return fmt.Errorf("%s cannot be written: %w", filepath.Join(d.dir, name), err)
		}
		d.temps[i] = ""
	}
	d.made = nil
	return nil
}

// drop takes away what was not kept.
func (d *draft) drop() {
	for _, t := range d.temps {
		if t != "" {
			os.Remove(t)
		}
	}
	for _, dir := range d.made { // as far as they are empty
		os.Remove(dir)
	}
}

// makeFolder makes a folder, and returns what it made, the innermost first.
func makeFolder(dir string) ([]string, error) {
	var made []string
	for at := filepath.Clean(dir); ; at = filepath.Dir(at) {
		if _, err := os.Stat(at); err == nil || at == filepath.Dir(at) {
			break
		}
		made = append(made, at)
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return nil, fmt.Errorf("the folder for the output cannot be made: %w", err)
	}
	return made, nil
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
