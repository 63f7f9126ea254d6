#!/bin/sh
# SPDX-License-Identifier: MIT
# The installed library serves a project in C, found by CMake and by pkg-config, with the answers of the installed program.
# Usage: library.sh ROOT PREFIX FOLDER (an empty one to work in)
set -eu
root=$(cd "$1" && pwd)
prefix=$2
work=$3
example=$root/tests/web/example.c
cmake -S "$root/tests/package/example" -B "$work/by-cmake" -DCMAKE_PREFIX_PATH="$prefix" -DEXAMPLE="$example" >"$work/log"
cmake --build "$work/by-cmake" >>"$work/log"
PKG_CONFIG_PATH=$(dirname "$(find "$prefix/lib" -name soilclock.pc)")
export PKG_CONFIG_PATH
# shellcheck disable=SC2046  # several words
cc -o "$work/by-pkg-config" "$example" $(pkg-config --cflags --libs soilclock)
cd "$root"
for built in "$work/by-cmake/example" "$work/by-pkg-config"; do
  tests/web/example.sh "$built" "$prefix/bin/soilclock"
done
