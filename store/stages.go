package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
)

// keepStages is how many results of slow stages are kept: those of some twenty
// full runs.
const keepStages = 100

// InFolder reports whether the runs are kept in a file, so that they outlive the
// program.
func (r *Runs) InFolder() bool { return r.lock != nil }

// KeepStage keeps the result of a stage of a run under its key; the oldest beyond
// what is kept are taken away.
func (r *Runs) KeepStage(ctx context.Context, key string, body []byte) error {
	packed, err := pack(body)
	if err == nil {
		err = r.change(ctx, func(tx *sql.Tx) error {
			if _, err := tx.ExecContext(ctx, `INSERT OR REPLACE INTO stage (key, body) VALUES ($1, $2)`, key, packed); err != nil {
				return err
			}
			_, err := tx.ExecContext(ctx, `DELETE FROM stage WHERE id NOT IN (SELECT id FROM stage ORDER BY id DESC LIMIT $1)`, keepStages)
			return err
		})
	}
	if err != nil {
		return fmt.Errorf("store: keep the result of a stage: %w", err)
	}
	return nil
}

// Stage returns the result of a stage under its key; nil when none is kept.
func (r *Runs) Stage(ctx context.Context, key string) ([]byte, error) {
	var packed []byte
	err := r.read.QueryRowContext(ctx, `SELECT body FROM stage WHERE key = $1`, key).Scan(&packed)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, nil
	}
	if err == nil {
		packed, err = unpack(packed)
	}
	if err != nil {
		return nil, fmt.Errorf("store: look for the result of a stage: %w", err)
	}
	return packed, nil
}
