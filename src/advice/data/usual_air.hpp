// SPDX-License-Identifier: MIT
// The shape of the usual year of air by place: models/weather/usual_air.json.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "core/place.hpp"
#include "core/problem.hpp"

namespace soilclock::advice {

/// cos, sin, cos 2 and sin 2 of the year, K: how a place's air swings around its mean.
using YearShape = std::array<double, 4>;

/// Shapes on a grid of places, and how far they and a record of so many days can be off.
class UsualAir {
 public:
  double shape_error_kelvin = 0.0;            ///< standard deviation of a term where the grid has the place
  double shape_error_elsewhere_kelvin = 0.0;  ///< where it has not, and the latitude's year stands in
  double day_variance = 0.0;                  ///< K2 d: of a term fitted to one day
  double year_level_kelvin = 0.0;             ///< standard deviation of a year's level beyond daily weather
  double year_shape_kelvin = 0.0;             ///< and of a term of its first wave

  /// The shape at a place, by straight lines between the cells around it; nothing where all of them are sea.
  std::optional<YearShape> shape_at(const Place& place) const;

 private:
  friend Result<UsualAir> read_usual_air(std::string_view text, const std::string& file);
  double step_deg_ = 1.0;
  std::map<std::pair<int, int>, YearShape> cells_;  ///< by steps north of the equator and east of Greenwich
};

/// Reads the file. Problems (request): unknown or missing keys, a wrong unit, rows of unequal length, centers
/// off the grid, a number out of range or without grounds.
Result<UsualAir> read_usual_air(std::string_view text, const std::string& file);

}  // namespace soilclock::advice
