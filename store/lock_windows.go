package store

import (
	"errors"
	"os"
	"syscall"
	"unsafe"
)

// lockFile waits for the lock of an open file. Closing the file lets go.
func lockFile(file *os.File) error {
	return lockFileEx(file, exclusive)
}

// tryLock takes the lock of an open file when nobody has it.
func tryLock(file *os.File) (bool, error) {
	const violation = syscall.Errno(33) // ERROR_LOCK_VIOLATION: another has it
	err := lockFileEx(file, exclusive|atOnce)
	if errors.Is(err, violation) {
		return false, nil
	}
	return err == nil, err
}

const (
	exclusive = 2
	atOnce    = 1
)

func lockFileEx(file *os.File, flags uintptr) error {
	proc := syscall.NewLazyDLL("kernel32.dll").NewProc("LockFileEx")
	var at syscall.Overlapped
	ok, _, err := proc.Call(file.Fd(), flags, 0, 1, 0, uintptr(unsafe.Pointer(&at)))
	if ok == 0 {
		return err
	}
	return nil
}
