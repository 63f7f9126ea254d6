#!/bin/sh
# SPDX-License-Identifier: MIT
# A file includes its own floor or a lower one; records and net stand beside the chain on core and weather.
# Usage: floor_check.sh SRC
set -eu
cd "$1"
grep -rHn '^#include "' --include='*.hpp' --include='*.cpp' . | sed 's|^\./||' | awk -F: '
  BEGIN {
    count = split("core weather soil thermal emergence treatment advice report app", order, " ")
    for (i = 1; i <= count; ++i) height[order[i]] = i
  }
  function allowed(from, to) {
    if (from == to) return 1
    if (from == "records" || from == "net") return to == "core" || to == "weather"
    if (to == "records" || to == "net") return from == "app"
    # The pipeline in src/ itself calls the floors up to advice; only the app calls it.
    if (from == "pipeline") return height[to] && height[to] <= height["advice"]
    if (to == "pipeline") return from == "app"
    return height[from] && height[to] && height[to] <= height[from]
  }
  function floor_of(path) {
    if (path ~ /^pipeline[._]/) return "pipeline"
    if (path !~ /\//) return "nowhere"
    sub(/\/.*/, "", path)
    return path
  }
  {
    included = $3
    sub(/^#include "/, "", included)
    sub(/".*/, "", included)
    from = floor_of($1)
    to = floor_of(included)
    if (!allowed(from, to)) {
      printf "%s:%s: floor %s must not include %s\n", $1, $2, from, included
      bad = 1
    }
  }
  END { exit bad }'
