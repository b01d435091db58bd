#!/usr/bin/env bash
# Fails when a Go file is not as gofmt and gofumpt would have it.
set -euo pipefail
cd "$(dirname "$0")/.."

mapfile -t folders < <(go list -f '{{.Dir}}' ./...)
files=()
for folder in "${folders[@]}"; do
	for file in "$folder"/*.go; do files+=("${file#"$PWD"/}"); done
done
bad=$({
	gofmt -l "${files[@]}"
	bin/gofumpt -l "${files[@]}"
} | sort -u)
if [ -n "$bad" ]; then
	printf 'Not formatted; run "make fmt":\n%s\n' "$bad" >&2
	exit 1
fi
