package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"ribwright/geom/riblog"
)

// lockWait is how long an append waits for another one.
const lockWait = 10 * time.Second

// errLocked says that another process holds the lock.
var errLocked = errors.New("another program is writing to it")

// appended is what an append did.
type appended struct {
	line riblog.Line
	torn string // the file into which an unfinished last line was set aside; empty: there was none
}

// appendLog appends a line to a log, and returns when the line is on the disk. compose makes the line for what the file
// holds: its finished lines, or nothing. Where that fails nothing is touched.
//
// The log is locked meanwhile, against a second ribwright; the lock goes with the process, however it ends. A line is
// one write with its line end last, so a line without its end was never confirmed: it is copied to NAME.torn, and
// cut off, before the next one is written. A new file gets its headings and its first line in that one write.
func appendLog(name string, compose func(data []byte) (riblog.Line, error)) (done appended, err error) {
	fail := func(err error) (appended, error) {
		return appended{}, fmt.Errorf("%s: no line is added: %w", name, err)
	}
	at, err := os.Stat(name)
	if err == nil && at.IsDir() {
		return fail(errors.New("that is a folder; name a file in it"))
	}
	if errors.Is(err, fs.ErrNotExist) {
		if _, err := compose(nil); err != nil {
			return appended{}, err
		}
	}
	f, err := openLocked(name)
	if err != nil {
		return fail(err)
	}
	defer f.Close()
	data, err := io.ReadAll(f)
	if err != nil {
		return fail(err)
	}
	whole, torn := riblog.Tail(data)
	if done.line, err = compose(whole); err != nil {
		return appended{}, err
	}
	if len(torn) > 0 {
		done.torn = name + ".torn"
		if err := setAside(name, done.torn, torn, len(whole)); err != nil {
			return fail(err)
		}
	}
	if _, err := f.Write(done.line.Bytes); err != nil {
		_ = os.Truncate(name, int64(len(whole))) // what cannot be cut off here has no end, and is set aside next time
		return fail(err)
	}
	if err := f.Sync(); err != nil {
		return appended{}, fmt.Errorf("%s: the disk does not confirm the line: look whether it is there: %w", name, err)
	}
	if len(whole) == 0 {
		syncFolder(filepath.Dir(name))
	}
	return done, nil
}

// openLocked opens a log for appending, made anew where there is none, and locks it. A program that saved the log anew
// meanwhile, by renaming, has put another file in its place: then that one is locked.
func openLocked(name string) (*os.File, error) {
	for wait := time.Duration(0); ; {
		f, err := os.OpenFile(name, os.O_RDWR|os.O_APPEND|os.O_CREATE, 0o666)
		if err != nil {
			return nil, err
		}
		if err = lockFile(f); err == nil {
			here, err1 := f.Stat()
			there, err2 := os.Stat(name)
			switch {
			case err1 == nil && !here.Mode().IsRegular():
				f.Close()
				return nil, errors.New("it is no plain file")
			case err1 == nil && err2 == nil && os.SameFile(here, there):
				return f, nil
			}
		}
		f.Close()
		if err != nil && !errors.Is(err, errLocked) {
			return nil, fmt.Errorf("it cannot be locked: %w", err)
		}
		const step = 5 * time.Millisecond
		if wait += step; wait > lockWait {
			return nil, errLocked
		}
		time.Sleep(step)
	}
}

// setAside copies an unfinished line to the end of another file, and only when it is on the disk there cuts it off.
func setAside(name, to string, torn []byte, size int) error {
	t, err := os.OpenFile(to, os.O_WRONLY|os.O_APPEND|os.O_CREATE, 0o666)
	if err != nil {
		return err
	}
	_, err = t.Write(append(torn[:len(torn):len(torn)], '\n'))
	if err == nil {
		err = t.Sync()
	}
	if err2 := t.Close(); err == nil {
		err = err2
	}
	if err != nil {
		return err
	}
	return os.Truncate(name, int64(size))
}

// syncFolder brings a new file's name onto the disk, where the system knows how to.
func syncFolder(dir string) {
	if d, err := os.Open(dir); err == nil {
		_ = d.Sync() // some systems cannot, and keep the name without
		d.Close()
	}
}
