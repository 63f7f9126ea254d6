#!/bin/sh
# SPDX-License-Identifier: MIT
# `cmake --install` puts everything where it belongs, and what it puts there works. Usage: installed.sh ROOT BUILD
set -eu
root=$(cd "$1" && pwd)
command -v pkg-config >/dev/null || { echo "SKIPPED: no pkg-config here"; exit 77; }
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cmake --install "$2" --prefix "$work/prefix" >"$work/log"
cd "$work/prefix"
for file in bin/soilclock include/soilclock.h share/man/man1/soilclock.1.gz share/man/man1/soilclock-advise.1.gz \
  share/bash-completion/completions/soilclock share/doc/soilclock/README.md share/doc/soilclock/copyright \
  share/doc/soilclock/examples/config/demo_sites.json share/doc/soilclock/examples/weather_samples/millrace_nine.csv; do
  [ -s "$file" ] || { echo "$file is not installed"; exit 1; }
done
(cd share/doc/soilclock/examples && XDG_DATA_HOME="$work" ../../../../bin/soilclock advise --sites config/demo_sites.json \
  --on 2026-10-15 >"$work/advice")
grep -q 'Copper Heron' "$work/advice"
mkdir "$work/library"
"$root/tests/package/library.sh" "$root" "$work/prefix" "$work/library"
