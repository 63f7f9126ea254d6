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

/// A part of the text by its place.
Table::Piece Table::piece_of(std::string_view part) const {
  const auto begin = part.empty() ? 0 : part.data() - text_.data();
  return {static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(part.size()) & 0x7FFFFFFFU, 0};
}

/// Reads the quoted field whose opening quote is at `at`; returns the place after its closing quote, or npos.
std::size_t Table::read_quoted(std::size_t at, int& line) {
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
    fields_.push_back({static_cast<std::uint32_t>(unescaped_.size()), 0, 1});
    unescaped_.emplace_back(trimmed(copy));
  } else {
    fields_.push_back(piece_of(trimmed(inner)));
  }
  line += lines;
  return end + 1;
}

Table::Table(std::string_view text, char delimiter)
    : text_{text},
      delimiter_{delimiter},
      ends_with_newline_{text.empty() || text.back() == '\n' || text.back() == '\r'} {
  const bool blanks = delimiter == ' ';
  const auto at_end = [&](std::size_t i) { return i >= text.size() || text[i] == '\n' || text[i] == '\r'; };
  const auto lines = static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n')) + 1;
  records_.reserve(lines);
  // Fields grow by doubling otherwise, and then take up three times their room in a large file.
  if (!blanks)
    fields_.reserve(lines + static_cast<std::size_t>(std::count(text.begin(), text.end(), delimiter)));
  std::size_t i = 0;
  int line = 1;
  while (i < text.size()) {
    const std::size_t record_begin = i;
    const int first_line = line;
    const std::size_t first_field = fields_.size();
    bool more = true;
    while (more) {
      while (i < text.size() && (text[i] == ' ' || (text[i] == '\t' && delimiter != '\t'))) ++i;
      if (blanks && at_end(i)) break;
      std::size_t end = std::string_view::npos;
      if (i < text.size() && text[i] == '"') end = read_quoted(i, line);
      if (end != std::string_view::npos) {
        i = end;
        while (!at_end(i) && (blanks ? !is_blank(text[i]) : text[i] != delimiter)) ++i;
      } else {
        const std::size_t begin = i;
        while (!at_end(i) && (blanks ? !is_blank(text[i]) : text[i] != delimiter)) ++i;
        fields_.push_back(piece_of(trimmed(text.substr(begin, i - begin))));
      }
      more = !at_end(i);
      if (more) ++i;
    }
    records_.push_back({first_line, static_cast<std::uint32_t>(first_field),
                        static_cast<std::uint32_t>(fields_.size() - first_field),
                        piece_of(text.substr(record_begin, i - record_begin))});
    if (i < text.size() && text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n') ++i;
    ++i;
    ++line;
  }
}

void Table::number_lines(const std::vector<int>& lines) {
  for (std::size_t i = 0; i < std::min(lines.size(), records_.size()); ++i) records_[i].line = lines[i];
}

bool Table::blank(std::size_t record) const {
  for (std::size_t column = 0; column < width(record); ++column) {
    if (!field(record, column).empty()) return false;
  }
  return true;
}

}  // namespace soilclock::weather
