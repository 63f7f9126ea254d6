#!/bin/sh
# SPDX-License-Identifier: MIT
# Retired names stay out of the program, its data files and its documents.
# Usage: old_words.sh ROOT
set -eu
words="$(dirname "$0")/old_words.txt"
words=$(cd "$(dirname "$words")" && pwd)/old_words.txt
cd "$1"
patterns=$(mktemp)
trap 'rm -f "$patterns"' EXIT
grep -v '^#' "$words" >"$patterns"
# The table of names lists retired words beside the ones in use, in its last column.
found=$(for file in $(find src models config -type f) README.md DEVELOPERS.md; do
  [ -f "$file" ] || continue
  sed 's/^\(|[^|]*|[^|]*|\)[^|]*|$/\1/' "$file" | grep -HnwE --label="$file" -f "$patterns" || true
done)
[ -z "$found" ] && exit 0
echo "$found"
exit 1
