// SPDX-License-Identifier: MIT
#include "records/entries/codec.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "core/text.hpp"

namespace soilclock::records {

namespace {

// Long enough for any real entry, short enough that a file pasted by mistake is noticed. Invented.
constexpr std::size_t line_limit = 200;
constexpr std::size_t note_limit = 10000;

Failure<Problem> refuse(std::string what, std::string_view found, std::string expected) {
  return fail({Family::request, std::move(what), {}, std::string{found}, std::move(expected), {}});
}

std::optional<int> parse_whole(std::string_view text) {
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (text.empty() || error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

Result<std::string> parse_line(std::string_view text, const std::string& expected) {
  const std::string_view line = trimmed(text);
  const bool control = std::any_of(line.begin(), line.end(),
                                   [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; });
  if (!is_clean_utf8(line)) return refuse("this text is not valid UTF-8", text, expected);
  if (control) return refuse("line ends, tabs and control characters are not taken here", text, expected);
  if (line.size() > line_limit) return refuse("this text is too long", text, expected);
  return std::string{line};
}

Result<int> parse_whole_between(std::string_view text, int least, int most, const std::string& expected) {
  const auto value = parse_whole(trimmed(text));
  if (!value) return refuse("this is no whole number", text, expected);
  if (*value < least || *value > most) return refuse("this number is out of range", text, expected);
  return *value;
}

std::string two_digits(int value) { return fmt::format("{:02}", value); }

std::optional<ClockTime> parse_clock(std::string_view text) {
  const auto colon = text.find(':');
  if (colon > 2 || text.size() - colon != 3) return std::nullopt;  // npos is above 2 as well
  const auto hour = parse_whole(text.substr(0, colon));
  if (!hour) return std::nullopt;
  const auto minute = parse_whole(text.substr(colon + 1));
  if (!minute) return std::nullopt;
  const bool on_the_clock = 0 <= *hour && *hour <= 23 && 0 <= *minute && *minute <= 59;
  if (!on_the_clock) return std::nullopt;
  return ClockTime{*hour * 60 + *minute};
}

}  // namespace

bool is_clean_utf8(std::string_view text) {
  std::size_t i = 0;
  const auto byte = [&](std::size_t at) { return static_cast<unsigned char>(text[at]); };
  while (i < text.size()) {
    const unsigned char first = byte(i);
    std::size_t more = 0;
    if (first == 0 || (first >= 0x80 && first < 0xC2) || first > 0xF4) return false;
    if (first >= 0xF0)
      more = 3;
    else if (first >= 0xE0)
      more = 2;
    else if (first >= 0x80)
      more = 1;
    if (i + more >= text.size()) return false;
    for (std::size_t k = 1; k <= more; ++k) {
      if ((byte(i + k) & 0xC0) != 0x80) return false;
    }
    // Overlong forms, surrogates and code points beyond U+10FFFF (Unicode 15, table 3-7).
    if (more > 0) {
      const unsigned char second = byte(i + 1);
      if ((first == 0xE0 && second < 0xA0) || (first == 0xED && second > 0x9F)) return false;
      if ((first == 0xF0 && second < 0x90) || (first == 0xF4 && second > 0x8F)) return false;
    }
    i += more + 1;
  }
  return true;
}

Codec<std::string> line_codec() {
  const std::string expected = fmt::format("one line of at most {} characters", line_limit);
  return {expected,
          [expected](std::string_view text, std::string_view) { return parse_line(text, expected); },
          [](const std::string& text) { return Cell{text}; }};
}

Codec<std::string> note_codec() {
  const std::string expected = fmt::format("text of at most {} bytes", note_limit);
  return {expected,
          [expected](std::string_view text, std::string_view) -> Result<std::string> {
            if (!is_clean_utf8(text)) return refuse("this text is not valid UTF-8", text, expected);
            if (text.size() > note_limit) return refuse("this text is too long", text, expected);
            return std::string{text};
          },
          [](const std::string& text) { return Cell{text}; }};
}

Codec<std::string> target_codec() {
  const std::string expected = "an EPPO code such as POAAN (annual bluegrass) or DIGIS (smooth crabgrass)";
  return {expected,
          [expected](std::string_view text, std::string_view) -> Result<std::string> {
            std::string code{trimmed(text)};
            for (char& c : code) {
              if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
            }
            const bool plain = std::all_of(code.begin(), code.end(), [](char c) {
              return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
            });
            if (!plain || code.size() < 5 || code.size() > 6)
              return refuse("this is no target code", text, expected);
            return code;
          },
          [](const std::string& code) { return Cell{code}; }};
}

Codec<Day> day_codec() {
  const std::string expected = "a date YYYY-MM-DD from 1980 to 2199";
  return {expected,
          [expected](std::string_view text, std::string_view) -> Result<Day> {
            const auto day = parse_iso_day(trimmed(text));
            if (!day) return refuse("this is no date", text, expected);
            if (*day < make_day(1980, 1, 1) || *day > make_day(2199, 12, 31)) {
              return refuse("this date is out of range", text, expected);
            }
            return *day;
          },
          [](const Day& day) { return Cell{soilclock::iso(day)}; }};
}

Codec<ClockTime> clock_codec() {
  const std::string expected = "a time of 24 hours such as 06:45 or 18:30";
  return {expected,
          [expected](std::string_view text, std::string_view) -> Result<ClockTime> {
            const auto time = parse_clock(trimmed(text));
            if (!time) return refuse("this is no time of day", text, expected);
            return *time;
          },
          [](const ClockTime& time) {
            return Cell{two_digits(time.minute_of_day / 60) + ":" + two_digits(time.minute_of_day % 60)};
          }};
}

Codec<int> whole_codec(int least, int most) {
  const std::string expected = fmt::format("a whole number from {} to {}", least, most);
  return {expected,
          [=](std::string_view text, std::string_view) {
            return parse_whole_between(text, least, most, expected);
          },
          [](const int& value) { return Cell{std::int64_t{value}}; }};
}

Codec<std::vector<int>> wholes_codec(int least, int most) {
  const std::string expected =
      fmt::format("whole numbers from {} to {}, separated by ';' or ','", least, most);
  return {expected,
          [=](std::string_view text, std::string_view) -> Result<std::vector<int>> {
            std::vector<int> values;
            for (const std::string& item : split_list(text, true)) {
              const auto value = parse_whole_between(item, least, most, expected);
              if (!value) return fail(value.error());
              values.push_back(*value);
            }
            return values;
          },
          [](const std::vector<int>& values) { return Cell{values}; }, true};
}

Codec<std::vector<std::string>> names_codec() {
  const std::string expected = "common names, separated by ';' or ','";
  return {expected,
          [=](std::string_view text, std::string_view) -> Result<std::vector<std::string>> {
            std::vector<std::string> names;
            for (const std::string& item : split_list(text, false)) {
              auto line = parse_line(item, expected);
              if (!line) return fail(line.error());
              if (line->empty()) return refuse("a name of this list is empty", text, expected);
              names.push_back(std::move(*line));
            }
            return names;
          },
          [](const std::vector<std::string>& names) { return Cell{names}; }, true};
}

Codec<double> measure_codec(Quantity quantity, double least, double most) {
  const std::string unit{stored_unit(quantity)};
  const std::string expected = fmt::format("a value from {}{} to {}{}", least, unit, most, unit);
  return {expected,
          [=](std::string_view text, std::string_view given_unit) -> Result<double> {
            const auto value = parse_measure(text, quantity, given_unit);
            if (value && (*value < least || *value > most)) {
              return refuse("this value is out of range", text, expected);
            }
            return value;
          },
          [](const double& value) { return Cell{value}; }, false, quantity};
}

}  // namespace soilclock::records
