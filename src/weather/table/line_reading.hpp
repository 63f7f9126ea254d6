// SPDX-License-Identifier: MIT
// Texts of fixed lines without heading: one line after another, and a line cut at its blanks.
#pragma once

#include <algorithm>
#include <span>
#include <string_view>

namespace soilclock::weather {

/// Walks through the lines of a text, which must outlive it.
class LineReader {
 public:
  explicit LineReader(std::string_view text) : rest_{text} {}
  /// Steps to the next line; false at the end of the text.
  bool next() {
    if (rest_.empty()) return false;
    const auto end = std::min(rest_.find('\n'), rest_.size());
    line_ = rest_.substr(0, end);
    cut_ = end == rest_.size();
    rest_.remove_prefix(std::min(end + 1, rest_.size()));
    if (line_.ends_with('\r')) line_.remove_suffix(1);
    ++number_;
    return true;
  }
  std::string_view line() const { return line_; }
  int number() const { return number_; }
  /// The line is the last one and has no line end: the text may have been cut within it.
  bool cut() const { return cut_; }

 private:
  std::string_view rest_;
  std::string_view line_;
  int number_ = 0;
  bool cut_ = false;
};

/// Cuts a line at its blanks; true when it has exactly as many fields as asked for.
inline bool split_fields(std::string_view line, std::span<std::string_view> fields) {
  constexpr std::string_view blanks = " \t\r";
  std::size_t count = 0;
  std::size_t at = 0;
  while (true) {
    at = line.find_first_not_of(blanks, at);
    if (at == std::string_view::npos) return count == fields.size();
    if (count == fields.size()) return false;
    const std::size_t end = std::min(line.find_first_of(blanks, at), line.size());
    fields[count++] = line.substr(at, end - at);
    at = end;
  }
}

}  // namespace soilclock::weather
