#!/bin/sh
# SPDX-License-Identifier: MIT
# Runs every fuzzer, or the one named, for so many seconds: fuzz.sh SOURCE BUILD PROGRAM SECONDS [HARNESS]
# What is found lies in BUILD/found/HARNESS; once it is put right it moves to tests/fuzz/kept/HARNESS.
set -u
source=$1
build=$2
program=$3
seconds=$4
only=${5:-}
verdict=0
# Records files are made for each input, and a disk would be waited for.
[ ! -w /dev/shm ] || export TMPDIR=/dev/shm
export UBSAN_OPTIONS=print_stacktrace=1
# A reader that takes what a file says for a size asks for it all at once.
export ASAN_OPTIONS=max_allocation_size_mb=1500
"$source/tests/fuzz/make_seeds.py" "$source" "$program" "$build/seeds" || exit 1
for kept in "$source"/tests/fuzz/kept/*/; do
  harness=$(basename "$kept")
  [ -z "$only" ] || [ "$only" = "$harness" ] || continue
  mkdir -p "$build/corpus/$harness" "$build/found/$harness" "$build/seeds/$harness"
  set --
  [ ! -s "$build/seeds/$harness.dict" ] || set -- "-dict=$build/seeds/$harness.dict"
  "$build/tests/fuzz/fuzz_$harness" "$@" -max_total_time="$seconds" -timeout=20 -rss_limit_mb=2000 -print_final_stats=1 \
    -artifact_prefix="$build/found/$harness/" "$build/corpus/$harness" "$build/seeds/$harness" "$kept" \
    >"$build/found/$harness.log" 2>&1
  code=$?
  runs=$(sed -n 's/^stat::number_of_executed_units: *//p' "$build/found/$harness.log")
  covered=$(sed -n 's/.* cov: \([0-9]*\) .*/\1/p' "$build/found/$harness.log" | tail -1)
  if [ "$code" = 0 ]; then
    echo "$harness: ${runs:-?} inputs, ${covered:-?} edges covered, nothing found"
  else
    echo "$harness: FOUND, see $build/found/$harness.log"
    verdict=1
  fi
done
exit "$verdict"
