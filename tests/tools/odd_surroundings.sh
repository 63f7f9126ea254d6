#!/bin/sh
# SPDX-License-Identifier: MIT
# The program in surroundings that are not as usual: each call ends with the right code and one clear message.
# Usage: odd_surroundings.sh SOURCE_FOLDER PROGRAM
set -u
source=$1
program=$2
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
verdict=0
fails() {
  echo "$1"
  verdict=1
}
asked="--sites $source/config/demo_sites.json --on 2026-10-15"

# shellcheck disable=SC2086  # the words of a call
"$program" advise $asked >"$folder/usual" 2>"$folder/said" || fails "the usual call fails: $(cat "$folder/said")"

# A limit on the size of files, in blocks of 512 bytes: one message, and nothing half-written stays.
(
  ulimit -f 20
  # shellcheck disable=SC2086
  "$program" report $asked --output "$folder/pages" >/dev/null 2>"$folder/said"
  echo $? >"$folder/code"
)
[ "$(cat "$folder/code")" = 4 ] || fails "a size limit on files ends with code $(cat "$folder/code")"
grep -q 'cannot be written' "$folder/said" || fails "no message about the size limit: $(cat "$folder/said")"
[ -z "$(find "$folder/pages" -name '*.part')" ] || fails "half-written files stay"

# Where no file can be written, what was noted is read, and a new note is refused.
records=$folder/records.db
"$program" log add check --site copper-heron --date 2026-10-01 --state green --records "$records" >/dev/null || fails "a note fails"
for call in "log list" "log export" "advise $asked" "hindcast $asked --only copper-heron" "season $asked --only copper-heron"; do
  (
    ulimit -f 0
    # shellcheck disable=SC2086
    "$program" $call --records "$records" 2>&1 >/dev/null
    echo "code $?"
  ) | cat >"$folder/said"
  [ "$(cat "$folder/said")" = "code 0" ] || fails "'$call' where no file can be written: $(cat "$folder/said")"
done
(
  ulimit -f 0
  "$program" log add check --site copper-heron --date 2026-10-02 --state green --records "$records" 2>&1 >/dev/null
  echo "code $?"
) | cat >"$folder/said"
grep -q 'code 4' "$folder/said" && [ "$(wc -l <"$folder/said")" = 2 ] || fails "a note without room: $(cat "$folder/said")"
[ "$("$program" log list --records "$records" | wc -l)" = 1 ] || fails "other notes than before"

# Results that cannot be written.
# shellcheck disable=SC2086
"$program" advise $asked >/dev/full 2>"$folder/said"
code=$?
[ "$code" = 4 ] && grep -q 'could not be written' "$folder/said" || fails "a full disk behind the output: code $code"

# Another locale, time zone, width and no home change no result.
for setting in LC_ALL=de_DE.UTF-8 TZ=Asia/Kathmandu COLUMNS=40 HOME= LANG=tr_TR.UTF-8; do
  # shellcheck disable=SC2086
  env "$setting" "$program" advise $asked >"$folder/odd" 2>/dev/null || fails "fails with $setting"
  cmp -s "$folder/usual" "$folder/odd" || fails "other words with $setting"
done
# shellcheck disable=SC2086
env -i "$program" advise $asked >"$folder/odd" 2>/dev/null || fails "fails without any setting"
cmp -s "$folder/usual" "$folder/odd" || fails "other words without any setting"
env -i "$program" log list >/dev/null 2>"$folder/said"
code=$?
[ "$code" = 2 ] && grep -q -- '--records' "$folder/said" || fails "no home for the records: code $code"
exit "$verdict"
