package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"path/filepath"
	"testing"
)

func TestStages(t *testing.T) {
	stores(t, func(t *testing.T, r *Runs) {
		ctx := context.Background()
		if body, err := r.Stage(ctx, "k"); body != nil || err != nil {
			t.Errorf("a stage that was never kept: %q, %v", body, err)
		}
		must(t, r.KeepStage(ctx, "k", []byte("first")))
		must(t, r.KeepStage(ctx, "k", []byte("second")))
		if body, err := r.Stage(ctx, "k"); string(body) != "second" || err != nil {
			t.Errorf("kept twice: %q, %v", body, err)
		}
		for i := range keepStages {
			must(t, r.KeepStage(ctx, fmt.Sprint(i), []byte("x")))
		}
		if body, err := r.Stage(ctx, "k"); body != nil || err != nil {
			t.Errorf("the oldest is still kept: %q, %v", body, err)
		}
		if body, err := r.Stage(ctx, "0"); string(body) != "x" || err != nil {
			t.Errorf("one of the newest is lost: %q, %v", body, err)
		}
	})
}

// TestStagesJoinOlderStore: a store of the version before gets the table, and
// keeps its runs.
func TestStagesJoinOlderStore(t *testing.T) {
	dir := t.TempDir()
	r := openRuns(t, dir)
	if !r.InFolder() {
		t.Error("a store in a folder says that it is in memory")
	}
	id := begin(t, r, "a.yaml", "h1")
	must(t, r.End(context.Background(), id, Finished, "", []byte(`{}`), noon))
	closeRuns(t, r)
	db, err := sql.Open("sqlite", fileDSN(filepath.Join(dir, runsName)))
	must(t, err)
	_, err = db.Exec(`DROP TABLE stage; DELETE FROM schema_version WHERE version_id = 2`)
	must(t, errors.Join(err, db.Close()))
	r = openRuns(t, dir)
	defer closeRuns(t, r)
	must(t, r.KeepStage(context.Background(), "k", []byte("x")))
	if body, err := r.Result(context.Background(), id); string(body) != "{}" || err != nil {
		t.Errorf("the run of the older store: %q, %v", body, err)
	}
	m, err := MemoryRuns()
	must(t, err)
	defer closeRuns(t, m)
	if m.InFolder() {
		t.Error("a store in memory says that it is in a folder")
	}
}
