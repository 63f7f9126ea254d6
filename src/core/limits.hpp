// SPDX-License-Identifier: MIT
// How much the program takes in at once, so that no file can eat a machine's memory or time.
#pragma once

#include <cstddef>

namespace soilclock {

/// Judgment: sixty years of hourly readings with ten columns fill about 40 MB, and no club's record is
/// longer.
inline constexpr std::size_t largest_file_bytes = 50'000'000;

}  // namespace soilclock
