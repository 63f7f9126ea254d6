// SPDX-License-Identifier: MIT
// Dated counts of yellow foxtail in one turf sward, 2008, and the soil series that lies beside them.
#pragma once

#include <algorithm>
#include <cmath>
#include <fstream>
#include <random>
#include <span>
#include <string>
#include <vector>

#include "core/text.hpp"
#include "emergence/member_run.hpp"
#include "soil/surface_water.hpp"
#include "support/record_files.hpp"

namespace soilclock::emergence {

inline const Place plots_place{45.35, 11.95, {}};
inline const Day january_1 = make_day(2008, 1, 1);

/// The numbers of a column of a table without quotes; an empty cell is not a number.
inline std::vector<double> column(const std::string& file, std::size_t index) {
  std::ifstream input{tests::record_folder("emergence/turf_plots_2008") / file};
  std::vector<double> numbers;
  std::string line;
  std::getline(input, line);
  while (std::getline(input, line)) {
    std::size_t from = 0;
    for (std::size_t i = 0; i < index; ++i) from = line.find(',', from) + 1;
    numbers.push_back(
        parse_number(trimmed(line.substr(from, line.find(',', from) - from))).value_or(std::nan("")));
  }
  return numbers;
}

/// A daily value over lead-in and the 366 days of the season; what lies outside the file stands still.
template <class Value>
std::vector<Value> over_season(const std::vector<double>& numbers, Value (*of)(double)) {
  std::vector<Value> values;
  for (int day = -lead_in_days; day < 366; ++day) {
    const auto at = std::clamp<std::ptrdiff_t>(day, 0, std::ssize(numbers) - 1);
    values.push_back(of(numbers[static_cast<std::size_t>(at)]));
  }
  return values;
}

/// The soil and surface of that year.
struct Plots {
  std::vector<Temperature> soil =
      over_season(column("soil_daily_simulated.csv", 5), Temperature::from_celsius);
  std::vector<WaterPotential> water =
      over_season(column("soil_daily_simulated.csv", 8), WaterPotential::from_mpa);
  std::vector<Temperature> low =
      over_season(column("soil_daily_simulated.csv", 2), Temperature::from_celsius);
  std::vector<Temperature> high =
      over_season(column("soil_daily_simulated.csv", 3), Temperature::from_celsius);
  std::vector<Rain> rain = over_season(column("soil_daily_simulated.csv", 1), Rain::from_mm);
  std::vector<Rain> week_water = week_of_water(rain, {}, 4);

  SeasonDrivers drivers(std::span<const WaterPotential> by) const {
    return {season_of(january_1, SeasonKind::summer, Hemisphere::north),
            {},
            soil,
            soil,
            soil,
            week_water,
            {0.9},
            by};
  }
  /// The water of the program's own layer; extremes of the surface stand in for those of the air.
  std::vector<WaterPotential> layer_water(const soil::SurfaceWaterRules& rules) const {
    std::vector<Temperature> mean;
    for (std::size_t i = 0; i < low.size(); ++i) mean.push_back(midpoint(low[i], high[i]));
    return soil::surface_water(rules, soil::Texture::loam,
                               {january_1 - Days{lead_in_days}, plots_place.latitude_deg, mean, high, rain},
                               Rain::from_mm(0.0));
  }
};

struct Count {
  int season_day;
  double percent;
};

inline std::vector<Count> foxtail_counts() {
  const std::vector<double> days = column("SETPU_cumulative_percent.csv", 1);
  const std::vector<double> percents = column("SETPU_cumulative_percent.csv", 2);
  std::vector<Count> counts;
  for (std::size_t i = 0; i < days.size(); ++i)
    counts.push_back({static_cast<int>(days[i]) - 1, percents[i]});
  return counts;
}

/// Nash & Sutcliffe's efficiency: 1 is perfect, 0 no better than the mean of the counts.
inline double efficiency(const EmergenceCurve& curve, const std::vector<Count>& counts) {
  double mean = 0.0;
  for (const Count& count : counts) mean += count.percent / static_cast<double>(counts.size());
  double left = 0.0;
  double all = 0.0;
  for (const Count& count : counts) {
    left += std::pow(count.percent - 100.0 * curve.at(count.season_day), 2);
    all += std::pow(count.percent - mean, 2);
  }
  return 1.0 - left / all;
}

/// Courses of a model with its parameters drawn, each parameter evenly over its spread.
inline std::vector<EmergenceCurve> drawn_courses(const EmergenceModel& model, const SeasonDrivers& drivers) {
  constexpr std::size_t courses = 400;
  std::mt19937 order{7};
  std::vector<std::vector<double>> draws;
  for (std::size_t p = 0; p < model.parameters.size(); ++p) {
    std::vector<double> even(courses);
    for (std::size_t i = 0; i < courses; ++i) even[i] = (static_cast<double>(i) + 0.5) / courses;
    std::shuffle(even.begin(), even.end(), order);
    draws.push_back(std::move(even));
  }
  std::vector<EmergenceCurve> result;
  for (std::size_t i = 0; i < courses; ++i) {
    const DrawnModel drawn{&model, drawn_parameters(model, [&](std::size_t p) { return draws[p][i]; })};
    result.push_back(run_member(drawn, nullptr, drivers, plots_place));
  }
  return result;
}

/// Whether the middle four fifths of the courses hold a count, as exactly as it is printed.
inline bool held(const std::vector<EmergenceCurve>& courses, const Count& count) {
  constexpr double half_of_last_digit = 0.05;
  std::vector<double> percents;
  for (const EmergenceCurve& curve : courses) percents.push_back(100.0 * curve.at(count.season_day));
  std::sort(percents.begin(), percents.end());
  const std::size_t tenth = percents.size() / 10;
  return count.percent >= percents[tenth] - half_of_last_digit &&
         count.percent <= percents[percents.size() - 1 - tenth] + half_of_last_digit;
}

}  // namespace soilclock::emergence
