#!/bin/sh
# SPDX-License-Identifier: MIT
# What ./run package made: lintian has no word against it, a package lives its whole life on this machine (install, answer,
# manual, remove) and leaves it as it was, the library serves, and the source archive builds where there is no git.
# Usage: check.sh ROOT BUILD [--quick]
set -eu
root=$(cd "$1" && pwd)
build=$(cd "$2" && pwd)
quick=${3:-}
work=$(mktemp -d)
as_root() {
  if [ "$(id -u)" -eq 0 ]; then "$@"; else sudo "$@"; fi
}
remove() {
  as_root dpkg --purge soilclock libsoilclock-dev >/dev/null 2>&1 || true
  rm -rf "$work"
}
if dpkg-query -W -f '${Status}' soilclock libsoilclock-dev 2>/dev/null | grep -q 'ok installed'; then
  echo "soilclock is installed on this machine already; remove it first"
  exit 2
fi
trap remove EXIT

echo "lintian"
found=$(lintian --allow-root --fail-on none "$build"/*.deb)
if [ -n "$found" ]; then
  echo "$found"
  exit 1
fi

echo "installed, asked and read"
as_root dpkg -i "$build"/*.deb >"$work/log"
mkdir "$work/empty" "$work/library"
cd "$work/empty"
export XDG_DATA_HOME="$work/data"
soilclock --version
examples=/usr/share/doc/soilclock/examples
soilclock advise --sites $examples/config/demo_sites.json --on 2026-10-15 >"$work/advice"
grep -q 'Copper Heron' "$work/advice"
[ -z "$(ls -A .)" ] || { echo "an answer left files behind"; exit 1; }
pages=$(dpkg -L soilclock | grep '/man1/.*gz$')
# shellcheck disable=SC2086  # one word a page
[ -z "$(man --warnings -l $pages 2>&1 >"$work/pages")" ] || { echo "a manual page has faults"; exit 1; }
grep -q 'soilclock-hindcast' "$work/pages"

echo "library, by CMake and by pkg-config"
"$root/tests/package/library.sh" "$root" /usr "$work/library"

echo "removed"
files=$(dpkg -L soilclock libsoilclock-dev | grep soilclock)
as_root dpkg --purge soilclock libsoilclock-dev >>"$work/log"
for file in $files; do
  [ ! -e "$file" ] || { echo "$file is left behind"; exit 1; }
done

[ "$quick" != --quick ] || { echo "the source archive was not built (--quick)"; exit 0; }
archive=$(ls "$build"/*.tar.gz)
echo "built from $(basename "$archive"), without git"
tar -xzf "$archive" -C "$work"
cd "$work"/soilclock-*
# A git that is found fails: the build must not ask it.
mkdir "$work/bin"
printf '#!/bin/sh\necho "git was asked" >&2\nexit 1\n' >"$work/bin/git"
chmod +x "$work/bin/git"
PATH="$work/bin:$PATH" cmake -S . -B build -G Ninja -DCMAKE_BUILD_TYPE=Release -DSOILCLOCK_TESTS=OFF >"$work/log"
PATH="$work/bin:$PATH" cmake --build build --target soilclock >"$work/log"
build/src/soilclock advise --sites config/demo_sites.json --on 2026-10-15 >"$work/again"
grep -v weather_samples "$work/advice" >"$work/installed.txt"
grep -v weather_samples "$work/again" >"$work/built.txt"
cmp "$work/installed.txt" "$work/built.txt"
