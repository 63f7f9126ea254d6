#!/bin/sh
# SPDX-License-Identifier: MIT
# --version is one line: the version, and the hash that sha256sum gives for the files in the program.
# Usage: version.sh ROOT SOILCLOCK
set -eu
line=$("$2" --version)
cd "$1"
# shellcheck disable=SC2046  # no blank in the name of any model
hash=$(sha256sum $(find models -name '*.json' ! -path 'models/schema/*' | LC_ALL=C sort) config/practice.json \
  config/services.json config/us_places.json | sha256sum | cut -c 1-12)
version=$(sed -n 's/^project(soilclock VERSION \([0-9.]*\).*/\1/p' CMakeLists.txt)
[ "$line" = "soilclock $version, models $hash" ] || { echo "'$line' is not of version $version, models $hash"; exit 1; }
