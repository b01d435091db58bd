package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

func openRuns(t *testing.T, dir string) *Runs {
	t.Helper()
	r, err := OpenRuns(dir, noon)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func closeRuns(t *testing.T, r *Runs) {
	t.Helper()
	if err := r.Close(); err != nil {
		t.Fatal(err)
	}
}

func begin(t *testing.T, r *Runs, design, input string) int64 {
	t.Helper()
	id, err := r.Begin(context.Background(), Run{Design: design, Input: input, Text: "name: " + input + "\n", Units: "eu", Started: noon})
	if err != nil {
		t.Fatal(err)
	}
	return id
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// stores opens the two kinds of run store.
func stores(t *testing.T, f func(*testing.T, *Runs)) {
	t.Run("folder", func(t *testing.T) {
		r := openRuns(t, t.TempDir())
		defer closeRuns(t, r)
		f(t, r)
	})
	t.Run("memory", func(t *testing.T) {
		r, err := MemoryRuns()
		must(t, err)
		defer closeRuns(t, r)
		f(t, r)
	})
}

func TestLifeOfARun(t *testing.T) {
	stores(t, func(t *testing.T, r *Runs) {
		ctx := context.Background()
		id := begin(t, r, "a.yaml", "h1")
		if got, err := r.Get(ctx, id); err != nil || got.State != Waiting || got.Text != "name: h1\n" || !got.Started.Equal(noon) || !got.Ended.IsZero() {
			t.Errorf("begun: %+v, %v", got, err)
		}
		must(t, r.Progress(ctx, id, "blow", 0.4))
		if got, _ := r.Get(ctx, id); got.State != Running || got.Stage != "blow" || got.Fraction != 0.4 {
			t.Errorf("under way: %+v", got)
		}
		if found, err := r.Find(ctx, "h1"); err != nil || found != 0 {
			t.Errorf("a run under way is found as finished: %d, %v", found, err)
		}
		must(t, r.Forget(ctx, id))
		body := []byte(`{"board":"` + strings.Repeat("x", 100_000) + `"}`)
		must(t, r.End(ctx, id, Finished, "", body, noon.Add(time.Minute)))
		got, err := r.Get(ctx, id)
		if err != nil || got.Fraction != 1 || got.State != Finished || !got.Ended.Equal(noon.Add(time.Minute)) {
			t.Errorf("a run under way was forgotten, or its end: %+v, %v", got, err)
		}
		if b, err := r.Result(ctx, id); err != nil || string(b) != string(body) {
			t.Errorf("result of %d bytes, %v", len(b), err)
		}
		if found, err := r.Find(ctx, "h1"); err != nil || found != id {
			t.Errorf("Find = %d, %v", found, err)
		}
		// What comes late changes nothing.
		must(t, r.Progress(ctx, id, "strength", 0.9))
		must(t, r.End(ctx, id, Failed, "late", nil, noon))
		if again, _ := r.Get(ctx, id); again != got {
			t.Errorf("an ended run changed from %+v to %+v", got, again)
		}
		list, err := r.List(ctx, "a.yaml")
		if err != nil || len(list) != 1 || list[0].ID != id || list[0].Text != "" {
			t.Errorf("List = %+v, %v", list, err)
		}
		must(t, r.Forget(ctx, id))
		if _, err := r.Get(ctx, id); !errors.Is(err, ErrNoRun) {
			t.Errorf("a forgotten run: %v", err)
		}
		if _, err := r.Result(ctx, id); !errors.Is(err, ErrNoRun) {
			t.Errorf("the result of a forgotten run: %v", err)
		}
	})
}

func TestCrashedRuns(t *testing.T) {
	// The name of the folder holds what an address of a file gives a meaning to.
	dir := filepath.Join(t.TempDir(), "a ?b#c%41 é")
	must(t, os.Mkdir(dir, 0o755))
	ctx := context.Background()
	r := openRuns(t, dir)
	waiting, running, finished := begin(t, r, "a.yaml", "h1"), begin(t, r, "a.yaml", "h2"), begin(t, r, "a.yaml", "h3")
	must(t, r.Progress(ctx, running, "blow", 0.25))
	must(t, r.End(ctx, finished, Finished, "", []byte(`{}`), noon))
	closeRuns(t, r)
	r = openRuns(t, dir)
	defer closeRuns(t, r)
	if r.Remark() != "" {
		t.Errorf("remark %q", r.Remark())
	}
	for id, want := range map[int64]State{waiting: Crashed, running: Crashed, finished: Finished} {
		if got, err := r.Get(ctx, id); err != nil || got.State != want {
			t.Errorf("run %d: %+v, %v; want %s", id, got, err, want)
		}
	}
	if got, _ := r.Get(ctx, running); got.Stage != "blow" || got.Fraction != 0.25 || got.Message == "" || got.Text != "name: h2\n" {
		t.Errorf("where it was cut off is lost: %+v", got)
	}
	if _, err := os.Stat(filepath.Join(dir, runsName)); err != nil {
		t.Error(err)
	}
}

func TestSecondProgramOnAFolder(t *testing.T) {
	dir := t.TempDir()
	ctx := context.Background()
	first := openRuns(t, dir)
	id := begin(t, first, "a.yaml", "h1")
	second := openRuns(t, dir)
	if !strings.Contains(second.Remark(), "another costrel") {
		t.Errorf("remark %q", second.Remark())
	}
	begin(t, second, "a.yaml", "h2")
	closeRuns(t, second)
	if got, err := first.Get(ctx, id); err != nil || got.State != Waiting {
		t.Errorf("the second program changed the run of the first: %+v, %v", got, err)
	}
	if list, err := first.List(ctx, "a.yaml"); err != nil || len(list) != 1 {
		t.Errorf("List = %v, %v", list, err)
	}
	closeRuns(t, first)
}

func TestOldRunsGo(t *testing.T) {
	stores(t, func(t *testing.T, r *Runs) {
		ctx := context.Background()
		count := func(table string) (n int) {
			t.Helper()
			must(t, r.read.QueryRow(`SELECT count(*) FROM `+table).Scan(&n))
			return n
		}
		stays := begin(t, r, "a.yaml", "first") // under way all the time
		other := begin(t, r, "b.yaml", "b")
		must(t, r.End(ctx, other, Finished, "", []byte(`{}`), noon))
		for i := range 3 * keepOfDesign {
			id := begin(t, r, "a.yaml", fmt.Sprint(i))
			must(t, r.End(ctx, id, Finished, "", []byte(`{}`), noon))
		}
		list, err := r.List(ctx, "a.yaml")
		must(t, err)
		if len(list) != keepOfDesign+1 || list[len(list)-1].ID != stays {
			t.Errorf("%d runs of one design, want %d and the one under way", len(list), keepOfDesign)
		}
		if _, err := r.Get(ctx, other); err != nil {
			t.Errorf("the run of another design: %v", err)
		}
		for i := range keepOfAll + 30 {
			id := begin(t, r, fmt.Sprintf("d%d.yaml", i), "x")
			must(t, r.End(ctx, id, Finished, "", []byte(`{}`), noon))
		}
		if n := count("run"); n != keepOfAll+1 {
			t.Errorf("%d runs of all designs, want %d and the one under way", n, keepOfAll)
		}
		if n := count("result"); n != keepOfAll {
			t.Errorf("%d results for %d runs that ended", n, keepOfAll)
		}
	})
}

func TestNewerTablesAreRefused(t *testing.T) {
	dir := t.TempDir()
	closeRuns(t, openRuns(t, dir))
	path := filepath.Join(dir, runsName)
	db, err := sql.Open("sqlite", fileDSN(path))
	must(t, err)
	var version int
	must(t, db.QueryRow(`SELECT max(version_id) FROM schema_version`).Scan(&version))
	if version != 2 {
		t.Errorf("version %d of the tables, want 2", version)
	}
	_, err = db.Exec(`INSERT INTO schema_version (version_id, is_applied) VALUES (3, 1)`)
	must(t, errors.Join(err, db.Close()))
	before, err := os.ReadFile(path)
	must(t, err)
	_, err = OpenRuns(dir, noon)
	if !errors.Is(err, ErrNewer) {
		t.Fatalf("tables of a newer program: %v", err)
	}
	for _, word := range []string{path, "version 3", "up to 2", "move the file away"} {
		if !strings.Contains(err.Error(), word) {
			t.Errorf("the message does not say %q: %v", word, err)
		}
	}
	if after, err := os.ReadFile(path); err != nil || string(after) != string(before) {
		t.Error("the refused file was changed")
	}
	// The folder is let go: with the file away, it opens.
	must(t, os.Remove(path))
	closeRuns(t, openRuns(t, dir))
}

func TestDamagedStore(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, runsName)
	must(t, os.WriteFile(path, []byte(strings.Repeat("not a database ", 100)), 0o644))
	if _, err := OpenRuns(dir, noon); !errors.Is(err, ErrDamaged) || !strings.Contains(err.Error(), path) {
		t.Errorf("a damaged file: %v", err)
	}
	must(t, os.Remove(path))
	outside := filepath.Join(t.TempDir(), "elsewhere.db")
	if err := os.Symlink(outside, path); err == nil {
		if _, err := OpenRuns(dir, noon); err == nil {
			t.Error("a link in place of the file was followed")
		}
		if _, err := os.Stat(outside); err == nil {
			t.Error("a file was made outside the folder")
		}
	}
	if _, err := OpenRuns(filepath.Join(dir, "none"), noon); err == nil {
		t.Error("a folder that is not there was opened")
	}
}

// A place where SQLite cannot work does not keep the designs from being served.
func TestNoRoomForSQLite(t *testing.T) {
	dir := t.TempDir()
	must(t, os.Mkdir(filepath.Join(dir, runsName+"-wal"), 0o755))
	r := openRuns(t, dir)
	defer closeRuns(t, r)
	if !strings.Contains(r.Remark(), runsName) {
		t.Errorf("remark %q", r.Remark())
	}
	begin(t, r, "a.yaml", "h")
}

func TestFolderThatIsOnlyRead(t *testing.T) {
	dir := t.TempDir()
	must(t, os.Chmod(dir, 0o555))
	defer func() { _ = os.Chmod(dir, 0o755) }()
	if f, err := os.Create(filepath.Join(dir, "probe")); err == nil {
		_ = f.Close()
		t.Skip("this user may write anywhere")
	}
	r := openRuns(t, dir)
	defer closeRuns(t, r)
	if !strings.Contains(r.Remark(), "cannot be written") {
		t.Errorf("remark %q", r.Remark())
	}
	begin(t, r, "a.yaml", "h")
}
