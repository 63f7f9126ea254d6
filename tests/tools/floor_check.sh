#!/bin/sh
# SPDX-License-Identifier: MIT
# A file includes its own floor or a lower one; records and net stand beside the chain on core and weather. The entries of
# the records are plain values, which site and what stands on it know too, and the requests of net are plain texts, which
# web knows beside app. Inside the floors that have rooms (weather, advice, records and net) a file includes its own room
# or an earlier one.
# Usage: floor_check.sh SRC
set -eu
cd "$1"
grep -rHn '^#include "' --include='*.hpp' --include='*.cpp' . | sed 's|^\./||' | awk -F: '
  BEGIN {
    count = split("core weather soil thermal emergence treatment advice report site web app", order, " ")
    for (i = 1; i <= count; ++i) height[order[i]] = i
    # Value types stand directly in weather/, below its rooms; its front door stands above them.
    rooms["weather"] = "types table columns rows formats series services door"
    rooms["records"] = "entries file"
    rooms["net"] = "requests line"
    rooms["advice"] = "data site futures ensemble decision scouting answer hindcast comparison"
    for (floor in rooms) {
      count = split(rooms[floor], order, " ")
      for (i = 1; i <= count; ++i) room_height[floor "/" order[i]] = i
    }
  }
  function room_of(path,   part) {
    if (path ~ /^weather\/read_weather[.]/) return "weather/door"
    if (split(path, part, "/") == 3) return part[1] "/" part[2]
    if (part[1] == "records") return "records/file"
    if (part[1] == "net") return "net/line"
    return part[1] == "weather" ? "weather/types" : part[1] "/nowhere"
  }
  function climbs(from, to) {
    return !room_height[room_of(from)] || !room_height[room_of(to)] || room_height[room_of(to)] > room_height[room_of(from)]
  }
  function allowed(from, to, included) {
    if (from == to) return 1
    if (included ~ /^records\/entries\//) return height[from] >= height["site"]
    if (included ~ /^net\/requests\// && from == "web") return 1
    if (from == "records" || from == "net") return to == "core" || to == "weather"
    if (to == "records" || to == "net") return from == "app"
    # The pipeline in src/ itself calls the floors up to advice; site and what stands on it call it.
    if (from == "pipeline") return height[to] && height[to] <= height["advice"]
    if (to == "pipeline") return height[from] >= height["site"]
    # The program and the web interface stand beside each other.
    if (from == "app" && to == "web") return 0
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
    if (!allowed(from, to, included)) {
      printf "%s:%s: floor %s must not include %s\n", $1, $2, from, included
      bad = 1
    } else if (from == to && from in rooms && climbs($1, included)) {
      printf "%s:%s: room %s must not include %s\n", $1, $2, room_of($1), included
      bad = 1
    }
  }
  END { exit bad }'
