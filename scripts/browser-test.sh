#!/usr/bin/env bash
# Serves copies of the demo designs on a free loopback port and drives the page
# in headless Chromium. Arguments are handed to the test runner.
set -euo pipefail
cd "$(dirname "$0")/.."

scripts/tools.sh chromium || true
browser=${CHROMIUM:-}
for name in chromium chromium-browser; do
	[ -n "$browser" ] || browser=$(command -v "$name" || true)
done
if [ -z "$browser" ]; then
	if [ "${COSTREL_NO_BROWSER:-}" = 1 ]; then
		echo "BROWSER TESTS NOT RUN: there is no Chromium, and COSTREL_NO_BROWSER=1 allows that." >&2
		exit 0
	fi
	echo "Browser tests need Chromium: install it, or name it in CHROMIUM, or set COSTREL_NO_BROWSER=1 to go without." >&2
	exit 1
fi

work=$(mktemp -d)
server=
end() {
	[ -z "$server" ] || kill "$server" 2>/dev/null || true
	wait 2>/dev/null || true
	rm -rf "$work"
}
trap end EXIT

mkdir "$work/designs"
cp examples/*.yaml "$work/designs/"
bin/costrel serve --dir "$work/designs" --port 0 >"$work/out" 2>"$work/err" &
server=$!
url=
for _ in $(seq 100); do
	url=$(grep -oE 'http://127\.0\.0\.1:[0-9]+' "$work/out" | head -n1 || true)
	[ -n "$url" ] && break
	kill -0 "$server" 2>/dev/null || break
	sleep 0.1
done
if [ -z "$url" ]; then
	echo "The server did not start:" >&2
	cat "$work/out" "$work/err" >&2
	exit 1
fi

cd web/ui
CHROMIUM=$browser COSTREL_URL=$url npm run --silent test:browser -- "$@"
