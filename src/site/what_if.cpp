// SPDX-License-Identifier: MIT
#include "site/what_if.hpp"

#include <fmt/format.h>

#include "core/number_text.hpp"
#include "core/unit_words.hpp"

namespace soilclock {

SiteRequest changed(SiteRequest request, const WhatIfChange& change, const advice::ComparisonRules& rules) {
  const Day on = request.on;
  request.soil_offset = request.soil_offset + change.soil;
  if (change.irrigated) request.irrigation = emergence::Irrigation{*change.irrigated, 0.0};
  if (change.missing_week) request.change.missing_days = rules.missing_days;
  if (change.dry_ahead) request.change.dry = {on, on + Days{rules.dry_days}};
  if (change.frost_ahead) request.change.frost_on = on + Days{rules.frost_after_days};
  request.change.frost_low = rules.frost_low;
  if (change.record_years) request.change.record_from = years_before(on, *change.record_years);
  return request;
}

std::vector<std::string> change_words(const WhatIfChange& change, Day on,
                                      const advice::ComparisonRules& rules, bool us_units) {
  std::vector<std::string> words;
  if (const double kelvin = change.soil.kelvin(); kelvin != 0.0)
    words.push_back(fmt::format("soil {} {}", difference_words(change.soil, us_units),
                                kelvin > 0.0 ? "warmer" : "cooler"));
  if (change.irrigated) words.emplace_back(*change.irrigated ? "turf watered" : "turf not watered");
  if (change.missing_week)
    words.push_back(fmt::format("weather of {} days missing", count_words(rules.missing_days)));
  if (change.dry_ahead) words.push_back(fmt::format("no rain for {} days", count_words(rules.dry_days)));
  if (change.frost_ahead)
    words.push_back(fmt::format("{} on {}", temperature_words(rules.frost_low, us_units),
                                short_date(on + Days{rules.frost_after_days})));
  if (change.record_years)
    words.push_back(fmt::format("record from {}", iso(years_before(on, *change.record_years))));
  return words;
}

}  // namespace soilclock
