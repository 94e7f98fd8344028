package main

import (
	"errors"
	"os"
	"syscall"
	"unsafe"
)

var lockFileEx = syscall.NewLazyDLL("kernel32.dll").NewProc("LockFileEx")

// lockFile locks a file for this process alone, or returns errLocked. A byte far behind the end of the file is locked, so
// that others can read the file meanwhile. The system gives the lock back when the file is closed or the process ends.
func lockFile(f *os.File) error {
	const (
		failAtOnce = 1                 // LOCKFILE_FAIL_IMMEDIATELY
		exclusive  = 2                 // LOCKFILE_EXCLUSIVE_LOCK
		violation  = syscall.Errno(33) // ERROR_LOCK_VIOLATION
	)
	at := syscall.Overlapped{OffsetHigh: 1 << 30}
	ok, _, err := lockFileEx.Call(f.Fd(), failAtOnce|exclusive, 0, 1, 0, uintptr(unsafe.Pointer(&at)))
	switch {
	case ok != 0:
		return nil
	case errors.Is(err, violation):
		return errLocked
	}
	return err
}
