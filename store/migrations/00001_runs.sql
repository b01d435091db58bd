-- +goose Up
CREATE TABLE run (
    id       INTEGER PRIMARY KEY AUTOINCREMENT,
    design   TEXT NOT NULL,            -- file name; empty for a text without a file
    input    TEXT NOT NULL,            -- hash of all that the result depends on
    text     TEXT NOT NULL,            -- the document that is computed
    units    TEXT NOT NULL,
    state    TEXT NOT NULL,
    stage    TEXT NOT NULL DEFAULT '', -- the last one reported
    fraction REAL NOT NULL DEFAULT 0,  -- 0 to 1
    message  TEXT NOT NULL DEFAULT '', -- why there is no result
    started  TEXT NOT NULL,            -- RFC 3339, UTC
    ended    TEXT NOT NULL DEFAULT ''
);
CREATE INDEX run_of_design ON run (design, id);
CREATE INDEX run_of_input ON run (input, state);
CREATE TABLE result (
    run  INTEGER PRIMARY KEY REFERENCES run (id) ON DELETE CASCADE,
    body BLOB NOT NULL                 -- JSON, gzip
);

-- +goose Down
DROP TABLE result;
DROP TABLE run;
