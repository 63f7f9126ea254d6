#!/bin/sh
# SPDX-License-Identifier: MIT
# The example program gives the bytes of `soilclock advise --format json`, with the same exit code and the same problems.
# Usage: example.sh EXAMPLE SOILCLOCK, in the source folder
set -eu
example=$1
program=$2
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
export XDG_DATA_HOME="$folder" # no records of whoever runs this

same() { # sites day weather...
  sites=$1
  day=$2
  shift 2
  expected=0
  found=0
  "$program" advise --sites "$sites" --on "$day" --format json >"$folder/program" 2>"$folder/program.err" || expected=$?
  "$example" "$sites" "$day" "$@" >"$folder/example" 2>"$folder/example.err" || found=$?
  cmp "$folder/program" "$folder/example"
  cmp "$folder/program.err" "$folder/example.err"
  [ "$expected" -eq "$found" ] || { echo "exit codes $expected and $found on $sites, $day"; exit 1; }
}

same config/demo_sites.json 2026-10-15 weather_samples/*.csv
grep -q '"copper-heron"' "$folder/example"
same config/demo_sites.json 2027-06-01 weather_samples/*.csv # the weather is too old: no answer, and why
grep -q 'days before 2027-06-01' "$folder/example.err"
