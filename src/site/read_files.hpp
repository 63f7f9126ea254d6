// SPDX-License-Identifier: MIT
// Weather files as they were read last: the next question about them need not read them again.
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "weather/parsed_file.hpp"

namespace soilclock {

class ReadFiles {
 public:
  /// As weather::read_weather_text. A name stands for the same bytes until it is forgotten.
  const weather::ParsedFile& read(std::string_view bytes, const std::string& file,
                                  const weather::ReadingOptions& options);
  void forget(const std::string& file) { known_.erase(file); }
  void forget_all() { known_.clear(); }

 private:
  struct Reading {
    weather::ReadingOptions options;
    weather::ParsedFile file;
  };
  std::map<std::string, Reading> known_;  ///< by name, each as the latest options had it read
};

}  // namespace soilclock
