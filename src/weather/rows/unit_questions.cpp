// SPDX-License-Identifier: MIT
#include "weather/rows/unit_questions.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace soilclock::weather {

namespace {

bool is_part_of_a_unit(Unit unit) {
  switch (unit) {
    case Unit::tenths_celsius:
    case Unit::hundredths_celsius:
    case Unit::tenths_fahrenheit:
    case Unit::hundredths_fahrenheit:
    case Unit::tenths_millimeter:
    case Unit::hundredths_millimeter:
    case Unit::tenths_inch:
    case Unit::hundredths_inch:
    case Unit::thousandths_inch:
      return true;
    default:
      return false;
  }
}

bool has_fractions(const std::vector<double>& values) {
  return std::any_of(values.begin(), values.end(),
                     [](double value) { return !std::isnan(value) && value != std::floor(value); });
}

Checked ask_about_unit(const SectionData& data, std::size_t index, const char* example,
                       const ReadingNotes& notes) {
  const PlannedColumn& column = data.plan.columns[index];
  const int shown = static_cast<int>(index) + 1;
  const std::string remedy = fmt::format("say the unit with --units-in, for example --units-in {}", example);
  if (column.meaning.unit == Unit::none && !column.meaning.unknown_unit.empty()) {
    return fail(notes.problem(
        fmt::format("the unit of '{}' is not known here ({})", column.heading, column.meaning.unknown_unit),
        data.heading_line(), shown, column.heading,
        "C, F, K, mm, cm, m, in, ft, or tenths or hundredths of them", remedy));
  }
  const auto cells = data.values.find(index);
  if (is_part_of_a_unit(column.meaning.unit) && cells != data.values.end() &&
      has_fractions(cells->second.values)) {
    return fail(notes.problem(fmt::format("the heading '{}' says {}, but the numbers have decimals",
                                          column.heading, unit_name(column.meaning.unit)),
                              data.heading_line(), shown, column.heading,
                              "whole numbers of parts of a unit, or numbers in the whole unit", remedy));
  }
  return {};
}

}  // namespace

Checked ask_about_units(const SectionData& data, const WantedUnits& wanted, const ReadingNotes& notes) {
  for (std::size_t i = 0; i < data.plan.columns.size(); ++i) {
    const Quantity quantity = data.plan.quantity(i);
    Checked known;
    if (is_temperature(quantity) && !wanted.temperature) known = ask_about_unit(data, i, "C", notes);
    if (is_rain(quantity) && !wanted.rain) known = ask_about_unit(data, i, "mm", notes);
    if (!known) return known;
  }
  return {};
}

}  // namespace soilclock::weather
