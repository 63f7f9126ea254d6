#!/bin/sh
# SPDX-License-Identifier: MIT
# Runs tests that need what is not on every machine; where that is lacking, exit code 77 tells CTest that they were skipped.
# Usage: only_with.sh records|mount|FILE TEST_PROGRAM [ARGUMENT...]
#   records  a folder of measured records, named by SOILCLOCK_RECORDS
#   mount    the right to mount a disk of its own
set -eu
needed=$1
shift
skip() {
  echo "SKIPPED: the cases of $program that need $1"
  exit 77
}
program=${1##*/}
case "$needed" in
  records) [ -n "${SOILCLOCK_RECORDS:-}" ] || skip "measured records: SOILCLOCK_RECORDS is not set" ;;
  mount) unshare -m true 2>/dev/null || skip "the right to mount a small disk" ;;
  *) [ -f "$needed" ] || skip "$needed, which ./run tests fetches with npm" ;;
esac
exec "$@"
