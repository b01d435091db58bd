#!/usr/bin/env bash
# Says clearly what is missing before anything is built.
set -euo pipefail
cd "$(dirname "$0")/.."

fault=0
say() {
	printf '%s\n' "$*" >&2
	fault=1
}

want_go=$(awk '$1 == "go" {print $2; exit}' go.mod)
if ! command -v go >/dev/null; then
	say "Go is missing: costrel needs Go $want_go or newer (the command \"go\" was not found)."
else
	have_go=$(go env GOVERSION)
	have_go=${have_go#go}
	if [ "$(printf '%s\n%s\n' "$want_go" "${have_go%% *}" | sort -V | head -n1)" != "$want_go" ]; then
		say "Go $have_go is too old: costrel needs Go $want_go or newer."
	fi
fi

want_node=20.19.0
if ! command -v node >/dev/null || ! command -v npm >/dev/null; then
	say "Node.js is missing: the page is built with Node.js $want_node or newer and its npm (\"node\" or \"npm\" was not found)."
else
	have_node=$(node --version)
	have_node=${have_node#v}
	if [ "$(printf '%s\n%s\n' "$want_node" "$have_node" | sort -V | head -n1)" != "$want_node" ]; then
		say "Node.js $have_node is too old: the page is built with Node.js $want_node or newer."
	fi
fi
exit $fault
