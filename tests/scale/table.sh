#!/bin/sh
# SPDX-License-Identifier: MIT
# What many points of a grid cost, each with a weather file of its own: time, memory and instructions a point, and that the
# time grows with their number. Times of the processor, which a busy machine hardly changes; the time by the clock
# stands beside them with the load.
# Usage: table.sh ROOT SOILCLOCK [COUNT...]    counts of points, 1000 3000 10000 unless said; the last is carried on to 100,000
set -eu
root=$(cd "$1" && pwd)
program=$(cd "$(dirname "$2")" && pwd)/$(basename "$2")
shift 2
[ $# -gt 0 ] || set -- 1000 3000 10000
for tool in valgrind bc; do command -v $tool >/dev/null || { echo "NOT RUN: $tool is not installed"; exit 0; }; done
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export XDG_DATA_HOME="$work/data" # no records of whoever runs this
for count in "$@"; do
  mkdir "$work/$count"
  "$root/tests/scale/make_sites.py" "$root" "$count" "$work/$count" own
done
cd "$work"

echo "$(date -I), $(sed -n 's/^model name[^:]*: //p' /proc/cpuinfo | head -1), $(nproc) cores, load $(cut -d ' ' -f 1 /proc/loadavg) before"
echo "points  jobs  form      processor s  clock s  points/processor s  points/clock s  peak MB  load"
row() { # points jobs form
  if [ "$3" = document ]; then from=$1/sites.json; else from=-; fi
  /usr/bin/time -f '%U %S %e %M' -o time "$program" advise --sites $from --on 2026-10-15 --format json --jobs "$2" \
    <"$1/sites.jsonl" >answers
  read -r user system clock peak <time
  cpu=$(echo "$user + $system" | bc)
  printf '%6d  %4d  %-8s  %11.1f  %7.1f  %18.1f  %14.1f  %7.1f  %4s\n' "$1" "$2" "$3" "$cpu" "$clock" \
    "$(echo "scale=3; $1 / $cpu" | bc)" "$(echo "scale=3; $1 / $clock" | bc)" "$(echo "scale=1; $peak / 1000" | bc)" \
    "$(cut -d ' ' -f 1 /proc/loadavg)"
}
for count in "$@"; do row "$count" 1 document; done
hours=$(echo "scale=4; $cpu / $count * 100000 / 3600" | bc)
row "$1" 2 document
row "$1" 1 lines
row "$1" 2 lines

instructions() { # points
  head -"$1" "$count/sites.jsonl" >some.jsonl
  valgrind --tool=callgrind --callgrind-out-file=/dev/null "$program" advise --sites - --on 2026-10-15 --format json \
    <some.jsonl 2>&1 >/dev/null | sed -n 's/.*Collected : //p'
}
few=$(instructions 3)
more=$(instructions 9)
echo "instructions a point: $(((more - few) / 6 / 1000000)) million (nine points less three, by six)"
echo "100,000 points, at the time a point took among $count: $(printf '%.1f' "$hours") core-hours"
