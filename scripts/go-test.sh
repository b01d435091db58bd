#!/usr/bin/env bash
# Runs the Go tests: the packages named on the command line with the race
# detector when a C compiler is there (the detector needs one), the rest without.
set -euo pipefail
cd "$(dirname "$0")/.."

scripts/tools.sh ccx scipy || true

race=$(go list "$@" 2>/dev/null | sort -u)
rest=$(comm -23 <(go list ./... | sort -u) <(printf '%s\n' "$race"))

if command -v "$(go env CC | cut -d' ' -f1)" >/dev/null; then
	# shellcheck disable=SC2086 # one package a word
	CGO_ENABLED=1 go test -race $race
else
	echo "No C compiler: the tests run without the race detector." >&2
	# shellcheck disable=SC2086
	go test $race
fi
# shellcheck disable=SC2086
go test $rest
