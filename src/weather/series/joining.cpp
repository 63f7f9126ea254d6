// SPDX-License-Identifier: MIT
#include "weather/series/joining.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
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

/// Adds the days of a later part that the earlier ones lack; collects the days on which both speak
/// differently.
template <class Series>
void add_series(Series& into, const Series& from, std::set<Day>& different) {
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
Series series_to_come(const Series& forecast, std::optional<Day> last_measured) {
  Series result;
  for (Day day = forecast.days().begin(); day < forecast.days().end(); day += Days{1}) {
    const auto value = forecast.at(day);
    if (value && (!last_measured || day > *last_measured)) result.set(day, *value, Quality::forecast);
  }
  return result;
}

/// The days of a forecast after the last measured one.
DailyWeather to_come(const DailyWeather& forecast, std::optional<Day> last_measured) {
  DailyWeather result;
  result.air_min = series_to_come(forecast.air_min, last_measured);
  result.air_max = series_to_come(forecast.air_max, last_measured);
  result.rain = series_to_come(forecast.rain, last_measured);
  for (const auto& [depth, series] : forecast.soil)
    result.soil[depth] = series_to_come(series, last_measured);
  return result;
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

Contribution contribution(const std::string& name, const DailyWeather& joined, const DailyWeather& part) {
  Contribution result{name, 0, {}};
  for (Day day = part.air_min.days().begin(); day < part.air_min.days().end(); day += Days{1}) {
    const bool adds =
        part.air_min.at(day) && part.air_max.at(day) && !(joined.air_min.at(day) && joined.air_max.at(day));
    if (!adds) continue;
    ++result.days;
    result.last = day;
  }
  return result;
}

Remark sources_joined(const std::vector<Contribution>& parts) {
  std::string list;
  for (const Contribution& part : parts) {
    if (part.days == 0) continue;
    list += fmt::format("{}{} ({} {}, the last on {})", list.empty() ? "" : ", then ", part.name, part.days,
                        part.days == 1 ? "day" : "days", iso(*part.last));
  }
  return {"joined-from", "The weather is joined from " + list + "."};
}

/// Days on which the lone extreme of an earlier part and the other one of a later part are reversed.
struct Reversed {
  int replaced = 0;  ///< the later part knows both: both are its own
  int left_out = 0;  ///< it does not: its value is left out
};

Remark reversed_remark(const std::string& earlier, const std::string& later, const Reversed& days) {
  const int all = days.replaced + days.left_out;
  std::string remedy;
  if (days.left_out == 0)
    remedy = fmt::format("both extremes are taken from {}", later);
  else if (days.replaced == 0)
    remedy = fmt::format("only the value of {} is used", earlier);
  else
    remedy = fmt::format("on {} both extremes are taken from {}, on {} only the value of {} is used",
                         days.replaced, later, days.left_out, earlier);
  return {"extremes-reversed",
          fmt::format("On {} {} {} and {} together would put the minimum above the maximum; {}.", all,
                      all == 1 ? "day" : "days", earlier, later, remedy)};
}

/// The weather of a site while part after part is added, the most trusted first.
class Joining {
 public:
  void add_station(const WeatherPart& part, std::optional<Day> on);
  /// Once, between the stations and the forecasts.
  void end_stations(std::optional<Day> on);
  void add_forecast(const WeatherPart& part);
  JoinedWeather result(bool name_sources);

 private:
  void note_clock(const WeatherPart& part);
  bool continues(const WeatherPart& forecast);
  std::set<Day> add(const std::string& name, DailyWeather weather, const std::string& role);
  void settle_reversed(const std::string& name, DailyWeather& later);
  void note_lone_extremes(const std::string& name, const DailyWeather& added);

  JoinedWeather joined_;
  const WeatherPart* first_ = nullptr;
  std::vector<Contribution> contributions_;
  std::map<Day, std::string> lone_extremes_;  ///< days that one part left with one extreme, and its name
};

void Joining::note_clock(const WeatherPart& part) {
  if (first_ == nullptr) {
    first_ = &part;
    joined_.weather.day_definition = part.weather.day_definition;
  } else if (part.weather.day_definition != first_->weather.day_definition &&
             part.weather.day_definition != unsaid && first_->weather.day_definition != unsaid) {
    joined_.remarks.push_back(
        {"day-definitions-differ",
         fmt::format("days of {} are cut by another clock ({}) than those of {} ({}); single days can differ",
                     part.name, part.weather.day_definition, first_->name, first_->weather.day_definition)});
  }
}

/// Sees to it that no day gets its extremes reversed from two parts, before the later one is added.
void Joining::settle_reversed(const std::string& name, DailyWeather& later) {
  DailyWeather& earlier = joined_.weather;
  std::map<std::string, Reversed> found;
  for (const auto& [day, lone] : lone_extremes_) {
    const auto low = earlier.air_min.at(day);
    const auto high = earlier.air_max.at(day);
    if (low && high) continue;
    const auto later_low = later.air_min.at(day);
    const auto later_high = later.air_max.at(day);
    const auto minimum = low ? low : later_low;
    const auto maximum = high ? high : later_high;
    if (!minimum || !maximum || *minimum <= *maximum) continue;
    if (later_low && later_high && *later_low <= *later_high) {
      earlier.air_min.clear(day);
      earlier.air_max.clear(day);
      ++found[lone].replaced;
    } else {
      (low ? later.air_max : later.air_min).clear(day);
      ++found[lone].left_out;
    }
  }
  for (const auto& [lone, days] : found) joined_.remarks.push_back(reversed_remark(lone, name, days));
}

void Joining::note_lone_extremes(const std::string& name, const DailyWeather& added) {
  const auto note = [&](const DailySeries<Temperature>& one, const DailySeries<Temperature>& other) {
    for (Day day = one.days().begin(); day < one.days().end(); day += Days{1}) {
      if (one.at(day) && !other.at(day)) lone_extremes_.emplace(day, name);
    }
  };
  note(added.air_min, joined_.weather.air_max);
  note(added.air_max, joined_.weather.air_min);
}

/// Adds what the earlier parts lack; returns the days on which they say something else.
std::set<Day> Joining::add(const std::string& name, DailyWeather weather, const std::string& role) {
  settle_reversed(name, weather);
  contributions_.push_back(contribution(name + role, joined_.weather, weather));
  std::set<Day> different;
  add_series(joined_.weather.air_min, weather.air_min, different);
  add_series(joined_.weather.air_max, weather.air_max, different);
  add_series(joined_.weather.rain, weather.rain, different);
  for (const auto& [depth, series] : weather.soil) add_series(joined_.weather.soil[depth], series, different);
  note_lone_extremes(name, weather);
  return different;
}

void Joining::add_station(const WeatherPart& part, std::optional<Day> on) {
  note_clock(part);
  DailyWeather station = part.weather;
  if (on) joined_.ignored_days += cut_before(station, *on);
  const std::set<Day> different = add(part.name, std::move(station), "");
  if (different.empty() || !part.service.empty()) return;
  joined_.remarks.push_back(
      {"stations-differ",
       fmt::format(
           "{} differs from the files named before it on {} {}; the values of the earlier ones are used",
           part.name, different.size(), different.size() == 1 ? "day" : "days")});
}

void Joining::end_stations(std::optional<Day> on) {
  joined_.last_measured = last_whole_day(joined_.weather, false);
  const int ignored = joined_.ignored_days;
  if (!on || ignored == 0) return;
  joined_.remarks.push_back({"later-rows-ignored", fmt::format("{} measured {} on or after {} {} ignored",
                                                               ignored, ignored == 1 ? "day" : "days",
                                                               iso(*on), ignored == 1 ? "is" : "are")});
}

/// Whether a forecast begins where the measured weather ends; a remark says so when it does not.
bool Joining::continues(const WeatherPart& forecast) {
  const auto begins = first_day_after(forecast.weather, joined_.last_measured);
  if (!begins || !joined_.last_measured || *begins - *joined_.last_measured <= longest_step_to_forecast)
    return true;
  joined_.remarks.push_back(
      {"forecast-detached",
       fmt::format("{} begins on {}, days after the measured weather ends on {}; it is not used",
                   forecast.name, iso(*begins), iso(*joined_.last_measured))});
  return false;
}

void Joining::add_forecast(const WeatherPart& part) {
  if (!continues(part)) return;
  note_clock(part);
  add(part.name, to_come(part.weather, joined_.last_measured), ", to come");
}

JoinedWeather Joining::result(bool name_sources) {
  joined_.last_forecast = last_whole_day(joined_.weather, true);
  if (name_sources) joined_.remarks.push_back(sources_joined(contributions_));
  return std::move(joined_);
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
  Joining joining;
  for (const WeatherPart& part : parts) {
    if (!part.forecast) joining.add_station(part, on);
  }
  joining.end_stations(on);
  for (const WeatherPart& part : parts) {
    if (part.forecast) joining.add_forecast(part);
  }
  return joining.result(
      std::any_of(parts.begin(), parts.end(), [](const WeatherPart& part) { return !part.service.empty(); }));
}

}  // namespace soilclock::weather
