package store

import (
	"os"
	"syscall"
	"unsafe"
)

// lockFile waits for the lock of an open file. Closing the file lets go.
func lockFile(file *os.File) error {
	const exclusive = 2
	proc := syscall.NewLazyDLL("kernel32.dll").NewProc("LockFileEx")
	var at syscall.Overlapped
	ok, _, err := proc.Call(file.Fd(), exclusive, 0, 1, 0, uintptr(unsafe.Pointer(&at)))
	if ok == 0 {
		return err
	}
	return nil
}
