// SPDX-License-Identifier: MIT
// Collects what is said about a file while it is read, and makes the one problem that stops it.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/problem.hpp"
#include "weather/parsed_file.hpp"

namespace soilclock::weather {

/// Doubts about one file. Repeated doubts of one kind are shown a few times and then counted.
class ReadingNotes {
 public:
  explicit ReadingNotes(std::string file) : file_{std::move(file)} {}
  /// Values in sentences are shown in the units of the options; `units_said` turns true at the first one, and
  /// `unit_questions` takes what was asked about the place.
  ReadingNotes(std::string file, const ReadingOptions& options)
      : file_{std::move(file)},
        us_units_{options.us_units},
        units_said_{options.units_said},
        unit_questions_{options.unit_questions} {}

  void doubt(std::string text, std::optional<int> line = {}, std::optional<int> column = {});
  /// For doubts that can come with every row: `kind` names them in the closing count ("values that are no
  /// number").
  void repeated(const std::string& kind, std::string text, std::optional<int> line,
                std::optional<int> column = {});
  /// A problem of the data family at a place of this file.
  Problem problem(std::string what, std::optional<int> line, std::optional<int> column, std::string found,
                  std::string expected, std::string remedy) const;
  /// How many doubts of a repeated kind there were.
  int count(const std::string& kind) const {
    const auto found = counts_.find(kind);
    return found == counts_.end() ? 0 : found->second;
  }
  void asked(UnitQuestion question);
  const std::string& file() const { return file_; }
  /// For a sentence: its values are in these units.
  bool us_units() const {
    if (units_said_ != nullptr) *units_said_ = true;
    return us_units_;
  }
  /// All doubts by line, those about the whole file first, with a count for each kind that was cut short.
  std::vector<Doubt> finished() const;

 private:
  std::string file_;
  bool us_units_ = false;
  bool* units_said_ = nullptr;
  std::vector<UnitQuestion>* unit_questions_ = nullptr;
  std::vector<Doubt> doubts_;
  std::map<std::string, int> counts_;
};

/// "a, b and c", or the first few and "... (N in all)".
std::string shortened_list(const std::vector<std::string>& items, std::size_t shown);

}  // namespace soilclock::weather
