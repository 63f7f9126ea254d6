#!/bin/sh
# SPDX-License-Identifier: MIT
# Each file of the folder must compile as it stands and must be refused with MUST_FAIL defined.
# Usage: must_not_compile.sh DIR SRC COMPILER
set -eu
verdict=0
compile() {
  "$compiler" -std=c++20 -fsyntax-only -Wall -Wextra -Wconversion -Werror -I "$src" "$@" >/dev/null 2>&1
}
src=$2
compiler=$3
count=0
for file in "$1"/*.cpp; do
  count=$((count + 1))
  compile "$file" || { echo "$file does not compile without MUST_FAIL"; verdict=1; }
  if compile -DMUST_FAIL "$file"; then echo "$file compiles with MUST_FAIL"; verdict=1; fi
done
[ "$count" -gt 0 ] || { echo "no files in $1"; verdict=1; }
exit "$verdict"
