// SPDX-License-Identifier: MIT
#include "weather/joining.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace soilclock::weather {

namespace {

/// Differences smaller than rounding to a tenth of a Fahrenheit degree or a hundredth of an inch are no conflict.
bool same(Temperature a, Temperature b) { return std::abs((a - b).kelvin()) < 0.11; }
bool same(Rain a, Rain b) { return std::abs(a.mm() - b.mm()) < 0.3; }

template <class Value>
void add_station(DailySeries<Value>& into, const DailySeries<Value>& from, Day on, std::set<Day>& conflicts,
                 std::set<Day>& ignored) {
  for (Day day = from.days().begin(); day < from.days().end(); day += Days{1}) {
    const auto value = from.at(day);
    if (!value) continue;
    if (day >= on) {
      ignored.insert(day);
    } else if (const auto known = into.at(day)) {
      if (!same(*known, *value)) conflicts.insert(day);
    } else {
      into.set(day, *value, from.quality(day));
    }
  }
}

template <class Value>
void add_forecast(DailySeries<Value>& into, const DailySeries<Value>& from, Day after) {
  for (Day day = std::max(after, from.days().begin()); day < from.days().end(); day += Days{1}) {
    const auto value = from.at(day);
    if (value && !into.at(day)) into.set(day, *value, Quality::forecast);
  }
}

std::optional<Day> last_whole_day(const DailyWeather& daily) {
  const DailySeries<Temperature> mean = air_mean(daily);
  for (Day day = mean.days().end(); day > mean.days().begin(); day -= Days{1}) {
    if (mean.at(day - Days{1})) return day - Days{1};
  }
  return std::nullopt;
}

}  // namespace

JoinedWeather join(const std::vector<RoledWeather>& files, Day on) {
  JoinedWeather joined;
  std::set<Day> conflicts;
  std::set<Day> ignored;
  for (const RoledWeather& file : files) {
    if (file.forecast) continue;
    add_station(joined.daily.air_min, file.daily.air_min, on, conflicts, ignored);
    add_station(joined.daily.air_max, file.daily.air_max, on, conflicts, ignored);
    add_station(joined.daily.rain, file.daily.rain, on, conflicts, ignored);
    for (const auto& [depth, series] : file.daily.soil) {
      add_station(joined.daily.soil[depth], series, on, conflicts, ignored);
    }
    if (joined.daily.day_definition == DailyWeather{}.day_definition) joined.daily.day_definition = file.daily.day_definition;
  }
  joined.ignored_days = static_cast<int>(ignored.size());
  joined.last_measured = last_whole_day(joined.daily);
  const Day forecast_from = joined.last_measured ? *joined.last_measured + Days{1} : on;
  for (const RoledWeather& file : files) {
    if (!file.forecast) continue;
    add_forecast(joined.daily.air_min, file.daily.air_min, forecast_from);
    add_forecast(joined.daily.air_max, file.daily.air_max, forecast_from);
    add_forecast(joined.daily.rain, file.daily.rain, forecast_from);
  }
  const auto last = last_whole_day(joined.daily);
  if (last && joined.daily.air_min.quality(*last) == Quality::forecast) joined.last_forecast = last;
  if (!conflicts.empty()) {
    joined.remarks.push_back({"files-disagree",
                              fmt::format("Two files hold different values for {} day{} (first on {}); the file named first was used.",
                                          conflicts.size(), conflicts.size() == 1 ? "" : "s", iso(*conflicts.begin()))});
  }
  if (joined.ignored_days > 0) {
    joined.remarks.push_back({"later-days-ignored", fmt::format("{} day{} measured on or after {} {} not used.", joined.ignored_days,
                                                                joined.ignored_days == 1 ? "" : "s", iso(on),
                                                                joined.ignored_days == 1 ? "was" : "were")});
  }
  return joined;
}

}  // namespace soilclock::weather
