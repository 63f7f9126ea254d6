#!/bin/sh
# SPDX-License-Identifier: MIT
# many_sites with a records file that holds a note. Usage: many_sites.sh MANY_SITES PROGRAM SOURCE_FOLDER
set -eu
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
"$2" log add check --site copper-heron --date 2026-10-01 --state green --records "$folder/records.db" >/dev/null
"$3/tests/scale/make_sites.py" "$3" 9 "$folder"
"$1" "$3/config/demo_sites.json" "$folder/records.db" "$folder/sites.jsonl"
