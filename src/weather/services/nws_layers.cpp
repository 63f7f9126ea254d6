// SPDX-License-Identifier: MIT
#include "weather/services/nws_layers.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "weather/columns/unit_conversion.hpp"

namespace soilclock::weather {

namespace {

constexpr std::array known_units{std::pair{std::string_view{"degC"}, Unit::celsius},
                                 std::pair{std::string_view{"degF"}, Unit::fahrenheit},
                                 std::pair{std::string_view{"K"}, Unit::kelvin},
                                 std::pair{std::string_view{"mm"}, Unit::millimeter},
                                 std::pair{std::string_view{"percent"}, Unit::percent},
                                 std::pair{std::string_view{"km_h-1"}, Unit::kilometer_per_hour},
                                 std::pair{std::string_view{"m_s-1"}, Unit::meter_per_second},
                                 std::pair{std::string_view{"kt"}, Unit::knot}};

/// "wmoUnit:degC"; older answers say "unit:degC".
Unit unit_of(const JsonObject& layer) {
  const std::string text = layer.kind("uom") == "string" ? layer.text("uom") : std::string{};
  const auto colon = text.find(':');
  const std::string_view bare = std::string_view{text}.substr(colon == std::string::npos ? 0 : colon + 1);
  for (const auto& [name, unit] : known_units) {
    if (name == bare) return unit;
  }
  layer.refuse("uom", "the unit of this layer is not known here",
               "wmoUnit:degC, wmoUnit:mm, wmoUnit:percent, ...", "the numbers cannot be used without it");
}

double converted(double value, Unit unit) {
  switch (unit) {
    case Unit::fahrenheit:
    case Unit::kelvin:
      return to_temperature(value, unit).celsius();
    case Unit::kilometer_per_hour:
    case Unit::knot:
      return to_wind_speed(value, unit);
    default:
      return value;
  }
}

}  // namespace

GridLayer read_grid_layer(const JsonObject& properties, std::string_view name) {
  GridLayer result;
  if (!properties.has(name)) return result;
  const JsonObject layer = properties.object(name);
  const std::vector<JsonObject> values = layer.objects("values");
  if (values.empty()) return result;
  result.unit = unit_of(layer);
  result.values.reserve(values.size());
  for (const JsonObject& entry : values) {
    const auto span = parse_time_span(entry.text("validTime"));
    if (!span) {
      entry.refuse("validTime", "this is no interval of time as expected",
                   "a start, a slash and a duration such as 2022-02-03T21:00:00+00:00/PT4H", {});
    }
    if (entry.has("value")) result.values.push_back({*span, converted(entry.number("value"), result.unit)});
  }
  const auto earlier = [](const GridValue& a, const GridValue& b) { return a.span.start < b.span.start; };
  std::stable_sort(result.values.begin(), result.values.end(), earlier);
  for (std::size_t i = 1; i < result.values.size(); ++i) {
    if (result.values[i].span.start < result.values[i - 1].span.end())
      layer.refuse("values", "two intervals of this layer overlap", "one value at any time",
                   "fetch it again");
  }
  return result;
}

}  // namespace soilclock::weather
