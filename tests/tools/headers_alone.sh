#!/bin/sh
# SPDX-License-Identifier: MIT
# Every header must compile on its own, without what its users happen to include before it. A header that its own .cpp
# includes first is proven where units are compiled one by one (the clang-tidy step of .ci/run); the others are
# compiled here.
# Usage: headers_alone.sh SRC COMPILER
set -eu
cd "$1"
export compiler="$2"
complaints=$(mktemp)
trap 'rm -f "$complaints"' EXIT
# shellcheck disable=SC2016  # the inner shell expands it
find . -name '*.hpp' | sed 's|^\./||' | sort | while read -r header; do
  own=${header%.hpp}.cpp
  first=
  [ ! -f "$own" ] || first=$(sed -n '/^#include/{s/^#include "\(.*\)".*/\1/p;q}' "$own")
  [ "$first" = "$header" ] || echo "$header"
done |
  xargs -P "$(nproc)" -I '{}' sh -c '
    printf "#include \"%s\"\n" "$1" | "$compiler" -std=c++20 -fsyntax-only -I . -x c++ - 2>&1 | sed "s|^|$1: |" | head -5
  ' sh '{}' >"$complaints"
cat "$complaints"
[ ! -s "$complaints" ]
