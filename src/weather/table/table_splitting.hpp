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

/// Records of a table, or rows of a section, by their index. Four bytes each: a large file has millions, and
/// several lists of them.
using RowList = std::vector<std::uint32_t>;

class CellEnds;

/// A text cut into records. Views point into the text given, which must outlive the table and be shorter than
/// 2 GB: a large file has millions of fields, so places are kept in few bits.
class Table {
 public:
  /// Empty lines are records without fields. An opening quote that is never closed near by counts as a
  /// letter.
  Table(std::string_view text, char delimiter);
  Table(const Table&) = delete;
  Table& operator=(const Table&) = delete;

  /// Says which lines of a file the records stand for, where the text was made from another table.
  void number_lines(const std::vector<int>& lines);

  std::size_t size() const { return records_.size() - 1; }
  int line(std::size_t record) const {
    return lines_.empty() ? static_cast<int>(record) + 1 : lines_[record];
  }
  std::size_t width(std::size_t record) const { return records_[record + 1].first - records_[record].first; }
  /// The trimmed field, empty when the record is shorter.
  std::string_view field(std::size_t record, std::size_t column) const {
    if (column >= width(record)) return {};
    const Piece piece = fields_[records_[record].first + column];
    if (piece.apart != 0) return apart_[piece.size * (farthest + 1) + piece.begin];
    return {text_.data() + records_[record].begin + piece.begin, piece.size};
  }
  /// Without any text in it.
  bool blank(std::size_t record) const;
  /// The whole line (or lines) of a record as it stands in the text.
  std::string_view whole(std::size_t record) const;
  char delimiter() const { return delimiter_; }
  bool ends_with_newline() const { return ends_with_newline_; }

 private:
  static constexpr std::uint32_t farthest = 0xFFFF;  ///< of a field's begin from that of its record
  static constexpr std::uint32_t longest = 0x7FFF;

  /// A field by its place in its record. One that had to be changed, or lies too far or is too long for the
  /// few bits, stands apart: begin and size are then the low and the high part of its index there.
  struct Piece {
    std::uint32_t begin : 16;
    std::uint32_t size : 15;
    std::uint32_t apart : 1;
  };
  /// Ends where the next one begins; one more stands behind the last.
  struct Record {
    std::uint32_t begin;  ///< in the text
    std::uint32_t first;  ///< of its fields
  };

  void reserve();
  void add_field(std::string_view part, std::size_t record_begin);
  void add_apart(std::string_view part);
  void number_record(int line);
  std::size_t read_record(std::size_t i, const CellEnds& ends, int& line);
  std::size_t read_quoted(std::size_t at, std::size_t record_begin, int& line);

  std::string_view text_;
  char delimiter_;
  bool ends_with_newline_;
  std::vector<Record> records_;
  std::vector<Piece> fields_;
  std::vector<int> lines_;  ///< of the records, counted from 1; empty as long as every record is one line
  std::vector<std::string_view> apart_;
  std::deque<std::string> unescaped_;  // a deque, so that views into it stay valid while it grows
};

}  // namespace soilclock::weather
