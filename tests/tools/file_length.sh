#!/bin/sh
# SPDX-License-Identifier: MIT
# A file of code of more than 400 lines holds more than one idea; texts kept to be read may be longer.
# Usage: file_length.sh DIR...
set -eu
find "$@" \( -name '*.hpp' -o -name '*.cpp' -o -name '*.sh' -o -name '*.py' -o -name 'CMakeLists.txt' \) -exec wc -l {} + |
  awk '$2 != "total" && $1 > 400 { print $2 ": " $1 " lines, at most 400"; bad = 1 } END { exit bad }'
