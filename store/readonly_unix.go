//go:build !windows

package store

import (
	"errors"
	"syscall"
)

// readOnly reports whether an error comes from a file system that is only read.
func readOnly(err error) bool { return errors.Is(err, syscall.EROFS) }
