#!/bin/sh
# SPDX-License-Identifier: MIT
# Every command has a manual page, which names each option of its help; man(1), where it is, has nothing to say of any.
# Usage: manual.sh FOLDER SOILCLOCK
set -eu
folder=$1
program=$2
verdict=0
commands=$("$program" --help | sed -n '/^Subcommands:/,/^$/s/^  \([a-z-]\+\) .*/\1/p')
[ "$(echo "$commands" | wc -l)" -ge 12 ] || { echo "the help lists fewer than 12 commands"; exit 1; }
for page in soilclock $(for command in $commands; do echo "soilclock-$command"; done); do
  file=$folder/$page.1.gz
  [ -f "$file" ] || { echo "$page has no page"; verdict=1; continue; }
  command=${page#soilclock}
  # shellcheck disable=SC2086  # nothing, or one word
  options=$("$program" ${command#-} --help | grep -oE '^ +(-h,)?--[a-z-]+' | sed 's/.*--/--/')
  text=$(gzip -dc "$file" | sed 's/\\-/-/g; s/\\f[BIR]//g')
  for option in $options; do
    echo "$text" | grep -qE "(^|, )$option( |\$)" || { echo "the page of $page lacks $option"; verdict=1; }
  done
  if command -v man >/dev/null; then
    said=$(MANWIDTH=80 man --warnings -E UTF-8 -l "$file" 2>&1 >/dev/null)
    [ -z "$said" ] || { echo "$page: $said"; verdict=1; }
  fi
done
exit "$verdict"
