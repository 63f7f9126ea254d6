// SPDX-License-Identifier: MIT
// Text to records of fields: delimiter, quotes, line breaks inside quotes, line numbers.
#pragma once

#include <cstdint>
#include <deque>
#include <string>
#include <string_view>
#include <vector>

namespace soilclock::weather {

/// The character between fields; a blank stands for runs of blanks and tabs.
char detect_delimiter(std::string_view text);

/// A text cut into records. Views point into the text given, which must outlive the table and be shorter than
/// 2 GB: a large file has millions of fields, so places are kept in 32 bits.
class Table {
 public:
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
    return column < r.count ? view(fields_[r.first + column]) : std::string_view{};
  }
  /// Without any text in it.
  bool blank(std::size_t record) const;
  /// The whole line (or lines) of a record as it stands in the text.
  std::string_view whole(std::size_t record) const { return view(records_[record].whole); }
  char delimiter() const { return delimiter_; }
  bool ends_with_newline() const { return ends_with_newline_; }

 private:
  /// A piece of the text or, where that had to be changed, one of the rewritten fields.
  struct Piece {
    std::uint32_t begin;
    std::uint32_t size : 31;
    std::uint32_t rewritten : 1;
  };
  struct Record {
    int line;  ///< the line it starts on, counted from 1
    std::uint32_t first;
    std::uint32_t count;
    Piece whole;
  };

  std::string_view view(Piece piece) const {
    return piece.rewritten != 0 ? std::string_view{unescaped_[piece.begin]}
                                : text_.substr(piece.begin, piece.size);
  }
  Piece piece_of(std::string_view part) const;
  std::size_t read_quoted(std::size_t at, int& line);

  std::string_view text_;
  char delimiter_;
  bool ends_with_newline_;
  std::vector<Record> records_;
  std::vector<Piece> fields_;
  std::deque<std::string> unescaped_;  // a deque, so that views into it stay valid while it grows
};

}  // namespace soilclock::weather
