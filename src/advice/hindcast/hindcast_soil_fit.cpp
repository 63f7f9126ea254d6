// SPDX-License-Identifier: MIT
#include "advice/hindcast/hindcast_soil_fit.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "soil/soil_error.hpp"

namespace soilclock::advice {

namespace {

constexpr double not_known = std::numeric_limits<double>::quiet_NaN();
constexpr int year_days = 365;

std::size_t slot(Day day) { return static_cast<std::size_t>(std::min(day_of_year(day), year_days)); }

/// Means by day of year over so many days either way; values are those of the days from `first` on,
/// not-a-number where unknown.
std::array<double, 367> usual_course(const std::vector<double>& values, Day first, int half_window) {
  std::array<double, 367> sum{};
  std::array<double, 367> count{};
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (std::isnan(values[i])) continue;
    const std::size_t at = slot(first + Days{static_cast<int>(i)});
    sum[at] += values[i];
    count[at] += 1.0;
  }
  std::array<double, 367> smooth{};
  for (int day = 1; day <= year_days; ++day) {
    double total = 0.0;
    double days = 0.0;
    for (int away = -half_window; away <= half_window; ++away) {
      const auto at = static_cast<std::size_t>((day + away + year_days - 1) % year_days + 1);
      total += sum[at];
      days += count[at];
    }
    smooth[static_cast<std::size_t>(day)] = total / days;
  }
  return smooth;
}

double covariance(const std::vector<double>& values, std::size_t lag) {
  double sum = 0.0;
  double count = 0.0;
  for (std::size_t i = lag; i < values.size(); ++i) {
    const double product = values[i] * values[i - lag];
    if (std::isnan(product)) continue;
    sum += product;
    count += 1.0;
  }
  return count > 0.0 ? sum / count : 0.0;
}

}  // namespace

Temperature SiteSoilFit::bias_corrected(Day day, Temperature estimate) const {
  return estimate - TemperatureDelta::from_kelvin(usual_error_k[slot(day)]);
}

std::optional<SiteSoilFit> fit_site_soil(const DailySeries<Temperature>& estimate,
                                         const DailySeries<Temperature>& readings, Day before,
                                         Hemisphere hemisphere, const soil::SoilErrorModel& general,
                                         const SiteFitRules& rules) {
  const DayRange years{before - Days{rules.years * year_days + rules.years / 4}, before};
  std::vector<double> errors;
  int known = 0;
  for (Day day = years.begin(); day < years.end(); day += Days{1}) {
    const auto guess = estimate.at(day);
    const auto read = readings.at(day);
    errors.push_back(guess && read ? (*guess - *read).kelvin() : not_known);
    known += guess && read ? 1 : 0;
  }
  if (known < rules.known_share * years.size()) return std::nullopt;
  SiteSoilFit fit{usual_course(errors, years.begin(), rules.smoothing_days), general};
  for (std::size_t i = 0; i < errors.size(); ++i) {
    const Day day = years.begin() + Days{static_cast<int>(i)};
    errors[i] = (errors[i] - fit.usual_error_k[slot(day)]) / soil::season_factor(general, day, hemisphere);
  }
  const double whole = covariance(errors, 0);
  const double slow_keep = std::exp(-1.0 / general.slow_days);
  const double least = rules.variance_least_k2;
  const double slow = std::max(0.0, covariance(errors, static_cast<std::size_t>(rules.slow_lag_days))) /
                      std::pow(slow_keep, rules.slow_lag_days);
  fit.error.constant_variance = 0.0;
  fit.error.slow_variance = std::clamp(slow, least, std::max(least, whole));
  fit.error.fast_variance = std::max(least, whole - fit.error.slow_variance);
  const double fast_next_day = covariance(errors, 1) - fit.error.slow_variance * slow_keep;
  fit.error.fast_lag1 = std::clamp(fast_next_day / fit.error.fast_variance, 0.0, rules.fast_lag1_most);
  return fit;
}

}  // namespace soilclock::advice
