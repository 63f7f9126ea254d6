// SPDX-License-Identifier: MIT
// Finds metric values in text for a reader in the United States.
#pragma once

#include <regex>
#include <string>

namespace soilclock::tests {

/// The first metric value of the text with some words around it, or nothing: a number with a metric unit
/// behind it ("12 C", "5cm", "0.6 C per"), a column of such numbers ("soil C"), or a unit spelled out.
inline std::string metric_value_in(const std::string& text) {
  static const std::regex metric{
      R"([0-9] ?(C|mm|cm|m|km|kPa)\b|\b(soil|air|reading|estimate|fitted|rain|sum|degrees) (C|mm|cm)\b|Celsius|\b(kilo|centi|milli)?met(er|re)s?\b|kelvin)"};
  std::smatch found;
  if (!std::regex_search(text, found, metric)) return {};
  const auto at = static_cast<std::size_t>(found.position());
  return text.substr(at > 50 ? at - 50 : 0, 100);
}

}  // namespace soilclock::tests
