// SPDX-License-Identifier: MIT
// Recorded answers of weather services, where the machine has them.
#pragma once

#include <fstream>
#include <iostream>
#include <iterator>
#include <optional>
#include <string>

#include "support/reference_station.hpp"

namespace soilclock::tests {

/// The bytes of a recorded answer; nothing (said on standard error) where the records are not.
inline std::optional<std::string> recorded_answer(const std::string& name) {
  const auto slash = name.rfind('/');
  const auto folder = record_folder(name.substr(0, slash));
  if (!folder) return std::nullopt;
  std::ifstream file{*folder / name.substr(slash + 1), std::ios::binary};
  return std::string{std::istreambuf_iterator<char>{file}, {}};
}

}  // namespace soilclock::tests
