#!/bin/sh
# SPDX-License-Identifier: MIT
# bash completes every command, every option of each, and the words an option takes. Usage: completion.sh SCRIPT SOILCLOCK
set -eu
command -v bash >/dev/null || { echo "SKIPPED: no bash here"; exit 77; }
exec bash -eu -c '
  source "$1"
  offered() { # words...
    COMP_WORDS=("$@")
    COMP_CWORD=$(($# - 1))
    COMPREPLY=()
    _soilclock
    printf "%s\n" "${COMPREPLY[@]}" | sort
  }
  same() { # what expected found
    [ "$2" = "$3" ] && return 0
    echo "$1: the help has"
    echo "$2"
    echo "and the completion"
    echo "$3"
    exit 1
  }
  commands=$("$2" --help | sed -n "/^Subcommands:/,/^\$/s/^  \([a-z-]\+\) .*/\1/p")
  same commands "$(printf "%s\n" $commands --help --version | sort)" "$(offered soilclock "")"
  for command in $commands; do
    options=$("$2" "$command" --help | grep -oE "^ +(-h,)?--[a-z-]+" | sed "s/.*--/--/" | sort)
    same "$command" "$options" "$(offered soilclock "$command" --)"
  done
  same "a part of a word" advise "$(offered soilclock adv)"
  same "words of an option" "$(printf "csv\njson\ntext")" "$(offered soilclock advise --format "")"
  same "a file" "" "$(offered soilclock advise --sites "")"
' completion "$@"
