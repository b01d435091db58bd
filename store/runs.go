package store

import (
	"context"
	"database/sql"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"time"

	"github.com/pressly/goose/v3"
	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"
)

// Names of the hidden files that keep the runs of a folder. SQLite keeps
// files of its own beside the first, with -wal and -shm after its name.
const (
	runsName  = ".costrel.db"
	serveName = ".costrel.serve.lock"
)

// Runs keeps full runs and their results in a SQLite file in the folder of the
// designs. One connection writes, others read. Its methods may be called at
// the same time.
type Runs struct {
	write, read *sql.DB
	lock        *os.File // held as long as these runs are open; nil in memory
	remark      string
}

// ErrNewer marks an error about a run store written by a newer program.
var ErrNewer = errors.New("written by a newer costrel")

// ErrDamaged marks an error about a run store that SQLite cannot read.
var ErrDamaged = errors.New("not a database, or a damaged one")

//go:embed migrations/*.sql
var migrations embed.FS

// OpenRuns opens the run store of a folder, or makes it, and brings its tables
// to the state that this program knows. A store that a newer program has
// changed is refused. Runs that were under way belong to a program that has
// ended: they become [Crashed] at the time now.
//
// When the folder cannot be written to, or has no locks for SQLite, as some
// network drives, or another program serves it, the runs are kept in memory and
// [Runs.Remark] says why.
func OpenRuns(dir string, now time.Time) (*Runs, error) {
	path := filepath.Join(dir, runsName)
	lock, why, err := serveLock(dir)
	if err != nil {
		return nil, err
	}
	if why != "" {
		return instead(why)
	}
	r, err := connect(fileDSN(path), 4)
	if err == nil {
		r.lock = lock
		if err = r.crash(context.Background(), now); err == nil {
			return r, nil
		}
		err = errors.Join(err, r.Close())
	} else {
		err = errors.Join(err, lock.Close())
	}
	if err = explain(path, err); errors.Is(err, ErrNewer) || errors.Is(err, ErrDamaged) {
		return nil, err
	}
	return instead(err.Error())
}

// instead returns a run store in memory, with the reason for it.
func instead(why string) (*Runs, error) {
	r, err := MemoryRuns()
	if err != nil {
		return nil, err
	}
	r.remark = why
	return r, nil
}

// MemoryRuns returns a run store that ends with the program.
func MemoryRuns() (*Runs, error) {
	return connect("file::memory:?"+pragmas("foreign_keys(1)").Encode(), 0)
}

// Remark says why the runs are kept in memory only; it is empty when they are
// kept in the folder.
func (r *Runs) Remark() string { return r.remark }

// Close writes out what SQLite holds back and lets go of the folder.
func (r *Runs) Close() error {
	var err error
	if r.read != r.write {
		err = r.read.Close()
	}
	err = errors.Join(err, r.write.Close())
	if r.lock != nil {
		err = errors.Join(err, r.lock.Close())
	}
	return err
}

// serveLock takes the lock of the one program that serves a folder; why tells
// a reason for which the runs cannot be kept in the folder.
func serveLock(dir string) (lock *os.File, why string, err error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, "", fmt.Errorf("store: open folder: %w", err)
	}
	defer func() { err = errors.Join(err, root.Close()) }()
	// SQLite follows links; a file of this name that leads elsewhere is not ours.
	if info, err := root.Lstat(runsName); err == nil && !info.Mode().IsRegular() {
		return nil, "", fmt.Errorf("store: %s in the folder is a link or a folder, not a file: take it away", runsName)
	}
	lock, err = root.OpenFile(serveName, os.O_RDWR|os.O_CREATE, 0o644)
	if err == nil {
		var db *os.File
		if db, err = root.OpenFile(runsName, os.O_RDWR|os.O_CREATE, 0o644); err == nil {
			err = db.Close()
		} else {
			err = errors.Join(err, lock.Close())
		}
	}
	if errors.Is(err, fs.ErrPermission) || readOnly(err) {
		return nil, "the folder cannot be written to", nil
	}
	if err != nil {
		return nil, "", fmt.Errorf("store: %w", err)
	}
	free, err := tryLock(lock)
	if err != nil || !free {
		err = errors.Join(err, lock.Close())
		if err != nil {
			return nil, "", fmt.Errorf("store: lock of the run store: %w", err)
		}
		return nil, "another costrel serves this folder and keeps its runs there", nil
	}
	return lock, "", nil
}

func pragmas(list ...string) url.Values { return url.Values{"_pragma": list} }

// fileDSN names a file with its settings: a journal that survives the end of
// the program at any moment, and a wait instead of an error when it is busy.
func fileDSN(path string) string {
	abs, err := filepath.Abs(path)
	if err != nil {
		abs = path
	}
	u := url.URL{Scheme: "file", Path: filepath.ToSlash(abs)}
	if u.Path[0] != '/' {
		u.Path = "/" + u.Path // a drive letter
	}
	u.RawQuery = pragmas("busy_timeout(5000)", "journal_mode(WAL)", "synchronous(NORMAL)", "foreign_keys(1)").Encode()
	return u.String()
}

// connect opens a database for one writer and some readers, none for a
// database that has one connection only, and migrates it.
func connect(dsn string, readers int) (*Runs, error) {
	write, err := sql.Open("sqlite", dsn)
	if err != nil {
		return nil, err
	}
	write.SetMaxOpenConns(1)
	if readers == 0 { // in memory: the connection is the database
		write.SetMaxIdleConns(1)
		write.SetConnMaxLifetime(0)
	}
	if err := migrate(write); err != nil {
		return nil, errors.Join(err, write.Close())
	}
	r := &Runs{write: write, read: write}
	if readers > 0 {
		if r.read, err = sql.Open("sqlite", dsn+"&_pragma=query_only(1)"); err != nil {
			return nil, errors.Join(err, write.Close())
		}
		r.read.SetMaxOpenConns(readers)
	}
	return r, nil
}

// migrate brings the tables to the newest state that this program knows.
func migrate(db *sql.DB) error {
	files, err := fs.Sub(migrations, "migrations")
	if err != nil {
		return err
	}
	p, err := goose.NewProvider(goose.DialectSQLite3, db, files, goose.WithTableName("schema_version"), goose.WithDisableGlobalRegistry(true))
	if err != nil {
		return err
	}
	ctx := context.Background()
	have, know, err := p.GetVersions(ctx)
	if err != nil {
		return err
	}
	if have > know {
		return fmt.Errorf("tables of version %d, this program knows up to %d: %w", have, know, ErrNewer)
	}
	_, err = p.Up(ctx)
	return err
}

// explain says what to do about an error of opening.
func explain(path string, err error) error {
	var e *sqlite.Error
	switch {
	case err == nil:
		return nil
	case errors.Is(err, ErrNewer):
		return fmt.Errorf("store: %s: %w. Use that program, or move the file away: it holds runs and results, no designs", path, err)
	case errors.As(err, &e) && (e.Code()&0xff == sqlite3.SQLITE_NOTADB || e.Code()&0xff == sqlite3.SQLITE_CORRUPT):
		return fmt.Errorf("store: %s: %w (%w). Move the file away: it holds runs and results, no designs", path, ErrDamaged, err)
	}
	return fmt.Errorf("store: %s: %w", path, err)
}
