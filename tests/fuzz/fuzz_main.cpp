// SPDX-License-Identifier: MIT
// What libFuzzer calls: the harness that SOILCLOCK_HARNESS names.
#include <cstddef>
#include <cstdint>

#include "fuzz/harnesses.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  soilclock::fuzz::SOILCLOCK_HARNESS({reinterpret_cast<const char*>(data), size});
  return 0;
}
