// SPDX-License-Identifier: MIT
// Keeps a test program on this machine: whatever the network library would send elsewhere goes to a door that
// only counts. From the first test on, every proxy variable of the environment names it, and the loopback
// alone is excepted. A program that knocked at that door fails at its end, whatever its tests said. To be
// included first in exactly one file of a test program.
#pragma once

#include <catch2/catch.hpp>
#include <cstdlib>
#include <iostream>

#include "support/closed_door.hpp"

namespace soilclock::tests {

class NoWayOut : public Catch::TestEventListenerBase {
 public:
  using TestEventListenerBase::TestEventListenerBase;

  void testRunStarting(const Catch::TestRunInfo&) override { lead_to(door_of_program().emplace()); }
  void testRunEnded(const Catch::TestRunStats&) override {
    const int knocks = door_of_program()->knocks();
    door_of_program().reset();
    if (knocks == 0) return;
    std::cerr << "FAILED: the tests tried " << knocks << " time(s) to leave this machine\n";
    std::exit(1);
  }
};

CATCH_REGISTER_LISTENER(NoWayOut)

}  // namespace soilclock::tests
