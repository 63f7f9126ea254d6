#!/bin/sh
# SPDX-License-Identifier: MIT
# The hashes by which pages allow their style sheet and script, worked out by CMake, must be what OpenSSL makes of the same bytes.
# Usage: style_hash.sh ROOT
set -eu
command -v openssl >/dev/null || { echo "SKIPPED: openssl is missing"; exit 77; }
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
verdict=0
printf 'p { color: red; }\n' >"$work/short.css"
for style in "$1/src/report/page/course.css" "$1/src/report/page/handout.css" "$1/src/report/page/course_list.js" "$work/short.css"; do
  cmake -D FILE="$style" -D NAME=bytes_of -D HEADER=some.hpp -D OUTPUT="$work/style.cpp" -P "$1/cmake/embed_page_file.cmake"
  expected=sha256-$(openssl dgst -sha256 -binary "$style" | openssl base64)
  grep -qF "\"$expected\"" "$work/style.cpp" || { echo "$style: the hash is not $expected"; verdict=1; }
  # A browser ends style and script at the first closing tag, whatever they meant by it.
  ! grep -q '</' "$style" || { echo "$style: holds a closing tag"; verdict=1; }
done
exit "$verdict"
