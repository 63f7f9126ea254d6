// SPDX-License-Identifier: MIT
// Text to records of fields: delimiter, quotes, line breaks inside quotes, line numbers.
#pragma once

#include <deque>
#include <string>
#include <string_view>
#include <vector>

namespace soilclock::weather {

/// The character between fields; a blank stands for runs of blanks and tabs.
char detect_delimiter(std::string_view text);

/// A text cut into records. Views point into the text given, which must outlive the table.
class Table {
 public:
  struct Record {
    int line;  ///< the line it starts on, counted from 1
    std::size_t first;
    std::size_t count;
  };

  /// Empty lines are records without fields. An opening quote that is never closed near by counts as a
  /// letter.
  Table(std::string_view text, char delimiter);

  /// Says which lines of a file the records stand for, where the text was made from another table.
  void number_lines(const std::vector<int>& lines);

  std::size_t size() const { return records_.size(); }
  int line(std::size_t record) const { return records_[record].line; }
  std::size_t width(std::size_t record) const { return records_[record].count; }
  /// The trimmed field, empty when the record is shorter.
  std::string_view field(std::size_t record, std::size_t column) const {
    const Record& r = records_[record];
    return column < r.count ? fields_[r.first + column] : std::string_view{};
  }
  /// Without any text in it.
  bool blank(std::size_t record) const;
  /// The whole line (or lines) of a record as it stands in the text.
  std::string_view whole(std::size_t record) const { return wholes_[record]; }
  char delimiter() const { return delimiter_; }
  bool ends_with_newline() const { return ends_with_newline_; }

 private:
  std::size_t read_quoted(std::string_view text, std::size_t at, int& line);

  char delimiter_;
  bool ends_with_newline_;
  std::vector<Record> records_;
  std::vector<std::string_view> fields_;
  std::vector<std::string_view> wholes_;
  std::deque<std::string> unescaped_;  // a deque, so that views into it stay valid while it grows
};

}  // namespace soilclock::weather
