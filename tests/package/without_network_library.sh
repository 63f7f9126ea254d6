#!/bin/sh
# SPDX-License-Identifier: MIT
# Where the network library cannot be opened, fetch says so once and everything else works. Usage: without_network_library.sh
# ROOT SOILCLOCK
set -eu
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export XDG_DATA_HOME="$work" XDG_CONFIG_HOME="$work"
echo "no library" >"$work/libcurl.so.4"
LD_LIBRARY_PATH="$work" "$2" advise --sites "$1/config/demo_sites.json" --on 2026-10-15 >"$work/answer"
grep -q 'Copper Heron' "$work/answer"
code=0
LD_LIBRARY_PATH="$work" "$2" fetch --latitude 35.6 --longitude -83.1 --name course --service open-meteo \
  >"$work/out" 2>"$work/err" || code=$?
cat "$work/out" "$work/err"
[ "$code" -eq 4 ] && [ ! -s "$work/out" ]
[ "$(grep -c '^soilclock: the network library (libcurl.so.4) cannot be opened; install it' "$work/err")" -eq 1 ]
