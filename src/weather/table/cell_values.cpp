// SPDX-License-Identifier: MIT
#include "weather/table/cell_values.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <limits>

#include "core/text.hpp"

namespace soilclock::weather {

namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

/// Codes no thermometer or rain gauge in use here can show.
bool is_missing_code(double value) {
  if (value > -90.0 && value < 990.0) return false;  // nearly every value; no code lies there
  static constexpr std::array codes{-99.0,   -99.9,   -99.99,   -999.0,  -999.9, -999.99, -9999.0, -9999.9,
                                    -6999.0, -7999.0, -99999.0, 99999.0, 9999.0, 9999.9,  999.9,   999.99};
  return std::any_of(codes.begin(), codes.end(), [&](double code) { return std::abs(code - value) < 1e-9; });
}

bool is_missing_word(std::string_view text) {
  static constexpr std::array words{"m",  "n/a",  "na", "nan", "#n/a", "null", "none", "missing",
                                    "nd", "msng", "?",  "/",   ".",    "nv",   "k.a.", "\\n"};
  if (text.find_first_not_of('-') == std::string_view::npos) return true;
  if (text.find_first_not_of('*') == std::string_view::npos) return true;
  const std::string low = lowered(text);
  return std::find(words.begin(), words.end(), low) != words.end();
}

bool is_trace(std::string_view text) {
  const std::string low = lowered(text);
  return low == "t" || low == "tr" || low == "trace";
}

/// ASCII signs for typographic ones; no-break and thin blanks removed.
std::string plain_signs(std::string_view text) {
  std::string plain;
  for (std::size_t i = 0; i < text.size();) {
    const std::string_view rest = text.substr(i);
    if (rest.starts_with("\xE2\x88\x92") || rest.starts_with("\xE2\x80\x93")) {  // minus sign, en dash
      plain += '-';
      i += 3;
    } else if (rest.starts_with("\xC2\xA0")) {  // no-break space
      i += 2;
    } else if (rest.starts_with("\xE2\x80\xAF") || rest.starts_with("\xE2\x80\x89")) {  // narrow blanks
      i += 3;
    } else {
      plain += text[i++];
    }
  }
  return std::string{trimmed(plain)};
}

/// "1,010.0" or "1,234,567.8": commas that group thousands before a decimal point.
bool groups_thousands(std::string_view text) {
  const auto point = text.find('.');
  if (point == std::string_view::npos) return false;
  std::string_view whole = text.substr(0, point);
  if (!whole.empty() && (whole.front() == '-' || whole.front() == '+')) whole.remove_prefix(1);
  for (auto comma = whole.find(','); comma != std::string_view::npos; comma = whole.find(',')) {
    if (comma == 0 || comma > 3) return false;
    whole.remove_prefix(comma + 1);
    if (whole.size() < 3 || (whole.size() > 3 && whole[3] != ',')) return false;
  }
  return true;
}

struct DecimalMarks {
  int point_line = 0;
  int comma_line = 0;
};

/// A cell that is a number as it stands.
std::optional<double> parse_plain(std::string_view text, int line, DecimalMarks& marks) {
  const auto value = parse_number(text);
  if (value && marks.point_line == 0 && text.find('.') != std::string_view::npos) marks.point_line = line;
  return value;
}

std::optional<double> parse_cell(std::string_view text, int line, DecimalMarks& marks) {
  if (const auto value = parse_plain(text, line, marks)) return value;
  const auto comma = text.find(',');
  if (comma == std::string_view::npos) return std::nullopt;
  std::string plain{text};
  if (groups_thousands(text)) {
    std::erase(plain, ',');
    marks.point_line = marks.point_line == 0 ? line : marks.point_line;
    return parse_number(plain);
  }
  plain[comma] = '.';
  const auto value = parse_number(plain);
  if (value && marks.comma_line == 0) marks.comma_line = line;
  return value;
}

/// Cuts a unit such as "mm" or "°C" off the end of a number and returns it without its degree sign.
std::string_view take_unit(std::string_view& text) {
  constexpr std::string_view degree = "\xC2\xB0";
  for (const std::string_view unit : {"mm", "in", "C", "F", "K", "%"}) {
    if (!text.ends_with(unit) || text.size() == unit.size()) continue;
    std::string_view number = trimmed(text.substr(0, text.size() - unit.size()));
    if (number.ends_with(degree)) number = trimmed(number.substr(0, number.size() - degree.size()));
    if (number.empty() || number.back() < '0' || number.back() > '9') continue;
    text = number;
    return unit;
  }
  return {};
}

}  // namespace

Result<ColumnValues> read_column(const Table& table, const RowList& rows, std::size_t column,
                                 bool traces_allowed, std::optional<double> missing_code,
                                 ReadingNotes& notes) {
  ColumnValues result;
  result.values.reserve(rows.size());
  DecimalMarks marks;
  const int shown_column = static_cast<int>(column) + 1;
  const auto mark_missing = [&](std::string_view text) {
    ++result.marked_missing;
    std::string marker = printable(text, 12);
    if (std::find(result.markers.begin(), result.markers.end(), marker) == result.markers.end() &&
        result.markers.size() < 20) {
      result.markers.push_back(std::move(marker));
    }
    result.values.push_back(missing);
  };
  std::optional<Problem> two_units;
  const auto with_unit = [&](std::string_view text, int line) -> std::optional<double> {
    const std::string_view unit = take_unit(text);
    if (unit.empty()) return std::nullopt;
    const auto value = parse_cell(text, line, marks);
    if (!value) return std::nullopt;
    if (result.unit.empty()) result.unit = unit;
    if (result.unit != unit && !two_units) {
      two_units = notes.problem(
          fmt::format("two units behind the numbers of one column ({} and {})", result.unit, unit), line,
          shown_column, {}, "one unit for the whole column", "make the column uniform and read it again");
    }
    return value;
  };
  const auto is_missing = [&](double value) {
    return is_missing_code(value) || (missing_code && std::abs(*missing_code - value) < 1e-9);
  };
  for (const std::size_t row : rows) {
    std::string_view text = table.field(row, column);
    const int line = table.line(row);
    // Nearly every cell; the questions below are for the others.
    if (const auto value = parse_plain(text, line, marks); value && !is_missing(*value)) {
      result.values.push_back(*value);
      continue;
    }
    std::string plain;
    const bool special =
        std::any_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) >= 0x80; });
    if (special) {
      plain = plain_signs(text);
      text = plain;
    }
    if (text.empty()) {
      ++result.blank;
      result.values.push_back(missing);
    } else if (const auto value = parse_cell(text, line, marks)) {
      if (is_missing(*value))
        mark_missing(text);
      else
        result.values.push_back(*value);
    } else if (const auto value_with_unit = with_unit(text, line)) {
      result.values.push_back(*value_with_unit);
    } else if (traces_allowed && is_trace(text)) {
      ++result.traces;
      result.values.push_back(0.0);
    } else {
      if (!is_missing_word(text)) {
        notes.repeated(
            "cells that are no number",
            fmt::format("'{}' is not a number; the value is taken as missing", printable(text, 30)), line,
            shown_column);
        result.values.push_back(missing);
        continue;
      }
      mark_missing(text);
    }
  }
  if (two_units) return fail(*two_units);
  if (marks.point_line != 0 && marks.comma_line != 0) {
    const int first = std::min(marks.point_line, marks.comma_line);
    const int second = std::max(marks.point_line, marks.comma_line);
    return fail(notes.problem(
        fmt::format("decimal points and decimal commas in one column (lines {} and {})", first, second),
        second, shown_column, {}, "one decimal mark for the whole column",
        "make the column uniform and read it again"));
  }
  return result;
}

}  // namespace soilclock::weather
