#!/bin/sh
# SPDX-License-Identifier: MIT
# The tests of the network must pass on a machine that has no network: they are run where only the loopback exists.
# Usage: nothing_leaves.sh TEST_PROGRAM [ARGUMENT...]
set -eu
command -v unshare >/dev/null || { echo "SKIPPED: unshare is not installed; tests were not run without a network"; exit 77; }
command -v ip >/dev/null || { echo "SKIPPED: ip (iproute2) is not installed; tests were not run without a network"; exit 77; }
namespace=-rn
unshare $namespace ip link set lo up 2>/dev/null || namespace=-n
unshare $namespace ip link set lo up 2>/dev/null ||
  { echo "SKIPPED: network namespaces are not permitted here; tests were not run without a network"; exit 77; }
# shellcheck disable=SC2016  # expanded inside
exec unshare $namespace sh -c '
  ip link set lo up
  # An address of the block kept for documentation: where there is any way out, there is a route to it.
  if ip route get 192.0.2.1 >/dev/null 2>&1; then echo "there is a way out of here"; exit 1; fi
  exec "$@"' sh "$@"
