// SPDX-License-Identifier: MIT
// How one value of a field is read from text and shown again. Used by the field lists only.
#pragma once

#include <cmath>
#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/problem.hpp"
#include "core/text.hpp"
#include "core/time_zone.hpp"
#include "records/entries/field.hpp"

namespace soilclock::records {

/// Reading and showing one type of value.
template <class Value>
struct Codec {
  std::string expected;
  std::function<Result<Value>(std::string_view text, std::string_view unit)> parse;
  std::function<Cell(const Value&)> show;
  bool is_list = false;
  std::optional<Quantity> quantity = {};
};

/// One line of at most 200 characters without control characters; blanks at the ends are taken off.
Codec<std::string> line_codec();
/// Any text of at most 10,000 bytes, kept byte for byte; only broken UTF-8 and the zero byte are refused.
Codec<std::string> note_codec();
/// A five- or six-character EPPO code, kept in capitals.
Codec<std::string> target_codec();
/// 1980-01-01 to 2199-12-31 as YYYY-MM-DD.
Codec<Day> day_codec();
/// HH:MM, 24 hours.
Codec<ClockTime> clock_codec();
/// A whole number in [least, most].
Codec<int> whole_codec(int least, int most);
/// Several whole numbers in [least, most].
Codec<std::vector<int>> wholes_codec(int least, int most);
/// Several common names, each one line.
Codec<std::vector<std::string>> names_codec();
/// A number in [least, most] of the kept unit.
Codec<double> measure_codec(Quantity quantity, double least, double most);

/// A number with a unit as its own type. It is shown to nine decimals, so that the last bit of a conversion
/// inside the type (7 cm as 0.07 m as 7.000000000000001 cm) does not show.
template <class Value>
Codec<Value> measure_codec(Quantity quantity, double least, double most, Value (*make)(double),
                           double (Value::*number)() const) {
  Codec<double> plain = measure_codec(quantity, least, most);
  return {plain.expected,
          [parse = plain.parse, make](std::string_view text, std::string_view unit) {
            return parse(text, unit).map(make);
          },
          [number](const Value& value) { return Cell{std::round((value.*number)() * 1e9) / 1e9}; }, false,
          quantity};
}

/// One of a few words, in any case.
template <class Value>
Codec<Value> choice_codec(std::vector<std::pair<std::string, Value>> words) {
  std::string expected = "one of";
  for (const auto& [word, value] : words) expected += (expected == "one of" ? " " : ", ") + word;
  return {
      expected,
      [words, expected](std::string_view text, std::string_view) -> Result<Value> {
        const std::string typed = lowered(trimmed(text));
        for (const auto& [word, value] : words) {
          if (word == typed) return value;
        }
        return fail({Family::request, "this word is not known here", {}, std::string{text}, expected, {}});
      },
      [words](const Value& wanted) -> Cell {
        for (const auto& [word, value] : words) {
          if (value == wanted) return word;
        }
        return std::monostate{};
      }};
}

/// Whether text is well-formed UTF-8 without the zero byte.
bool is_clean_utf8(std::string_view text);

}  // namespace soilclock::records
