#!/bin/sh
# SPDX-License-Identifier: MIT
# What README.md and DEVELOPERS.md tell people to type must exist: the verbs of ./run, the commands of the program and
# the files they name.
# Usage: documented_commands.sh ROOT [PROGRAM]
set -eu
cd "$1"
program=${2:-}
verdict=0
complain() {
  echo "$1"
  verdict=1
}
for page in README.md DEVELOPERS.md; do
  [ -f "$page" ] || { complain "$page is missing"; continue; }
  # Only what stands in code: indented or fenced blocks and between back quotes.
  code=$(awk '/^ *```/ { fenced = !fenced; next } fenced || /^    / { print; next }
    { n = split($0, part, "`"); for (i = 2; i <= n; i += 2) print part[i] }' "$page")
  for verb in $(printf '%s\n' "$code" | grep -oE '(^|[ $])\./run [a-z]+' | awk '{ print $NF }' | sort -u); do
    grep -qE "^  $verb\)" run || complain "$page: ./run $verb does not exist"
  done
  if [ -n "$program" ]; then
    for command in $(printf '%s\n' "$code" | grep -oE '(^|[ /$])soilclock [a-z][a-z-]+' | awk '{ print $NF }' | sort -u); do
      "$program" "$command" --help >/dev/null 2>&1 || complain "$page: soilclock $command does not exist"
    done
  fi
  for file in $(printf '%s\n' "$code" | grep -oE '(^|[^/A-Za-z0-9])(src|config|weather_samples|models|tests)/[A-Za-z0-9_./-]+' |
    sed 's/^[^a-z]*//' | sort -u); do
    [ -e "${file%[.,:]}" ] || [ -e "$file" ] || complain "$page: $file does not exist"
  done
done
[ -n "$program" ] || echo "SKIPPED: no program was given to ask for its commands"
exit "$verdict"
