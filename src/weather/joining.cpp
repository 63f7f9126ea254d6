// SPDX-License-Identifier: MIT
#include "weather/joining.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string_view>

namespace soilclock::weather {

namespace {

/// Half of the last digit that files usually print.
constexpr double alike = 0.05;

/// A forecast may begin so many days after the last measured one: the hole between is then short enough to be
/// closed by a straight line (see gaps.hpp). One that begins later is no continuation.
constexpr Days longest_step_to_forecast{4};
/// The day definition of a file that does not say which clock cuts its days.
constexpr std::string_view unsaid = "as printed";

double size_of_difference(Temperature a, Temperature b) { return std::abs((a - b).kelvin()); }
double size_of_difference(Rain a, Rain b) { return std::abs(a.mm() - b.mm()); }

template <class Series>
void cut_series(Series& series, Day on, std::set<Day>& cut) {
  for (Day day = std::max(on, series.days().begin()); day < series.days().end(); day += Days{1}) {
    const Quality quality = series.quality(day);
    if (quality == Quality::missing || quality == Quality::forecast) continue;
    cut.insert(day);
    series.clear(day);
  }
  // Without its empty end the series does not seem to have a hole there.
  Day end = series.days().end();
  while (end > on && end > series.days().begin() && series.quality(end - Days{1}) == Quality::missing)
    end -= Days{1};
  if (end < series.days().end()) series = series.slice(DayRange{series.first(), end});
}

/// Adds the days of a later station that the earlier ones lack; collects the days on which both speak
/// differently.
template <class Series>
void add_station(Series& into, const Series& from, std::set<Day>& different) {
  for (Day day = from.days().begin(); day < from.days().end(); day += Days{1}) {
    const auto value = from.at(day);
    if (!value) continue;
    if (const auto present = into.at(day)) {
      if (size_of_difference(*present, *value) > alike) different.insert(day);
    } else {
      into.set(day, *value, from.quality(day));
    }
  }
}

template <class Series>
void add_forecast(Series& into, const Series& from, std::optional<Day> last_measured) {
  for (Day day = from.days().begin(); day < from.days().end(); day += Days{1}) {
    const auto value = from.at(day);
    if (value && (!last_measured || day > *last_measured) && !into.at(day))
      into.set(day, *value, Quality::forecast);
  }
}

std::optional<Day> last_whole_day(const DailyWeather& weather, bool forecast) {
  std::optional<Day> last;
  for (Day day = weather.air_min.days().begin(); day < weather.air_min.days().end(); day += Days{1}) {
    if (!weather.air_min.at(day) || !weather.air_max.at(day)) continue;
    const bool is_forecast = weather.air_min.quality(day) == Quality::forecast ||
                             weather.air_max.quality(day) == Quality::forecast;
    if (is_forecast == forecast) last = day;
  }
  return last;
}

/// First day after `after` with both extremes.
std::optional<Day> first_day_after(const DailyWeather& weather, std::optional<Day> after) {
  for (Day day = weather.air_min.days().begin(); day < weather.air_min.days().end(); day += Days{1}) {
    if (weather.air_min.at(day) && weather.air_max.at(day) && (!after || day > *after)) return day;
  }
  return std::nullopt;
}

/// Whole days a part adds to what the parts before it gave.
struct Contribution {
  std::string name;
  int days = 0;
  std::optional<Day> last;
};

Contribution contribution(const std::string& name, const DailyWeather& joined, const DailyWeather& part,
                          std::optional<Day> after = {}) {
  Contribution result{name, 0, {}};
  for (Day day = part.air_min.days().begin(); day < part.air_min.days().end(); day += Days{1}) {
    const bool adds = part.air_min.at(day) && part.air_max.at(day) && (!after || day > *after) &&
                      !(joined.air_min.at(day) && joined.air_max.at(day));
    if (!adds) continue;
    ++result.days;
    result.last = day;
  }
  return result;
}

Remark seams(const std::vector<Contribution>& parts) {
  std::string list;
  for (const Contribution& part : parts) {
    if (part.days == 0) continue;
    list += fmt::format("{}{} ({} {}, the last on {})", list.empty() ? "" : ", then ", part.name, part.days,
                        part.days == 1 ? "day" : "days", iso(*part.last));
  }
  return {"joined-from", "The weather is joined from " + list + "."};
}

}  // namespace

int cut_before(DailyWeather& weather, Day on) {
  std::set<Day> cut;
  cut_series(weather.air_min, on, cut);
  cut_series(weather.air_max, on, cut);
  cut_series(weather.rain, on, cut);
  for (auto& [depth, series] : weather.soil) cut_series(series, on, cut);
  return static_cast<int>(cut.size());
}

JoinedWeather join_weather(const std::vector<WeatherPart>& parts, std::optional<Day> on) {
  JoinedWeather joined;
  const WeatherPart* first = nullptr;
  const auto note_clock = [&](const WeatherPart& part) {
    if (first == nullptr) {
      first = &part;
      joined.weather.day_definition = part.weather.day_definition;
    } else if (part.weather.day_definition != first->weather.day_definition &&
               part.weather.day_definition != unsaid && first->weather.day_definition != unsaid) {
      joined.remarks.push_back(
          {"day-definitions-differ",
           fmt::format(
               "days of {} are cut by another clock ({}) than those of {} ({}); single days can differ",
               part.name, part.weather.day_definition, first->name, first->weather.day_definition)});
    }
  };
  std::set<Day> different;
  std::vector<Contribution> contributions;
  for (const WeatherPart& part : parts) {
    if (part.forecast) continue;
    note_clock(part);
    DailyWeather station = part.weather;
    if (on) joined.ignored_days += cut_before(station, *on);
    contributions.push_back(contribution(part.name, joined.weather, station));
    different.clear();
    add_station(joined.weather.air_min, station.air_min, different);
    add_station(joined.weather.air_max, station.air_max, different);
    add_station(joined.weather.rain, station.rain, different);
    for (const auto& [depth, series] : station.soil)
      add_station(joined.weather.soil[depth], series, different);
    if (!different.empty() && !part.from_service) {
      joined.remarks.push_back(
          {"stations-differ",
           fmt::format(
               "{} differs from the files named before it on {} {}; the values of the earlier ones are used",
               part.name, different.size(), different.size() == 1 ? "day" : "days")});
    }
  }
  if (on && joined.ignored_days > 0) {
    joined.remarks.push_back(
        {"later-rows-ignored", fmt::format("{} measured {} on or after {} {} ignored", joined.ignored_days,
                                           joined.ignored_days == 1 ? "day" : "days", iso(*on),
                                           joined.ignored_days == 1 ? "is" : "are")});
  }
  joined.last_measured = last_whole_day(joined.weather, false);
  for (const WeatherPart& part : parts) {
    if (!part.forecast) continue;
    const auto begins = first_day_after(part.weather, joined.last_measured);
    if (begins && joined.last_measured && *begins - *joined.last_measured > longest_step_to_forecast) {
      joined.remarks.push_back(
          {"forecast-detached",
           fmt::format("{} begins on {}, days after the measured weather ends on {}; it is not used",
                       part.name, iso(*begins), iso(*joined.last_measured))});
      continue;
    }
    note_clock(part);
    contributions.push_back(
        contribution(part.name + ", to come", joined.weather, part.weather, joined.last_measured));
    add_forecast(joined.weather.air_min, part.weather.air_min, joined.last_measured);
    add_forecast(joined.weather.air_max, part.weather.air_max, joined.last_measured);
    add_forecast(joined.weather.rain, part.weather.rain, joined.last_measured);
    for (const auto& [depth, series] : part.weather.soil)
      add_forecast(joined.weather.soil[depth], series, joined.last_measured);
  }
  joined.last_forecast = last_whole_day(joined.weather, true);
  if (std::any_of(parts.begin(), parts.end(), [](const WeatherPart& part) { return part.from_service; }))
    joined.remarks.push_back(seams(contributions));
  return joined;
}

}  // namespace soilclock::weather
