#!/bin/sh
# SPDX-License-Identifier: MIT
# The invented weather must come out of its generator byte by byte.
# Usage: demo_weather_is_reproduced.sh ROOT
set -eu
command -v python3 >/dev/null || { echo "SKIPPED: python3 is not installed"; exit 77; }
again=$(mktemp -d)
trap 'rm -rf "$again"' EXIT
python3 "$1/tests/tools/make_demo_weather.py" "$again"
verdict=0
for file in "$1"/weather_samples/*.csv; do
  cmp "$file" "$again/$(basename "$file")" || verdict=1
done
count_csv() { find "$1" -name '*.csv' | wc -l; }
[ "$(count_csv "$again")" -eq "$(count_csv "$1/weather_samples")" ] || { echo "other files than made"; verdict=1; }
exit "$verdict"
