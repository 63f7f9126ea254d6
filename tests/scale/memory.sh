#!/bin/sh
# SPDX-License-Identifier: MIT
# Peak memory of one document of many sites. Usage: memory.sh ROOT SOILCLOCK SITES MOST_MB
set -eu
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export XDG_DATA_HOME="$work/data"
"$1/tests/scale/make_sites.py" "$1" "$3" "$work"
/usr/bin/time -f '%M %e' -o "$work/time" "$2" advise --sites "$work/sites.json" --on 2026-10-15 --format json >"$work/answers"
read -r peak seconds <"$work/time"
answers=$(python3 -c 'import json, sys; print(len(json.load(open(sys.argv[1]))["sites"]))' "$work/answers")
echo "$answers sites in one document: peak $((peak / 1000)) MB, $seconds s"
[ "$answers" -eq "$3" ] && [ "$((peak / 1000))" -le "$4" ]
