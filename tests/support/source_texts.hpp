// SPDX-License-Identifier: MIT
// Files of the source tree as texts, and small changes to them, for tests of strict readers.
#pragma once

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

namespace soilclock::tests {

/// The text of a file below the source folder; fails the test when it cannot be read.
inline std::string source_text(const std::string& name) {
  std::ifstream in{std::filesystem::path{SOILCLOCK_SOURCE_DIR} / name, std::ios::binary};
  INFO(name);
  REQUIRE(in.good());
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

/// The text with the first occurrence of a part exchanged; fails the test when the part is not there, so that
/// a test cannot go on changing nothing.
inline std::string exchanged(std::string text, const std::string& part, const std::string& by) {
  const auto at = text.find(part);
  INFO("looking for: " << part);
  REQUIRE(at != std::string::npos);
  return text.replace(at, part.size(), by);
}

}  // namespace soilclock::tests
