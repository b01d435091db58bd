-- +goose Up
CREATE TABLE stage (
    id   INTEGER PRIMARY KEY AUTOINCREMENT, -- in the order in which they were kept
    key  TEXT NOT NULL UNIQUE,              -- hash of program and of all that the stage depends on
    body BLOB NOT NULL                      -- gzip
);

-- +goose Down
DROP TABLE stage;
