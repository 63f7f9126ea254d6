// SPDX-License-Identifier: MIT
#include "advice/hindcast/hindcast_crossing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>

#include "advice/futures/futures.hpp"
#include "advice/futures/stratified_draws.hpp"
#include "core/unit_words.hpp"
#include "soil/soil_temperature.hpp"

namespace soilclock::advice {

namespace {

constexpr int mean_days = thermal::trailing_days;

/// First index from `from` on whose mean over the seven days up to it is on the side; the values begin six
/// days before index 0.
template <class OnSide>
std::optional<int> first_on_side(std::span<const double> values, OnSide on_side) {
  double sum = 0.0;
  for (int i = 0; i < mean_days - 1; ++i) sum += values[static_cast<std::size_t>(i)];
  for (std::size_t i = mean_days - 1; i < values.size(); ++i) {
    sum += values[i];
    if (on_side(sum / mean_days)) return static_cast<int>(i) - (mean_days - 1);
    sum -= values[i - (mean_days - 1)];
  }
  return std::nullopt;
}

/// The soil estimate as it stood on a morning, its error, and the air behind it.
struct HistoryUntil {
  SiteWeather site;
  DailySeries<Temperature> air;
  soil::SoilTemperature soil;
};

/// Soil (before its error) and air of one possible future, from seven days before the issue date to the end
/// of the window: the mean of the day before must be known, too.
struct PossibleTrace {
  std::vector<double> soil_c;
  std::vector<double> air_c;
};

PossibleTrace trace_of(const HistoryUntil& known, const Future& future, DayRange days) {
  PossibleTrace trace;
  soil::SoilState state = known.soil.state.value_or(soil::SoilState{});
  for (Day day = days.begin(); day < std::min(known.site.outlook_start, days.end()); day += Days{1}) {
    trace.air_c.push_back(known.air.at(day).value_or(Temperature::unknown()).celsius());
    trace.soil_c.push_back(known.soil.estimate.at(day).value_or(Temperature::unknown()).celsius());
  }
  for (std::size_t i = 0; i < future.air_min.size(); ++i) {
    const Day day = known.site.outlook_start + Days{static_cast<int>(i)};
    const Temperature mean = midpoint(future.air_min[i], future.air_max[i]);
    const Temperature soil = known.soil.estimator.step(state, day, mean);
    if (!days.contains(day)) continue;
    trace.air_c.push_back(mean.celsius());
    trace.soil_c.push_back(soil.celsius());
  }
  return trace;
}

}  // namespace

CrossingSubject::CrossingSubject(const SiteHistory& history, const Catalogue& catalogue,
                                 SoilCrossing crossing, HindcastRun run)
    : history_{history}, catalogue_{catalogue}, crossing_{crossing}, run_{run} {}

SeasonKind CrossingSubject::kind() const {
  return crossing_.side == thermal::Side::at_or_below ? SeasonKind::fall : SeasonKind::summer;
}

int CrossingSubject::after_window() const { return catalogue_.practice.hindcast.soil_window_days; }

std::vector<HindcastSubject::Event> CrossingSubject::events() const {
  return {{"soil-crossing",
           fmt::format("the 7-day mean of soil at {} {} {}", depth_words(crossing_.depth, history_.us_units),
                       crossing_.side == thermal::Side::at_or_below ? "falls to" : "rises to",
                       temperature_words(crossing_.level, history_.us_units)),
           true}};
}

bool CrossingSubject::on_side(double celsius) const {
  return crossing_.side == thermal::Side::at_or_below ? celsius <= crossing_.level.celsius()
                                                      : celsius >= crossing_.level.celsius();
}

const DailySeries<Temperature>* CrossingSubject::readings(const weather::DailyWeather& daily) const {
  for (const auto& [depth, series] : daily.soil) {
    if (catalogue_.soil.rules().same_depth(depth, crossing_.depth) && !series.empty()) return &series;
  }
  return nullptr;
}

std::vector<std::optional<Outcome>> CrossingSubject::outcome(const Season& season) const {
  const DayRange window{season.first, season.first + Days{after_window()}};
  DailySeries<Temperature> soil;
  if (const auto* measured = readings(history_.daily)) {
    soil = measured->slice({window.begin() - Days{mean_days}, window.end()});
  } else {
    const SiteWeather site = known_on(history_, std::min(window.end(), history_.end), 0, catalogue_.futures);
    const soil::SoilSite soil_site{site.place, crossing_.depth, site.soil_offset, {}, {}, site.us_units};
    soil = soil::soil_temperature(catalogue_.soil, soil_site, weather::air_mean(site.daily)).estimate;
  }
  const DailySeries<Temperature> means =
      thermal::trailing_mean(soil, window, catalogue_.practice.weekly_means.temperature_days);
  bool other_side_seen = false;
  for (Day day = window.begin(); day < window.end(); day += Days{1}) {
    const auto mean = means.at(day);
    if (!mean) return {std::nullopt};
    if (!on_side(mean->celsius()))
      other_side_seen = true;
    else if (other_side_seen)
      return {Outcome{season.day_of_season(day)}};
  }
  // Never on the other side: there was nothing to pass.
  return {other_side_seen ? std::optional<Outcome>{std::in_place} : std::nullopt};
}

std::vector<IssuedForecast> CrossingSubject::issued(const Season& season, Day day) const {
  const DayRange days{day - Days{mean_days}, season.first + Days{after_window()}};
  SiteWeather known = known_on(history_, day, run_.known_ahead, catalogue_.futures);
  const DailySeries<Temperature>* at_depth = readings(known.daily);
  const DailySeries<Temperature> measured = at_depth != nullptr ? *at_depth : DailySeries<Temperature>{};
  if (!run_.with_readings) known = with_readings_before(std::move(known), season.first);
  const DailySeries<Temperature> air = weather::air_mean(known.daily);
  if (!air.at(days.begin()) || known.outlook_start <= days.begin()) return {IssuedForecast{}};
  const HistoryUntil history{
      known, air,
      soil::soil_temperature(catalogue_.soil,
                             {known.place, crossing_.depth, known.soil_offset, known.daily.soil, known.spots},
                             air.slice({air.first(), known.outlook_start}))};
  const soil::ConditionedSoilError error{history.soil.error, known.place.hemisphere(), days,
                                         history.soil.readings};
  const Futures futures = possible_futures(known.daily, known.place, known.outlook_start, days.end(),
                                           catalogue_.futures, run_.seed);
  std::vector<PossibleTrace> traces;
  std::vector<std::optional<int>> air_days;
  const int offset = season.day_of_season(day);
  const auto in_season = [&](std::optional<int> index) {
    return index ? std::optional{*index + offset} : std::nullopt;
  };
  const auto side = [this](double celsius) { return on_side(celsius); };
  for (const Future& future : futures.all) {
    traces.push_back(trace_of(history, future, days));
    // A level the air passed long ago is forecast for today: the soil, all know, has not passed it yet.
    air_days.push_back(in_season(first_on_side(std::span{traces.back().air_c}.subspan(1), side)));
  }
  const StratifiedDraws draws{run_.seed, run_.members};
  const RandomField random{run_.seed};
  std::vector<std::optional<int>> own_days;
  for (int member = 0; member < run_.members; ++member) {
    const double draw = draws.of("future")[static_cast<std::size_t>(member)];
    std::vector<double> soil =
        traces[static_cast<std::size_t>(draw * static_cast<double>(traces.size()))].soil_c;
    const auto errors = error.draw(random, static_cast<std::uint64_t>(member));
    for (std::size_t i = 0; i < soil.size(); ++i) {
      const Day at = days.begin() + Days{static_cast<int>(i)};
      const auto read = run_.with_readings && at < day ? measured.at(at) : std::nullopt;
      soil[i] = read ? read->celsius() : soil[i] - errors[i].kelvin();
    }
    const auto first = first_on_side(soil, side);
    if (first != 0) own_days.push_back(first ? in_season(*first - 1) : std::nullopt);
  }
  if (own_days.empty()) own_days.emplace_back(offset);
  return {{DayEnsemble::even(own_days), DayEnsemble::even(air_days)}};
}

std::vector<Remark> CrossingSubject::remarks() const {
  if (readings(history_.daily) != nullptr) return {};
  return {{"no-soil-readings",
           "There are no soil readings at this depth: what happened is the estimate from the whole season's "
           "air, so the "
           "error of the estimate itself is not put to the test and the bands look better than they are."}};
}

}  // namespace soilclock::advice
