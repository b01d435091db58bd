package store

import (
	"bytes"
	"compress/gzip"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"time"
)

// State tells how a run stands.
type State string

// States of a run.
const (
	Waiting   State = "waiting"   // for a place among the runs under way
	Running   State = "running"   // under way
	Finished  State = "finished"  // it has a result
	Failed    State = "failed"    // it came to an end without one
	Withdrawn State = "withdrawn" // nobody wanted it any more
	Crashed   State = "crashed"   // the program ended before it did
)

// What is kept: the newest runs of each design, and of all together. Runs
// under way are never taken away.
const (
	keepOfDesign = 10
	keepOfAll    = 200
)

// Run is a full run of a design.
type Run struct {
	ID       int64
	Design   string // file name; empty for a text without a file
	Input    string // hash of all that the result depends on
	Text     string // empty in lists
	Units    string
	State    State
	Stage    string  // the last one reported
	Fraction float64 // of the work, 0 to 1
	Message  string  // why there is no result
	Started  time.Time
	Ended    time.Time // zero while it is under way
}

// ErrNoRun marks an error about a run that is not kept.
var ErrNoRun = errors.New("no such run; old runs are taken away")

// Begin records a new run, waiting for its turn, and returns its number. The
// oldest runs beyond what is kept are taken away.
func (r *Runs) Begin(ctx context.Context, run Run) (id int64, err error) {
	err = r.change(ctx, func(tx *sql.Tx) error {
		row := tx.QueryRowContext(ctx, `INSERT INTO run (design, input, text, units, state, started) VALUES ($1, $2, $3, $4, $5, $6) RETURNING id`,
			run.Design, run.Input, run.Text, run.Units, Waiting, stamp(run.Started))
		if err := row.Scan(&id); err != nil {
			return err
		}
		_, err := tx.ExecContext(ctx, `DELETE FROM run WHERE state NOT IN ($1, $2) AND
			(design = $3 AND id NOT IN (SELECT id FROM run WHERE design = $3 ORDER BY id DESC LIMIT $4)
			OR id NOT IN (SELECT id FROM run ORDER BY id DESC LIMIT $5))`,
			Waiting, Running, run.Design, keepOfDesign, keepOfAll)
		return err
	})
	if err != nil {
		return 0, fmt.Errorf("store: record a run: %w", err)
	}
	return id, nil
}

// Progress records that a run is under way and how far it is.
func (r *Runs) Progress(ctx context.Context, id int64, stage string, fraction float64) error {
	_, err := r.write.ExecContext(ctx, `UPDATE run SET state = $1, stage = $2, fraction = $3 WHERE id = $4 AND state IN ($1, $5)`,
		Running, stage, fraction, id, Waiting)
	if err != nil {
		return fmt.Errorf("store: progress of run %d: %w", id, err)
	}
	return nil
}

// End records the end of a run: its state, why it has no result, or the result
// as JSON. State and result are recorded together or not at all. All of the work of
// a finished run is done. A run that has ended already stays as it is.
func (r *Runs) End(ctx context.Context, id int64, state State, message string, result []byte, now time.Time) error {
	err := r.change(ctx, func(tx *sql.Tx) error {
		done, err := tx.ExecContext(ctx, `UPDATE run SET state = $1, message = $2, ended = $3, fraction = CASE WHEN $1 = $7 THEN 1 ELSE fraction END WHERE id = $4 AND state IN ($5, $6)`,
			state, message, stamp(now), id, Waiting, Running, Finished)
		if err != nil || result == nil {
			return err
		}
		if n, err := done.RowsAffected(); err != nil || n == 0 {
			return err
		}
		body, err := pack(result)
		if err == nil {
			_, err = tx.ExecContext(ctx, `INSERT INTO result (run, body) VALUES ($1, $2)`, id, body)
		}
		return err
	})
	if err != nil {
		return fmt.Errorf("store: end of run %d: %w", id, err)
	}
	return nil
}

// crash marks the runs under way as crashed.
func (r *Runs) crash(ctx context.Context, now time.Time) error {
	_, err := r.write.ExecContext(ctx, `UPDATE run SET state = $1, ended = $2, message = $3 WHERE state IN ($4, $5)`,
		Crashed, stamp(now), "the program ended while the run was under way", Waiting, Running)
	if err != nil {
		return fmt.Errorf("store: mark runs that were cut off: %w", err)
	}
	return nil
}

const columns = `id, design, input, units, state, stage, fraction, message, started, ended`

// List returns the kept runs of a design without their texts, newest first.
func (r *Runs) List(ctx context.Context, design string) (out []Run, err error) {
	rows, err := r.read.QueryContext(ctx, `SELECT `+columns+`, '' FROM run WHERE design = $1 ORDER BY id DESC`, design)
	if err != nil {
		return nil, fmt.Errorf("store: list runs: %w", err)
	}
	defer func() { err = errors.Join(err, rows.Close()) }()
	for rows.Next() {
		run, err := scan(rows)
		if err != nil {
			return nil, fmt.Errorf("store: list runs: %w", err)
		}
		out = append(out, run)
	}
	return out, rows.Err()
}

// Get returns one run with its text.
func (r *Runs) Get(ctx context.Context, id int64) (Run, error) {
	run, err := scan(r.read.QueryRowContext(ctx, `SELECT `+columns+`, text FROM run WHERE id = $1`, id))
	return run, missing(id, err)
}

// Result returns the result of a finished run as JSON.
func (r *Runs) Result(ctx context.Context, id int64) ([]byte, error) {
	var body []byte
	if err := r.read.QueryRowContext(ctx, `SELECT body FROM result WHERE run = $1`, id).Scan(&body); err != nil {
		return nil, missing(id, err)
	}
	return unpack(body)
}

// Find returns the newest finished run with an input; 0 when none is kept.
func (r *Runs) Find(ctx context.Context, input string) (int64, error) {
	var id int64
	err := r.read.QueryRowContext(ctx, `SELECT id FROM run WHERE input = $1 AND state = $2 ORDER BY id DESC LIMIT 1`, input, Finished).Scan(&id)
	if err != nil && !errors.Is(err, sql.ErrNoRows) {
		return 0, fmt.Errorf("store: look for a result: %w", err)
	}
	return id, nil
}

// Forget takes away a run that has ended, with its result. A run under way
// stays.
func (r *Runs) Forget(ctx context.Context, id int64) error {
	_, err := r.write.ExecContext(ctx, `DELETE FROM run WHERE id = $1 AND state NOT IN ($2, $3)`, id, Waiting, Running)
	if err != nil {
		return fmt.Errorf("store: forget run %d: %w", id, err)
	}
	return nil
}

// change does f in a transaction: all of it, or nothing.
func (r *Runs) change(ctx context.Context, f func(*sql.Tx) error) error {
	tx, err := r.write.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	if err := f(tx); err != nil {
		return errors.Join(err, tx.Rollback())
	}
	return tx.Commit()
}

func scan(row interface{ Scan(...any) error }) (Run, error) {
	var r Run
	var started, ended string
	err := row.Scan(&r.ID, &r.Design, &r.Input, &r.Units, &r.State, &r.Stage, &r.Fraction, &r.Message, &started, &ended, &r.Text)
	if err != nil {
		return Run{}, err
	}
	r.Started, err = time.Parse(time.RFC3339Nano, started)
	if err == nil && ended != "" {
		r.Ended, err = time.Parse(time.RFC3339Nano, ended)
	}
	return r, err
}

func missing(id int64, err error) error {
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return fmt.Errorf("store: run %d: %w", id, ErrNoRun)
	case err != nil:
		return fmt.Errorf("store: run %d: %w", id, err)
	}
	return nil
}

func stamp(t time.Time) string { return t.UTC().Format(time.RFC3339Nano) }

func pack(b []byte) ([]byte, error) {
	var out bytes.Buffer
	z := gzip.NewWriter(&out)
	if _, err := z.Write(b); err != nil {
		return nil, err
	}
	err := z.Close()
	return out.Bytes(), err
}

func unpack(b []byte) ([]byte, error) {
	z, err := gzip.NewReader(bytes.NewReader(b))
	if err != nil {
		return nil, err
	}
	out, err := io.ReadAll(z)
	return out, errors.Join(err, z.Close())
}
