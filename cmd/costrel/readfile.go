package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
)

// maxFile is the largest file that is read [bytes]: far above any design, table
// or drawing, and below what would fill the memory.
const maxFile = 64 << 20

// readFile reads a plain file of bounded size. A device, a pipe or a folder and
// a larger file are errors that say so.
func readFile(name string) ([]byte, error) {
	info, err := os.Stat(name) // a pipe would block when it is opened
	if err != nil {
		var at *fs.PathError
		if errors.As(err, &at) {
			at.Op = "open"
		}
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s is not a plain file; name a file", name)
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	b, err := io.ReadAll(io.LimitReader(f, maxFile+1))
	if err == nil && len(b) > maxFile {
		err = fmt.Errorf("%s is larger than %d MB; a design, table or drawing is smaller", name, maxFile>>20)
	}
	return b, errors.Join(err, f.Close())
}
