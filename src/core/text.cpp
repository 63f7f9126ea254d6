// SPDX-License-Identifier: MIT
#include "core/text.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <limits>
#include <numeric>

namespace soilclock {

std::string_view trimmed(std::string_view text) {
  const auto blank = [](char c) { return c == ' ' || (c >= '\t' && c <= '\r'); };
  std::size_t begin = 0;
  std::size_t end = text.size();
  while (begin < end && blank(text[begin])) ++begin;
  while (end > begin && blank(text[end - 1])) --end;
  return begin == end ? std::string_view{} : text.substr(begin, end - begin);
}

std::string lowered(std::string_view text) {
  std::string result{text};
  for (char& c : result) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return result;
}

#ifndef __cpp_lib_to_chars
namespace {

/// For standard libraries without from_chars for decimals: strtod, held to the same grammar. It would take
/// blanks, "0x1p3", "nan" and "inf" as well; the program never sets a locale, so its decimal mark is the
/// point.
std::optional<double> parse_number_by_strtod(std::string_view text) {
  if (text.find_first_not_of("0123456789.+-eE") != std::string_view::npos) return std::nullopt;
  if (text.empty() || text.front() == '+') return std::nullopt;
  const std::string whole{text};
  char* end = nullptr;
  errno = 0;
  const double value = std::strtod(whole.c_str(), &end);
  if (end != whole.c_str() + whole.size() || !std::isfinite(value)) return std::nullopt;
  if (errno == ERANGE && std::abs(value) < std::numeric_limits<double>::min()) return std::nullopt;
  return value;
}

}  // namespace
#endif

namespace {

/// "-12.5": a sign, digits and a point, few enough that digits and power of ten are both exact as double.
/// Their quotient is then the nearest double, the same that any correct reader gives (Clinger 1990, "How to
/// read floating point numbers accurately"). Nothing for every other text.
std::optional<double> short_decimal(std::string_view text) {
  constexpr std::array powers{1.0, 1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                              1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};
  const bool negative = !text.empty() && text.front() == '-';
  if (negative) text.remove_prefix(1);
  if (text.empty() || text.size() >= powers.size()) return std::nullopt;
  std::uint64_t digits = 0;
  std::size_t at = 0;
  const auto take_digits = [&] {
    const std::size_t from = at;
    for (; at < text.size() && text[at] >= '0' && text[at] <= '9'; ++at)
      digits = digits * 10 + static_cast<std::uint64_t>(text[at] - '0');
    return at - from;
  };
  const std::size_t whole = take_digits();
  std::size_t decimals = 0;
  if (at < text.size() && text[at] == '.') {
    ++at;
    decimals = take_digits();
  }
  if (at < text.size() || whole + decimals == 0) return std::nullopt;
  const double value = static_cast<double>(digits) / powers[decimals];
  return negative ? -value : value;
}

}  // namespace

std::optional<double> parse_number(std::string_view text) {
  if (text.empty()) return std::nullopt;
  if (text.front() == '+') text.remove_prefix(1);
  if (const auto value = short_decimal(text)) return value;
#ifdef __cpp_lib_to_chars
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
#else
  return parse_number_by_strtod(text);
#endif
}

std::size_t utf8_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  std::size_t length = 0;
  if (byte(0) < 0x80) return 1;
  if (byte(0) >= 0xC2 && byte(0) < 0xE0)
    length = 2;
  else if (byte(0) >= 0xE0 && byte(0) < 0xF0)
    length = 3;
  else if (byte(0) >= 0xF0 && byte(0) < 0xF5)
    length = 4;
  if (length == 0 || text.size() < length) return 0;
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xC0) != 0x80) return 0;
  }
  // Overlong forms, surrogates and what lies beyond U+10FFFF look well formed and are not UTF-8.
  if (byte(0) == 0xE0 && byte(1) < 0xA0) return 0;
  if (byte(0) == 0xED && byte(1) > 0x9F) return 0;
  if (byte(0) == 0xF0 && byte(1) < 0x90) return 0;
  if (byte(0) == 0xF4 && byte(1) > 0x8F) return 0;
  return length;
}

bool unseen_control(std::string_view character) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(character[i]); };
  if (character.size() == 1) return byte(0) < 0x20 || byte(0) == 0x7F;
  if (character.size() == 2) return byte(0) == 0xC2 && byte(1) < 0xA0;  // U+0080 to U+009F
  if (character.size() != 3 || byte(0) != 0xE2) return false;
  const bool marks = byte(1) == 0x80 && (byte(2) == 0x8E || byte(2) == 0x8F);    // U+200E, U+200F
  const bool lines = byte(1) == 0x80 && (byte(2) == 0xA8 || byte(2) == 0xA9);    // U+2028, U+2029
  const bool overrides = byte(1) == 0x80 && byte(2) >= 0xAA && byte(2) <= 0xAE;  // U+202A to U+202E
  const bool isolates = byte(1) == 0x81 && byte(2) >= 0xA6 && byte(2) <= 0xA9;   // U+2066 to U+2069
  return marks || lines || overrides || isolates;
}

std::string printable(std::string_view text, std::size_t limit) {
  std::string result;
  std::size_t shown = 0;
  while (!text.empty()) {
    if (shown == limit) return result + "...";
    const std::size_t length = utf8_length(text);
    if (length == 0 || unseen_control(text.substr(0, length))) {
      result += text.front() == '\t' ? ' ' : '?';
    } else {
      result += text.substr(0, length);
    }
    text.remove_prefix(std::max<std::size_t>(length, 1));
    ++shown;
  }
  return result;
}

std::string listed(const std::vector<std::string>& items) {
  std::string text;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i > 0) text += i + 1 == items.size() ? " and " : ", ";
    text += items[i];
  }
  return text;
}

std::optional<std::string> nearest(std::string_view typed, const std::vector<std::string>& candidates) {
  const auto distance = [](std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 0; i < a.size(); ++i) {
      std::size_t diagonal = row[0];
      row[0] = i + 1;
      for (std::size_t j = 0; j < b.size(); ++j) {
        const std::size_t substituted = diagonal + (a[i] == b[j] ? 0 : 1);
        diagonal = row[j + 1];
        row[j + 1] = std::min({row[j + 1] + 1, row[j] + 1, substituted});
      }
    }
    return row.back();
  };
  std::optional<std::string> best;
  std::size_t best_distance = std::max<std::size_t>(2, typed.size() / 3) + 1;
  for (const std::string& candidate : candidates) {
    const std::size_t d = distance(lowered(typed), lowered(candidate));
    if (d < best_distance) {
      best_distance = d;
      best = candidate;
    }
  }
  return best;
}

}  // namespace soilclock
