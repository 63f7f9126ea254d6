// SPDX-License-Identifier: MIT
// Weather files as they were read last: the next question about them need not read them again.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "weather/parsed_file.hpp"
#include "weather/unit_evidence.hpp"

namespace soilclock {

/// The reading of a file, with what tells whether it is the same for another site.
struct ReadText {
  weather::ReadingOptions options;
  weather::ParsedFile file;
  std::vector<weather::UnitQuestion> questions;  ///< that were asked about the place of the site
};

/// As weather::read_weather_text.
ReadText read_file_text(std::string_view bytes, const std::string& file,
                        const weather::ReadingOptions& options);

/// The latest readings of files, by name. A name stands for the same bytes until it is forgotten.
class ReadFiles {
 public:
  /// As weather::read_weather_text.
  const weather::ParsedFile& read(std::string_view bytes, const std::string& file,
                                  const weather::ReadingOptions& options);
  /// The reading of a file, where it is known and would come out the same with these options; null otherwise.
  const weather::ParsedFile* known(const std::string& file, const weather::ReadingOptions& options) const;
  const weather::ParsedFile& keep(const std::string& file, ReadText reading);
  void forget(const std::string& file) { known_.erase(file); }
  void forget_all() { known_.clear(); }

 private:
  std::map<std::string, ReadText> known_;  ///< by name, each as the latest options had it read
};

}  // namespace soilclock
