#!/bin/sh
# SPDX-License-Identifier: MIT
# Third-party libraries stay behind one file each, so that one can be replaced in one place. (fmt is used like the
# standard library's formatting that g++ 12 lacks.) JSON is read in one file and written in one on either side, for
# records and for reports, which must not know each other.
# Usage: third_party_check.sh SRC
set -eu
cd "$1"
verdict=0
one_door() { # most files, pattern
  files=$(grep -rlE "^#include <$2" --include='*.hpp' --include='*.cpp' . | sort)
  [ "$(printf '%s' "$files" | grep -c .)" -le "$1" ] && return 0
  echo "<$2> is included by more than $1 file(s):"
  echo "$files"
  verdict=1
}
one_door 1 'date/date\.h'
one_door 0 'date/tz\.h'
one_door 1 'curl/'
one_door 1 'sqlite3'
one_door 1 'CLI/'
one_door 1 'tl/'
one_door 3 'nlohmann/'
exit "$verdict"
