package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// readNamed reads a file that was named on the command line; why it cannot be read is told with a remedy.
func readNamed(name string) ([]byte, error) {
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, whyNot(name, err)
	}
	return data, nil
}

// whyNot says in the builder's words why a file cannot be read.
func whyNot(name string, err error) error {
	at, statErr := os.Stat(name)
	switch {
	case statErr == nil && at.IsDir():
		return fmt.Errorf("%s is a folder: name a file in it", name)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s may be read by others only: ask its owner, or copy it", name)
	case !errors.Is(err, fs.ErrNotExist):
		return err
	}
	if filepath.Ext(name) == "" {
		for _, ext := range []string{".toml", ".csv"} {
			if _, err := os.Stat(name + ext); err == nil {
				return fmt.Errorf("there is no %s, but a %s: write its whole name", name, name+ext)
			}
		}
	}
	folder := filepath.Dir(name)
	if abs, err := filepath.Abs(folder); err == nil {
		folder = abs
	}
	return fmt.Errorf("there is no %s in %s: look at its name, and at the folder", filepath.Base(name), folder)
}

// intoFolder tells, before the work is done, that what shall be the output's folder cannot be one.
func intoFolder(dir string) error {
	for at := filepath.Clean(dir); ; at = filepath.Dir(at) {
		info, err := os.Stat(at)
		switch {
		case err == nil && !info.IsDir():
			return usage("%s is a file, and build writes many into a folder: name another with -o", at)
		case err == nil || at == filepath.Dir(at):
			return nil
		}
	}
}
