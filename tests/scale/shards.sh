#!/bin/sh
# SPDX-License-Identifier: MIT
# Many sites spread by GNU parallel: eight shards give the bytes of one run, also when one of them is killed and run again.
# Usage: shards.sh ROOT SOILCLOCK [SITES]
set -eu
root=$(cd "$1" && pwd)
program=$(cd "$(dirname "$2")" && pwd)/$(basename "$2")
count=${3:-200}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export XDG_DATA_HOME="$work/data" # no records of whoever runs this
"$root/tests/scale/make_sites.py" "$root" "$count" "$work"
cd "$work"

seconds() { date +%s.%N; }
begin=$(seconds)
"$program" advise --sites - --on 2026-10-15 --format json <sites.jsonl >one-run
echo "$count sites in one run: $(echo "$(seconds) - $begin" | bc | cut -c 1-6) s"

split -n l/8 -d sites.jsonl shard.
# shellcheck disable=SC2016  # for the script that is written
# Each shard leaves the number of its process, so that one can be killed.
printf '#!/bin/sh\necho $$ >"$1.process"\nexec "%s" advise --sites - --on 2026-10-15 --format json <"$1" >"$1.answers"\n' \
  "$program" >one_shard
chmod +x one_shard
spread() { parallel --will-cite --jobs "$(nproc)" --joblog "$work/log" "$@" ./one_shard ::: shard.??; }
begin=$(seconds)
spread &
all=$!
while [ ! -s shard.01.answers ]; do sleep 0.05; done
kill -9 "$(cat shard.01.process)"
if wait "$all"; then
  echo "a shard was killed, and nobody noticed"
  exit 1
fi
cat shard.??.answers >merged
! cmp -s one-run merged || { echo "a shard was killed, and its answers are all there: the kill came too late"; exit 1; }
before=$(wc -l <log)
spread --resume-failed
[ "$(wc -l <log)" -eq $((before + 1)) ] || { echo "more than the killed shard was run again"; cat log; exit 1; }
echo "$count sites in 8 shards on $(nproc) cores, one of them killed and run again: $(echo "$(seconds) - $begin" | bc |
  cut -c 1-6) s"
cat shard.??.answers >merged
cmp one-run merged
[ "$(wc -l <merged)" -eq "$count" ]
