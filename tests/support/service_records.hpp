// SPDX-License-Identifier: MIT
// Recorded answers of weather services.
#pragma once

#include <fstream>
#include <iterator>
#include <string>

#include "support/record_files.hpp"

namespace soilclock::tests {

/// The bytes of a recorded answer; a test that asks for them is tagged [records].
inline std::string recorded_answer(const std::string& name) {
  const auto slash = name.rfind('/');
  std::ifstream file{record_folder(name.substr(0, slash)) / name.substr(slash + 1), std::ios::binary};
  return {std::istreambuf_iterator<char>{file}, {}};
}

}  // namespace soilclock::tests
