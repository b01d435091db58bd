package store

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"sort"
	"sync"
	"time"
)

// MaxBytes is the largest file that is read or written [bytes].
const MaxBytes = 4 << 20

// ErrNotFound marks an error about a design that is not in the folder.
var ErrNotFound = errors.New("no such design in the folder")

// Entry is one design of a folder.
type Entry struct {
	Name     string // with .yaml
	Version  string // of the content; empty when the file cannot be read
	Modified time.Time
	Size     int64 // bytes
}

// File is a design with its text.
type File struct {
	Entry
	Text string
}

// Folder is a folder with designs. Its methods may be called at the same time.
type Folder struct {
	root *os.Root
	mu   sync.Mutex // one save at a time
	n    int        // of the next file in the making; under mu
}

// Open opens an existing folder. What saves that did not end have left behind
// is taken away when it is older than an hour at the time now.
func Open(dir string, now time.Time) (*Folder, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, fmt.Errorf("store: open folder: %w", err)
	}
	f := &Folder{root: root}
	if err := f.sweep(now.Add(-time.Hour)); err != nil {
		return nil, errors.Join(err, root.Close())
	}
	return f, nil
}

// Close lets go of the folder.
func (f *Folder) Close() error { return f.root.Close() }

// Version returns the version of a text: a hash of its bytes.
func Version(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:16])
}

// List returns the designs of the folder, by name. Folders, hidden files and
// files of other kinds are left out; so are links that lead out.
func (f *Folder) List() ([]Entry, error) {
	names, err := f.names()
	if err != nil {
		return nil, err
	}
	out := make([]Entry, 0, len(names))
	for _, name := range names {
		if CheckName(name) != nil {
			continue
		}
		info, err := f.root.Stat(name)
		if err != nil || !info.Mode().IsRegular() {
			continue
		}
		e := Entry{Name: name, Modified: info.ModTime(), Size: info.Size()}
		if file, err := f.Read(name); err == nil {
			e = file.Entry
		}
		out = append(out, e)
	}
	sort.Slice(out, func(i, j int) bool { return out[i].Name < out[j].Name })
	return out, nil
}

func (f *Folder) names() ([]string, error) {
	dir, err := f.root.Open(".")
	if err != nil {
		return nil, fmt.Errorf("store: list: %w", err)
	}
	names, err := dir.Readdirnames(-1)
	if err != nil {
		return nil, errors.Join(fmt.Errorf("store: list: %w", err), dir.Close())
	}
	return names, dir.Close()
}

// Read returns a design with its text and version.
func (f *Folder) Read(name string) (File, error) {
	if err := CheckName(name); err != nil {
		return File{}, err
	}
	// A pipe or device would block when it is opened: look first.
	info, err := f.root.Stat(name)
	if errors.Is(err, fs.ErrNotExist) {
		return File{}, fmt.Errorf("store: read %q: %w", name, ErrNotFound)
	}
	if err != nil {
		if link, e := f.root.Lstat(name); e == nil && link.Mode()&fs.ModeSymlink != 0 {
			return File{}, fmt.Errorf("store: read %q: a link to a place outside the folder; copy the file into it: %w", name, ErrName)
		}
		return File{}, fmt.Errorf("store: read %q: %w", name, err)
	}
	if !info.Mode().IsRegular() {
		return File{}, fmt.Errorf("store: read %q: not a plain file: %w", name, ErrName)
	}
	file, err := f.root.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return File{}, fmt.Errorf("store: read %q: %w", name, ErrNotFound)
	}
	if err != nil {
		return File{}, fmt.Errorf("store: read %q: %w", name, err)
	}
	out, err := read(file, name)
	return out, errors.Join(err, file.Close())
}

func read(file *os.File, name string) (File, error) {
	info, err := file.Stat()
	if err != nil {
		return File{}, fmt.Errorf("store: read %q: %w", name, err)
	}
	b, err := io.ReadAll(io.LimitReader(file, MaxBytes+1))
	if err != nil {
		return File{}, fmt.Errorf("store: read %q: %w", name, err)
	}
	if len(b) > MaxBytes {
		return File{}, fmt.Errorf("store: read %q: more than %d bytes", name, MaxBytes)
	}
	text := string(b)
	return File{Entry{Name: name, Version: Version(text), Modified: info.ModTime(), Size: int64(len(b))}, text}, nil
}
