// SPDX-License-Identifier: MIT
// Which days and hours of a week are fit for spraying, by the weather alone.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/dates.hpp"
#include "core/place.hpp"
#include "core/remark.hpp"
#include "treatment/spray_rules.hpp"
#include "weather/daily_weather.hpp"

namespace soilclock::treatment {

/// What is sprayed, as far as weather matters.
enum class SprayJob {
  residual,       ///< pre alone: wants water after it
  foliar,         ///< post, and pre+post for its foliar part: wants warmth and dry leaves
  dormant_season  ///< non-selective on dormant turf: wants a warm day
};

struct SpraySite {
  Place place;
  double utc_offset_hours = 0.0;  ///< of the clock the hours are given on (standard time of the site)
  bool irrigated = false;
  bool slope_to_green = false;
  bool us_units = false;  ///< of the sentences
};

/// What stands for or against a day or an hour.
enum class SprayGate {
  wind_low,
  wind_high,
  inversion,
  drops_slow,
  drops_fast,
  cold,
  hot,
  rain,
  rain_soon,
  frozen,
  saturated,
  runoff,
  no_water,
  frost_ahead
};

struct SprayFinding {
  SprayGate gate = SprayGate::cold;
  bool stops = false;  ///< the day (or the hours concerned) is out; else a caution
  std::string text;    ///< one plain sentence
};

struct DayFitness {
  Day day{};
  bool known = false;  ///< there were values to judge by
  bool from_hours =
      false;         ///< judged by hourly values; otherwise wind, humidity and hours of rain are guesses
  bool fit = false;  ///< a usable run of at least the least length
  double usable_hours = 0.0;          ///< daytime hours in runs of at least the least length
  std::optional<double> wind_m_s;     ///< mean of the usable hours, else of the daylight; empty: not known
  std::optional<double> best_from_h;  ///< longest run, on the site's clock
  std::optional<double> best_to_h;
  std::vector<SprayFinding> findings;  ///< each gate once
};

struct WeekFitness {
  std::vector<DayFitness> days;
  double usable_hours = 0.0;
  std::optional<int> fit_days;  ///< nothing when no day could be judged
  std::vector<Remark> remarks;  ///< what was lost for want of hourly values, water or forecast
};

/// Fitness of the `count` days from `first`. `hours` in order of time; where a day has none with a
/// temperature it is judged by its daily values. From November to mid-March (south: May to mid-September)
/// damp air is a caution and does not bar hours, since it would bar whole winters. Source of the limits:
/// models/treatment/spray_day.json.
WeekFitness judge_days(Day first, int count, SprayJob job, std::span<const weather::HourlyObservation> hours,
                       const weather::DailyWeather& daily, const SpraySite& site, const SprayRules& rules);

}  // namespace soilclock::treatment
