// SPDX-License-Identifier: MIT
#include "records/entries/measure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "core/temperature.hpp"
#include "core/text.hpp"
#include "core/units.hpp"

namespace soilclock::records {

namespace {

struct Unit {
  Quantity quantity;
  std::string_view word;     // lower case, as typed behind a number
  std::string_view heading;  // as it ends a column heading
  double factor;             // to the kept unit; temperatures have their own rule
};

// The first of a quantity is the kept one.
constexpr std::array units{
    Unit{Quantity::temperature, "c", "c", 1.0},
    Unit{Quantity::temperature, "f", "f", 1.0},
    Unit{Quantity::water, "mm", "mm", 1.0},
    Unit{Quantity::water, "in", "in", units::mm_in_inch},
    Unit{Quantity::depth, "cm", "cm", 1.0},
    Unit{Quantity::depth, "mm", "mm", 0.1},
    Unit{Quantity::depth, "in", "in", units::cm_in_inch},
    Unit{Quantity::speed, "m/s", "m_per_s", 1.0},
    Unit{Quantity::speed, "km/h", "km_per_h", 1.0 / units::km_per_h_in_m_per_s},
    Unit{Quantity::speed, "mph", "mph", units::m_per_s_in_mph},
    Unit{Quantity::speed, "kn", "kn", units::m_per_s_in_knot},
    Unit{Quantity::percent, "%", "percent", 1.0},
    Unit{Quantity::area, "m2", "m2", 1.0},
    Unit{Quantity::area, "ft2", "ft2", units::m2_in_square_foot},
    Unit{Quantity::direction, "degrees", "degrees", 1.0},
};

constexpr std::array<std::string_view, 16> compass{"n", "nne", "ne", "ene", "e", "ese", "se", "sse",
                                                   "s", "ssw", "sw", "wsw", "w", "wnw", "nw", "nnw"};

const Unit* find_unit(std::string_view word, Quantity quantity) {
  for (const Unit& unit : units) {
    if (unit.quantity == quantity && unit.word == word) return &unit;
  }
  return nullptr;
}

std::string expected_text(Quantity quantity) {
  switch (quantity) {
    case Quantity::temperature:
      return "a temperature with its unit, such as 13C or 55F";
    case Quantity::water:
      return "a depth of water with its unit, such as 6mm or 0.25in";
    case Quantity::depth:
      return "a depth with its unit, such as 5cm or 2in";
    case Quantity::speed:
      return "a speed with its unit: m/s, km/h, mph or kn";
    case Quantity::percent:
      return "a percentage such as 40%";
    case Quantity::area:
      return "an area with its unit, such as 0.1m2 or 1ft2";
    case Quantity::direction:
      break;
  }
  return "a compass point such as NW, or degrees such as 315degrees";
}

double to_stored_unit(double value, const Unit& unit) {
  if (unit.word == stored_unit(unit.quantity) || unit.word == "c") return value;
  const double stored =
      unit.word == "f" ? Temperature::from_fahrenheit(value).celsius() : value * unit.factor;
  const double steps = unit.quantity == Quantity::area ? 1e6 : 1e4;
  return std::round(stored * steps) / steps;
}

/// A number as it stands in front of its unit, and the lower-case word of the unit; empty where none stands.
struct Written {
  std::optional<double> value;
  std::string unit;
};

Written split_measure(std::string_view text) {
  std::string rest = lowered(trimmed(text));
  if (!rest.empty() && rest.front() == '+') rest.erase(0, 1);
  constexpr const char* digits = "0123456789";
  std::size_t end = std::min(rest.find_first_not_of("0123456789.-"), rest.size());
  const std::size_t exponent = rest.find_first_not_of("+-", end + 1);
  if (end < rest.size() && rest[end] == 'e' && exponent == rest.find_first_of(digits, exponent))
    end = std::min(rest.find_first_not_of(digits, exponent), rest.size());
  const auto value = parse_number(std::string_view{rest}.substr(0, end));
  if (!value) return {};
  std::string word{trimmed(std::string_view{rest}.substr(end))};
  if (word.starts_with("\u00b0")) word.erase(0, std::string_view{"\u00b0"}.size());  // degree sign
  return {value, word};
}

/// A unit as it is shown: letters of temperature scales are capitals.
std::string shown_unit(const Unit& unit) {
  return unit.quantity == Quantity::temperature ? (unit.word == "f" ? "F" : "C") : std::string{unit.word};
}

}  // namespace

std::string_view stored_unit(Quantity quantity) {
  if (quantity == Quantity::temperature) return "C";
  for (const Unit& unit : units) {
    if (unit.quantity == quantity) return unit.word;
  }
  return {};
}

Result<double> parse_measure(std::string_view text, Quantity quantity, std::string_view unit) {
  const auto refuse = [&](const char* what) {
    Problem problem;
    problem.family = Family::request;
    problem.what = what;
    problem.found = text;
    problem.expected = expected_text(quantity);
    return fail(std::move(problem));
  };
  if (quantity == Quantity::direction) {
    const std::string point = lowered(trimmed(text));
    for (std::size_t i = 0; i < compass.size(); ++i) {
      if (point == compass[i]) return 22.5 * static_cast<double>(i);
    }
  }
  const Written written = split_measure(text);
  if (!written.value) return refuse("this is no number");
  if (written.unit.empty() && unit.empty()) return refuse("the unit is missing");
  const Unit* found = find_unit(written.unit.empty() ? lowered(unit) : written.unit, quantity);
  if (found == nullptr) return refuse("this unit is not known here");
  const double stored = to_stored_unit(*written.value, *found);
  if (!std::isfinite(stored)) return refuse("this number is too large");
  return stored;
}

std::string other_unit(std::string_view text, Quantity quantity, std::string_view unit) {
  const Written written = split_measure(text);
  const Unit* found = find_unit(written.unit.empty() ? lowered(unit) : written.unit, quantity);
  if (!written.value || found == nullptr || shown_unit(*found) == stored_unit(quantity)) return {};
  return shown_unit(*found);
}

std::optional<double> in_unit(double stored, Quantity quantity, std::string_view unit) {
  const Unit* found = find_unit(lowered(unit), quantity);
  if (found == nullptr) return std::nullopt;
  const double value =
      found->word == "f" ? Temperature::from_celsius(stored).fahrenheit() : stored / found->factor;
  return std::round(value * 1e3) / 1e3;
}

std::optional<std::string> unit_of_heading(std::string_view ending, Quantity quantity) {
  for (const Unit& unit : units) {
    if (unit.quantity == quantity && unit.heading == ending) return std::string{unit.word};
  }
  return std::nullopt;
}

}  // namespace soilclock::records
