package api

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"log/slog"

	"costrel/store"
)

// shelf keeps what the slow solvers gave beside the runs, so that a restart does
// not lose it. Its keys hold for this program alone. What cannot be kept or found
// is computed again.
type shelf struct {
	runs    *store.Runs
	program string
	log     *slog.Logger
}

func (s shelf) key(of string) string {
	sum := sha256.Sum256([]byte(s.program + "\n" + of))
	return hex.EncodeToString(sum[:])
}

// Keep writes a result down.
func (s shelf) Keep(key string, body []byte) {
	if err := s.runs.KeepStage(context.Background(), s.key(key), body); err != nil {
		s.log.Warn("the result of a stage is not kept", "error", err)
	}
}

// Find returns a result; nil when there is none.
func (s shelf) Find(key string) []byte {
	body, err := s.runs.Stage(context.Background(), s.key(key))
	if err != nil {
		s.log.Warn("the result of a stage is not found", "error", err)
	}
	return body
}
