// SPDX-License-Identifier: MIT
// One layer of a forecast grid: values that hold for intervals.
#pragma once

#include <string_view>
#include <vector>

#include "core/json_reader.hpp"
#include "weather/columns/heading_meaning.hpp"
#include "weather/services/iso_interval.hpp"

namespace soilclock::weather {

struct GridValue {
  TimeSpan span;
  double value = 0.0;  ///< Celsius, mm, percent, m/s
};

/// A layer in time order without the intervals whose value is null; empty when the office does not run it.
struct GridLayer {
  Unit unit = Unit::none;
  std::vector<GridValue> values;
};

/// Reads a layer of the properties of a grid. Throws JsonProblem: a unit not known here, an interval that
/// cannot be read, values that are no numbers, intervals that overlap.
GridLayer read_grid_layer(const JsonObject& properties, std::string_view name);

}  // namespace soilclock::weather
