// SPDX-License-Identifier: MIT
#include "advice/data/usual_air.hpp"

#include <cmath>
#include <vector>

#include "core/model_head.hpp"
#include "core/parameter.hpp"

namespace soilclock::advice {

namespace {

/// The number of steps to a cell's center; it must lie on the grid.
int steps_to(const JsonObject& row, std::string_view key, double degrees, double step) {
  const double steps = degrees / step;
  if (std::abs(steps - std::round(steps)) > 1e-6 || std::abs(degrees) > 180.0)
    row.refuse(key, "this center is off the grid", "a multiple of the step");
  return static_cast<int>(std::lround(steps));
}

}  // namespace

Result<UsualAir> read_usual_air(std::string_view text, const std::string& file) {
  return read_json(text, file, Family::request, [&](const JsonObject& top) {
    (void)read_head(top, file, "soilclock-usual-air/1");
    const FileGrounds grounds = read_file_grounds(top);
    const auto number = [&](std::string_view key, std::string_view unit, double least, double most) {
      return read_parameter(top, key, unit, {least, most}, grounds.basis).value;
    };
    UsualAir air;
    air.step_deg_ = number("step", "degrees", 0.1, 30.0);
    air.shape_error_kelvin = number("shape_error", "K", 0.01, 20.0);
    air.shape_error_elsewhere_kelvin = number("shape_error_elsewhere", "K", 0.01, 20.0);
    air.day_variance = number("day_variance", "K2 d", 0.01, 1e5);
    air.year_level_kelvin = number("year_level", "K", 0.0, 20.0);
    air.year_shape_kelvin = number("year_shape", "K", 0.0, 20.0);
    for (const JsonObject& row : top.objects("rows")) {
      const int north = steps_to(row, "latitude", row.number("latitude", -90.0, 90.0), air.step_deg_);
      const std::vector<double> longitudes = row.numbers("longitudes");
      std::vector<int> east;
      for (const double longitude : longitudes)
        east.push_back(steps_to(row, "longitudes", longitude, air.step_deg_));
      std::vector<YearShape> shapes(longitudes.size());
      std::size_t term = 0;
      for (const char* key : {"cos", "sin", "cos_2", "sin_2"}) {
        const std::vector<double> values = row.numbers(key);
        if (values.size() != longitudes.size())
          row.refuse(key, "there are not as many terms as longitudes", "one for each");
        for (std::size_t i = 0; i < values.size(); ++i) shapes[i][term] = values[i];
        ++term;
      }
      for (std::size_t i = 0; i < shapes.size(); ++i)
        air.cells_.insert_or_assign(air.cells_.end(), {north, east[i]}, shapes[i]);
      row.finish();
    }
    top.finish();
    return air;
  });
}

std::optional<YearShape> UsualAir::shape_at(const Place& place) const {
  const double north = place.latitude_deg / step_deg_;
  const double east = place.longitude_deg / step_deg_;
  const int south_row = static_cast<int>(std::floor(north));
  const int west_column = static_cast<int>(std::floor(east));
  const int whole_turn = static_cast<int>(std::lround(360.0 / step_deg_));
  YearShape sum{};
  double weights = 0.0;
  for (const int row : {south_row, south_row + 1}) {
    for (const int column : {west_column, west_column + 1}) {
      const int wrapped = column >= whole_turn / 2 ? column - whole_turn : column;
      const auto cell = cells_.find({row, wrapped});
      const double weight = (1.0 - std::abs(north - row)) * (1.0 - std::abs(east - column));
      if (cell == cells_.end() || weight <= 0.0) continue;
      for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += weight * cell->second[i];
      weights += weight;
    }
  }
  if (weights <= 0.0) return std::nullopt;
  for (double& term : sum) term /= weights;
  return sum;
}

}  // namespace soilclock::advice
