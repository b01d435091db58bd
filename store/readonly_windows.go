package store

import (
	"errors"
	"syscall"
)

// readOnly reports whether an error comes from a medium that is only read.
func readOnly(err error) bool { return errors.Is(err, syscall.Errno(19)) } // ERROR_WRITE_PROTECT
