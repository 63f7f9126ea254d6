#!/bin/sh
# SPDX-License-Identifier: MIT
# A command without a date answers for the day on the user's own calendar, on both sides of the date line.
# Usage: today_is_the_users.sh PROGRAM
set -eu
verdict=0
for zone in Etc/GMT+12 Pacific/Kiritimati; do
  before=$(TZ=$zone date +%F)
  found=$(TZ=$zone "$1" mix prodiamine --format json | sed -n 's/^  "date": "\(.*\)",$/\1/p')
  after=$(TZ=$zone date +%F) # midnight may have passed meanwhile
  [ "$found" = "$before" ] || [ "$found" = "$after" ] || {
    echo "in $zone today is $after, the program says '$found'"
    verdict=1
  }
done
exit "$verdict"
