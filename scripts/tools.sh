#!/usr/bin/env bash
# Installs programs that only tests use, where they are missing and the system
# is a Debian that lets us: Chromium for the page, CalculiX and SciPy for checks
# of our solvers against other programs. Without arguments it looks after all of
# them. It never stops the work: a test that needs a missing program says so.
set -uo pipefail

declare -A package=([chromium]=chromium [ccx]=calculix-ccx [scipy]=python3-scipy)
there() {
	case $1 in
	chromium) [ -n "${CHROMIUM:-}" ] || command -v chromium >/dev/null || command -v chromium-browser >/dev/null ;;
	ccx) command -v ccx >/dev/null ;;
	scipy) # Debian's Python may stand behind another one on the path
		python3 -c 'import scipy' 2>/dev/null || /usr/bin/python3 -c 'import scipy' 2>/dev/null ;;
	*)
		echo "tools.sh knows chromium, ccx and scipy, not $1" >&2
		exit 2
		;;
	esac
}

wanted=("$@")
[ $# -gt 0 ] || wanted=(chromium ccx scipy)
missing=()
for tool in "${wanted[@]}"; do
	there "$tool" || missing+=("${package[$tool]}")
done
[ ${#missing[@]} -gt 0 ] || exit 0

as_root=()
if [ "$(id -u)" -ne 0 ]; then
	if sudo -n true 2>/dev/null; then as_root=(sudo -n); else as_root=(false); fi
fi
if command -v apt-get >/dev/null && "${as_root[@]}" true 2>/dev/null; then
	echo "Installing ${missing[*]} for the tests ..." >&2
	export DEBIAN_FRONTEND=noninteractive
	"${as_root[@]}" apt-get update -qq >/dev/null 2>&1
	"${as_root[@]}" apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null 2>&1
fi
code=0
for tool in "${wanted[@]}"; do
	there "$tool" || {
		echo "${package[$tool]} is missing and could not be installed; tests that need it will say so." >&2
		code=1
	}
done
exit $code
