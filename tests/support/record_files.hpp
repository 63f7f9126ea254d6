// SPDX-License-Identifier: MIT
// Where measured records lie: a few station-years in this repository, for tests that run everywhere, and many
// more in the folder that SOILCLOCK_RECORDS names, for tests tagged [records].
#pragma once

#include <cstdlib>
#include <filesystem>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

namespace soilclock::tests {

inline bool have_record_folder() {
  const char* named = std::getenv("SOILCLOCK_RECORDS");
  return named != nullptr && *named != '\0';
}

/// A part of the folder of measured records ("uscrn_years"); a test that asks for it is tagged [records].
inline std::filesystem::path record_folder(const std::string& part) {
  if (!have_record_folder())
    throw std::runtime_error{"SOILCLOCK_RECORDS names no folder of measured records"};
  const std::filesystem::path folder = std::filesystem::path{std::getenv("SOILCLOCK_RECORDS")} / part;
  if (!std::filesystem::is_directory(folder)) throw std::runtime_error{folder.string() + " is not there"};
  return folder;
}

/// The file of every reference station of 2020 that is here, by the station's name ("TN_Crossville_7_NW"):
/// those of this repository and, with SOILCLOCK_RECORDS, all others.
inline const std::map<std::string, std::filesystem::path>& reference_files() {
  static const auto files = [] {
    static const std::string beginning = "CRND0103-2020-";
    std::map<std::string, std::filesystem::path> result;
    std::vector<std::filesystem::path> folders{SOILCLOCK_SOURCE_DIR "/tests/weather_records"};
    if (have_record_folder()) folders.push_back(record_folder("uscrn"));
    for (const auto& folder : folders) {
      for (const auto& entry : std::filesystem::directory_iterator{folder}) {
        const std::string stem = entry.path().stem().string();
        if (stem.starts_with(beginning)) result.emplace(stem.substr(beginning.size()), entry.path());
      }
    }
    return result;
  }();
  return files;
}

inline std::filesystem::path reference_file(const std::string& name) {
  const auto found = reference_files().find(name);
  if (found == reference_files().end()) throw std::runtime_error{"no record of " + name + " is here"};
  return found->second;
}

/// Those of the named stations whose files are here: without SOILCLOCK_RECORDS, those of this repository.
inline std::vector<std::string> at_hand(std::vector<std::string> names) {
  std::erase_if(names, [](const std::string& name) { return !reference_files().contains(name); });
  if (names.empty()) throw std::runtime_error{"none of the named stations is here"};
  return names;
}

}  // namespace soilclock::tests
