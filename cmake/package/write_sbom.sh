#!/bin/sh
# SPDX-License-Identifier: MIT
# Writes what the program is made of as SPDX 2.3 (tag-value): the Debian packages of the libraries it is linked with and of
# those of which only headers went into it, in the versions of this machine.
# Usage: write_sbom.sh PROGRAM VERSION OUTPUT
set -eu
program=$1
version=$2
output=$3
headers="libcli11-dev libexpected-dev libhowardhinnant-date-dev nlohmann-json3-dev"
opened="libcurl4" # at the first fetch, by name
made=$(date -u -d "@${SOURCE_DATE_EPOCH:-$(date +%s)}" +%Y-%m-%dT%H:%M:%SZ)

# The package that owns a library the program names.
owner_of() { # name
  path=$(ldd "$program" | awk -v name="$1" '$1 == name && $2 == "=>" { print $3 }')
  [ -n "$path" ] || return 0
  { dpkg-query -S "$path" || dpkg-query -S "/usr$path" || dpkg-query -S "$(readlink -f "$path")"; } 2>/dev/null |
    sed 's/:.*//' | head -n 1
}

part() { # package relationship
  found=$(dpkg-query -W -f '${Version} ${Architecture} ${Homepage}' "$1")
  set -- "$1" "$2" "${found%% *}" "${found#* }"
  printf '\nPackageName: %s\nSPDXID: SPDXRef-%s\nPackageVersion: %s\n' "$1" "$(printf %s "$1" | tr '+_' '--')" "$3"
  printf 'PackageDownloadLocation: NOASSERTION\nFilesAnalyzed: false\n'
  [ -z "${4#* }" ] || printf 'PackageHomePage: %s\n' "${4#* }"
  printf 'PackageLicenseConcluded: NOASSERTION\nPackageLicenseDeclared: NOASSERTION\n'
  printf 'PackageLicenseComments: <text>/usr/share/doc/%s/copyright</text>\nPackageCopyrightText: NOASSERTION\n' "$1"
  printf 'ExternalRef: PACKAGE-MANAGER purl pkg:deb/debian/%s@%s?arch=%s\n' "$1" \
    "$(printf %s "$3" | sed 's/+/%2B/g; s/:/%3A/g; s/~/%7E/g')" "${4%% *}"
  printf 'Relationship: SPDXRef-soilclock %s SPDXRef-%s\n' "$2" "$(printf %s "$1" | tr '+_' '--')"
}

parts=$(
  linked=$(for name in $(objdump -p "$program" | awk '$1 == "NEEDED" { print $2 }'); do owner_of "$name"; done | sort -u)
  for package in $linked $opened; do part "$package" DYNAMIC_LINK; done
  for package in $headers; do part "$package" STATIC_LINK; done
)
unique=$(printf %s "$parts" | cat - "$program" | sha256sum | cut -c 1-32)
{
  printf 'SPDXVersion: SPDX-2.3\nDataLicense: CC0-1.0\nSPDXID: SPDXRef-DOCUMENT\nDocumentName: soilclock-%s\n' "$version"
  printf 'DocumentNamespace: https://example.org/spdx/soilclock-%s-%s\n' "$version" "$unique"
  printf 'Creator: Tool: soilclock-write_sbom-%s\nCreated: %s\n' "$version" "$made"
  printf '\nPackageName: soilclock\nSPDXID: SPDXRef-soilclock\nPackageVersion: %s\n' "$version"
  printf 'PackageDownloadLocation: NOASSERTION\nFilesAnalyzed: false\nPackageLicenseConcluded: MIT\n'
  printf 'PackageLicenseDeclared: MIT\nPackageCopyrightText: <text>2026 the soilclock contributors</text>\n'
  printf 'Relationship: SPDXRef-DOCUMENT DESCRIBES SPDXRef-soilclock\n%s\n' "$parts"
} >"$output"
