// SPDX-License-Identifier: MIT
#include "weather/table/table_splitting.hpp"

#include <algorithm>
#include <array>
#include <map>

#include "core/text.hpp"

namespace soilclock::weather {

namespace {

bool is_blank(char c) { return c == ' ' || c == '\t'; }

std::size_t fields_on_line(std::string_view line, char delimiter) {
  std::size_t count = 0;
  bool quoted = false;
  bool inside = false;
  if (delimiter != ' ') count = 1;
  for (const char c : line) {
    if (c == '"') quoted = !quoted;
    if (quoted) {
      continue;
    }
    if (delimiter == ' ') {
      const bool blank = is_blank(c);
      if (!blank && !inside) ++count;
      inside = !blank;
    } else if (c == delimiter) {
      ++count;
    }
  }
  return count;
}

}  // namespace

char detect_delimiter(std::string_view text) {
  constexpr std::array<char, 5> candidates{'\t', ';', ',', '|', ' '};
  constexpr std::size_t sample_lines = 400;
  std::array<std::map<std::size_t, std::size_t>, candidates.size()> counts;
  std::size_t lines = 0;
  while (!text.empty() && lines < sample_lines) {
    const auto end = std::min(text.find_first_of("\r\n"), text.size());
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (trimmed(line).empty() || line.front() == '#') continue;
    ++lines;
    for (std::size_t i = 0; i < candidates.size(); ++i) ++counts[i][fields_on_line(line, candidates[i])];
  }
  char best = ',';
  double best_share = 0.0;
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    for (const auto& [fields, count] : counts[i]) {
      const double share = static_cast<double>(count) / static_cast<double>(std::max<std::size_t>(lines, 1));
      // A later candidate must be clearly better: blanks also stand inside stamps, commas inside numbers.
      if (fields >= 2 && share > best_share + 0.1) {
        best_share = share;
        best = candidates[i];
      }
    }
  }
  return best;
}

/// Which bytes end a cell that is not quoted: the delimiter (a blank stands for tabs too) and line ends. One
/// look in a table costs less than three comparisons for every byte of a large file.
class CellEnds {
 public:
  explicit CellEnds(char delimiter) {
    for (const char c : {delimiter, '\n', '\r'}) ends_[static_cast<unsigned char>(c)] = true;
    if (delimiter == ' ') ends_[static_cast<unsigned char>('\t')] = true;
  }
  std::size_t next(std::string_view text, std::size_t from) const {
    while (from < text.size() && !ends_[static_cast<unsigned char>(text[from])]) ++from;
    return from;
  }

 private:
  std::array<bool, 256> ends_{};
};

void Table::add_field(std::string_view part, std::size_t record_begin) {
  const std::size_t begin =
      part.empty() ? 0 : static_cast<std::size_t>(part.data() - text_.data()) - record_begin;
  if (begin <= farthest && part.size() <= longest) {
    fields_.push_back(
        {static_cast<std::uint32_t>(begin) & farthest, static_cast<std::uint32_t>(part.size()) & longest, 0});
    return;
  }
  add_apart(part);
}

void Table::add_apart(std::string_view part) {
  const auto index = static_cast<std::uint32_t>(apart_.size());
  fields_.push_back({index & farthest, (index / (farthest + 1)) & longest, 1});
  apart_.push_back(part);
}

/// Reads the quoted field whose opening quote is at `at`; returns the place after its closing quote, or npos.
std::size_t Table::read_quoted(std::size_t at, std::size_t record_begin, int& line) {
  constexpr std::size_t far = 4000;  // no real field is longer; a lost quote must not swallow the file
  bool doubled = false;
  int lines = 0;
  std::size_t end = at + 1;
  for (;; ++end) {
    if (end >= text_.size() || end - at > far) return std::string_view::npos;
    if (text_[end] == '\n') ++lines;
    if (text_[end] != '"') continue;
    if (end + 1 < text_.size() && text_[end + 1] == '"') {
      doubled = true;
      ++end;
      continue;
    }
    break;
  }
  const std::string_view inner = text_.substr(at + 1, end - at - 1);
  if (doubled) {
    std::string copy;
    for (std::size_t i = 0; i < inner.size(); ++i) {
      copy += inner[i];
      if (inner[i] == '"') ++i;
    }
    add_apart(unescaped_.emplace_back(trimmed(copy)));
  } else {
    add_field(trimmed(inner), record_begin);
  }
  line += lines;
  return end + 1;
}

Table::Table(std::string_view text, char delimiter)
    : text_{text},
      delimiter_{delimiter},
      ends_with_newline_{text.empty() || text.back() == '\n' || text.back() == '\r'} {
  reserve();
  const CellEnds ends{delimiter};
  std::size_t i = 0;
  int line = 1;
  while (i < text.size()) {
    const std::size_t record_begin = i;
    records_.push_back(
        {static_cast<std::uint32_t>(record_begin), static_cast<std::uint32_t>(fields_.size())});
    if (line != static_cast<int>(records_.size()) || !lines_.empty()) number_record(line);
    i = read_record(i, ends, line);
    if (i < text.size() && text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n') ++i;
    ++i;
    ++line;
  }
  records_.push_back({static_cast<std::uint32_t>(i), static_cast<std::uint32_t>(fields_.size())});
}

namespace {

/// Whether there may be something to trim: seldom, and asked for every cell.
bool has_blank_ends(std::string_view cell) {
  return !cell.empty() && (cell.front() <= ' ' || cell.back() <= ' ');
}

/// In 32 bits, which is counted several bytes at a time; a text is shorter than that.
std::uint32_t count_of(char wanted, std::string_view text) {
  std::uint32_t count = 0;
  for (const char c : text) count += c == wanted ? 1U : 0U;
  return count;
}

}  // namespace

/// Fields grow by doubling otherwise, and then take up three times their room in a large file.
void Table::reserve() {
  const std::size_t lines = count_of('\n', text_);
  records_.reserve(lines + 2);
  if (delimiter_ != ' ') fields_.reserve(lines + 1 + count_of(delimiter_, text_));
}

/// Adds the fields of the record that begins at `i`; returns the place of its line end.
std::size_t Table::read_record(std::size_t i, const CellEnds& ends, int& line) {
  const std::string_view text = text_;
  const char delimiter = delimiter_;
  const std::size_t record_begin = i;
  const auto at_end = [&] { return i >= text.size() || text[i] == '\n' || text[i] == '\r'; };
  for (;; ++i) {
    while (i < text.size() && (text[i] == ' ' || (text[i] == '\t' && delimiter != '\t'))) ++i;
    if (delimiter == ' ' && at_end()) return i;
    std::size_t end = std::string_view::npos;
    if (i < text.size() && text[i] == '"') end = read_quoted(i, record_begin, line);
    if (end != std::string_view::npos) {
      i = ends.next(text, end);
    } else {
      const std::size_t begin = i;
      i = ends.next(text, i);
      const std::string_view cell = text.substr(begin, i - begin);
      add_field(has_blank_ends(cell) ? trimmed(cell) : cell, record_begin);
    }
    if (at_end()) return i;
  }
}

/// Keeps the line of the last record, once lines and records no longer count alike.
void Table::number_record(int line) {
  while (lines_.size() + 1 < records_.size()) lines_.push_back(static_cast<int>(lines_.size()) + 1);
  lines_.push_back(line);
}

void Table::number_lines(const std::vector<int>& lines) {
  std::vector<int> numbered;
  numbered.reserve(size());
  for (std::size_t i = 0; i < size(); ++i) numbered.push_back(i < lines.size() ? lines[i] : line(i));
  lines_ = std::move(numbered);
}

std::string_view Table::whole(std::size_t record) const {
  const std::size_t begin = records_[record].begin;
  std::size_t end = std::min<std::size_t>(records_[record + 1].begin - 1, text_.size());
  if (end > begin && end < text_.size() && text_[end] == '\n' && text_[end - 1] == '\r') --end;
  return text_.substr(begin, end - begin);
}

bool Table::blank(std::size_t record) const {
  for (std::size_t column = 0; column < width(record); ++column) {
    if (!field(record, column).empty()) return false;
  }
  return true;
}

}  // namespace soilclock::weather
