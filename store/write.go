package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"
	"time"
)

// Conflict is the error of a save whose base is not what stands on disk.
type Conflict struct {
	Name    string
	Text    string // on disk now
	Version string // on disk now; empty when there is no file any more
}

// Error says what happened to the file.
func (c *Conflict) Error() string {
	if c.Version == "" {
		return fmt.Sprintf("store: %q is not on the disk any more", c.Name)
	}
	return fmt.Sprintf("store: %q on the disk is another version than the one these changes began from", c.Name)
}

// Write saves a text and returns its version. base is the version that the
// changes began from; empty for a design that is new. When the file on disk is
// not of that version the error is a [*Conflict] and the file stays, unless
// it holds the very text already.
//
// Saves through this package exclude each other across programs. A program
// that writes the file in another way is noticed up to the moment of the
// exchange.
func (f *Folder) Write(name, text, base string) (version string, err error) {
	if err := CheckName(name); err != nil {
		return "", err
	}
	if len(text) > MaxBytes {
		return "", fmt.Errorf("store: write %q: %d bytes, more than %d", name, len(text), MaxBytes)
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	unlock, err := f.lock()
	if err != nil {
		return "", err
	}
	defer func() { err = errors.Join(err, unlock()) }()
	mode, done, err := f.compare(name, text, base)
	if done || err != nil {
		return Version(text), err
	}
	temp, err := f.temp(text, mode)
	if err != nil {
		return "", fmt.Errorf("store: write %q: %w", name, err)
	}
	if _, done, err = f.compare(name, text, base); !done && err == nil {
		err = f.swap(temp, name, base == "")
	}
	if err != nil || done {
		err = errors.Join(err, ignoreMissing(f.root.Remove(temp)))
	}
	if err != nil {
		return "", err
	}
	return Version(text), f.syncDir()
}

// compare holds the file on disk against the base. It returns the mode of the
// file, 0 when there is none; done is true when it holds the text already.
func (f *Folder) compare(name, text, base string) (mode fs.FileMode, done bool, err error) {
	info, err := f.root.Lstat(name)
	if errors.Is(err, fs.ErrNotExist) {
		if base != "" {
			return 0, false, &Conflict{Name: name}
		}
		return 0, false, nil
	}
	if err != nil {
		return 0, false, fmt.Errorf("store: write %q: %w", name, err)
	}
	if !info.Mode().IsRegular() {
		return 0, false, fmt.Errorf("store: write %q: a link or folder of this name stands there: %w", name, ErrName)
	}
	disk, err := f.Read(name)
	switch {
	case errors.Is(err, ErrNotFound):
		return f.compare(name, text, base) // deleted just now
	case err != nil:
		return 0, false, err
	case disk.Text == text:
		return 0, true, nil
	case disk.Version != base:
		return 0, false, &Conflict{Name: name, Text: disk.Text, Version: disk.Version}
	}
	return info.Mode().Perm(), false, nil
}

const (
	tempPrefix = ".costrel-"
	tempSuffix = ".tmp"
	lockName   = ".costrel.lock"
)

// temp writes a text to a file of its own in the folder, flushed to the disk.
func (f *Folder) temp(text string, mode fs.FileMode) (string, error) {
	var file *os.File
	var name string
	for {
		f.n++
		name = fmt.Sprintf("%s%d-%d%s", tempPrefix, os.Getpid(), f.n, tempSuffix)
		var err error
		file, err = f.root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		if err == nil {
			break
		}
		if !errors.Is(err, fs.ErrExist) {
			return "", err
		}
	}
	_, err := file.WriteString(text)
	if err == nil {
		err = file.Sync()
	}
	if err = errors.Join(err, file.Close()); err == nil && mode != 0 {
		err = f.root.Chmod(name, mode) // as the file it replaces
	}
	if err != nil {
		return "", errors.Join(err, f.root.Remove(name))
	}
	return name, nil
}

// swap puts the finished file in its place in one step. A new design never
// takes the place of a file that came meanwhile.
func (f *Folder) swap(temp, name string, fresh bool) error {
	if fresh {
		switch err := f.root.Link(temp, name); {
		case err == nil:
			return ignoreMissing(f.root.Remove(temp))
		case errors.Is(err, fs.ErrExist):
			disk, err := f.Read(name)
			if err != nil {
				return err
			}
			return &Conflict{Name: name, Text: disk.Text, Version: disk.Version}
		}
		// The file system has no links: rename, as for a file that is there.
	}
	if err := f.root.Rename(temp, name); err != nil {
		return fmt.Errorf("store: write %q: %w", name, err)
	}
	return nil
}

func ignoreMissing(err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}

// syncDir flushes the folder itself, where the system can do that.
func (f *Folder) syncDir() error {
	dir, err := f.root.Open(".")
	if err != nil {
		return fmt.Errorf("store: %w", err)
	}
	_ = dir.Sync() // not every file system has it; the exchange has been made
	return dir.Close()
}

// Duplicate saves the design from under the name to and returns its version.
// It is a [*Conflict] when to is there already.
func (f *Folder) Duplicate(from, to string) (version string, err error) {
	file, err := f.Read(from)
	if err != nil {
		return "", err
	}
	if err := CheckName(to); err != nil {
		return "", err
	}
	if disk, err := f.Read(to); err == nil {
		return "", &Conflict{Name: to, Text: disk.Text, Version: disk.Version}
	}
	return f.Write(to, file.Text, "")
}

// lock waits until no other save is under way in the folder, in this or
// another program. The system lets go of the lock when a program dies.
func (f *Folder) lock() (unlock func() error, err error) {
	file, err := f.root.OpenFile(lockName, os.O_RDWR|os.O_CREATE, 0o644)
	if err != nil {
		return nil, fmt.Errorf("store: lock: %w", err)
	}
	if err := lockFile(file); err != nil {
		return nil, errors.Join(fmt.Errorf("store: lock: %w", err), file.Close())
	}
	return file.Close, nil
}

// sweep takes away what saves that did not end have left, when it was written
// before the given time.
func (f *Folder) sweep(before time.Time) error {
	names, err := f.names()
	if err != nil {
		return err
	}
	for _, name := range names {
		if !strings.HasPrefix(name, tempPrefix) || !strings.HasSuffix(name, tempSuffix) {
			continue
		}
		info, err := f.root.Lstat(name)
		if err != nil || !info.Mode().IsRegular() || !info.ModTime().Before(before) {
			continue
		}
		if err := ignoreMissing(f.root.Remove(name)); err != nil {
			return fmt.Errorf("store: clean up: %w", err)
		}
	}
	return nil
}
