// SPDX-License-Identifier: MIT
#include "treatment/turf_state.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/season.hpp"
#include "core/text.hpp"

namespace soilclock::treatment {

namespace {

/// Mean of the `days` days before a day; nothing unless five sevenths of them are known.
std::optional<Temperature> mean_before(const DailySeries<Temperature>& series, Day day, int days) {
  double sum = 0.0;
  int known = 0;
  for (int back = 1; back <= days; ++back) {
    if (const auto value = series.at(day - Days{back})) {
      sum += value->celsius();
      ++known;
    }
  }
  if (known * 7 < days * 5) return std::nullopt;
  return Temperature::from_celsius(sum / known);
}

bool all_at_least(const DailySeries<Temperature>& series, Day before, int days, Temperature limit) {
  for (int back = 1; back <= days; ++back) {
    const auto value = series.at(before - Days{back});
    if (!value || *value < limit) return false;
  }
  return true;
}

std::optional<Temperature> air_week(const TurfWeather& weather, Day day) {
  const auto low = mean_before(weather.air_min, day, 7);
  const auto high = mean_before(weather.air_max, day, 7);
  if (!low || !high) return std::nullopt;
  return midpoint(*low, *high);
}

constexpr int spring_begins = 15;       // 15 January, northern day of year
constexpr int spring_ends = 181;        // 30 June
constexpr int frost_counts_from = 244;  // 1 September

/// Walks through one cold season, day by day.
class ColdSeason {
 public:
  ColdSeason(const TurfWeather& weather, const TurfRules& rules, Hemisphere hemisphere)
      : weather_{weather}, rules_{rules}, hemisphere_{hemisphere} {}

  /// Takes the night that ended on a morning into account and then judges that morning.
  void advance(Day morning) {
    const int doy = northern_day_of_year(morning, hemisphere_);
    if (doy > spring_ends && doy < frost_counts_from) reset();
    if (const auto low = weather_.air_min.at(morning - Days{1})) {
      frost_ = frost_ || *low <= rules_.frost;
      hard_nights_ += *low <= rules_.hard_frost ? 1 : 0;
    }
    state_ = doy >= spring_begins && doy <= spring_ends ? spring(morning) : fall(morning);
  }

  TurfState state() const { return state_; }
  int hard_nights() const { return hard_nights_; }

 private:
  void reset() {
    frost_ = false;
    hard_nights_ = 0;
    hard_nights_before_break_ = 0;
    broken_ = false;
  }

  bool looks_dormant(Day morning) const {
    const auto fortnight = mean_before(weather_.soil, morning, 14);
    return hard_nights_ - hard_nights_before_break_ >= rules_.hard_nights && fortnight &&
           *fortnight <= rules_.dormant_soil;
  }

  TurfState fall(Day morning) const {
    const auto week = mean_before(weather_.soil, morning, 7);
    if (!week) return TurfState::unknown;
    if (looks_dormant(morning)) return TurfState::likely_dormant;
    if (frost_ || *week < rules_.slowing_soil) return TurfState::semi_dormant;
    return *week < rules_.green_soil ? TurfState::slowing : TurfState::green;
  }

  TurfState spring(Day morning) {
    const auto week = mean_before(weather_.soil, morning, 7);
    if (!week) return TurfState::unknown;
    const auto air = air_week(weather_, morning);
    const bool breaks = all_at_least(weather_.soil, morning, rules_.run_days, rules_.breaking_soil) ||
                        (air && *air >= rules_.breaking_air);
    if (breaks) {
      broken_ = true;
      hard_nights_before_break_ = hard_nights_;
      if (*week >= rules_.green_soil) return TurfState::green;
      return all_at_least(weather_.soil, morning, rules_.run_days, rules_.greening_soil)
                 ? TurfState::greening
                 : TurfState::breaking;
    }
    if (looks_dormant(morning)) {
      broken_ = false;
      return TurfState::likely_dormant;
    }
    return broken_ ? TurfState::breaking : TurfState::semi_dormant;
  }

  const TurfWeather& weather_;
  const TurfRules& rules_;
  Hemisphere hemisphere_;
  TurfState state_ = TurfState::unknown;
  bool frost_ = false;
  int hard_nights_ = 0;
  int hard_nights_before_break_ = 0;
  bool broken_ = false;
};

std::optional<DegreeDays> heat_since_midwinter(const TurfWeather& weather, Day today, Hemisphere hemisphere,
                                               Temperature base) {
  const Day start = season_of(today, SeasonKind::summer, hemisphere).first;
  DegreeDays sum;
  for (Day day = start; day < today; day += Days{1}) {
    const auto low = weather.air_min.at(day);
    const auto high = weather.air_max.at(day);
    if (!low || !high) return std::nullopt;
    sum += DegreeDays::from_celsius_days(std::max(0.0, (midpoint(*low, *high) - base).kelvin()));
  }
  return sum;
}

PostGate gate_of(TurfState state) {
  switch (state) {
    case TurfState::greening:
      return PostGate::stopped;
    case TurfState::green:
    case TurfState::slowing:
      return PostGate::open;
    default:
      return PostGate::look_first;
  }
}

std::string question(TurfState state, const std::optional<EyeCheck>& seen) {
  const std::string last = seen ? " (last look noted: " + short_date(seen->day, true) + ")" : "";
  switch (state) {
    case TurfState::green:
    case TurfState::slowing:
      return {};
    case TurfState::greening:
      return "Green-up by temperature: is the turf fully green? Note the date" + last;
    case TurfState::breaking:
      return "Part the canopy: any green leaf, stolon or node? Note the date" + last;
    default:
      return "Part the canopy in several places: no green leaf, stolon or node at all? Note the date" + last;
  }
}

void add_remarks(TurfReading& reading, TurfSpecies species, const TurfRules& rules) {
  if (reading.state == TurfState::unknown) {
    reading.remarks.push_back(
        {"turf-state-not-known", "Too few soil temperatures of the last week to judge the turf"});
  }
  if (species != TurfSpecies::zoysiagrass) return;
  reading.remarks.push_back(
      {"zoysiagrass-green-below",
       "Zoysiagrass can keep green leaves under a brown canopy all winter: look below it"});
  if (reading.heat_units && *reading.heat_units >= rules.zoysia_heat) {
    reading.remarks.push_back(
        {"zoysiagrass-heat-units",
         fmt::format("{:.0f} degree-days above 5 C since midwinter: past the usual limit of {:.0f} for "
                     "treatments that need dormant zoysiagrass",
                     reading.heat_units->celsius_days(), rules.zoysia_heat.celsius_days())});
  }
}

}  // namespace

std::optional<TurfSpecies> turf_species(std::string_view words) {
  const std::string low = lowered(words);
  const auto has = [&low](std::string_view part) { return low.find(part) != std::string::npos; };
  if (has("bermuda") || has("cynodon")) return TurfSpecies::bermudagrass;
  if (has("zoysia")) return TurfSpecies::zoysiagrass;
  if (has("fescue") || has("bluegrass") || has("ryegrass") || has("bentgrass") || has("cool-season")) {
    return TurfSpecies::cool_season;
  }
  return std::nullopt;
}

std::string_view name(TurfState state) {
  switch (state) {
    case TurfState::green:
      return "green";
    case TurfState::slowing:
      return "slowing";
    case TurfState::semi_dormant:
      return "semi-dormant";
    case TurfState::likely_dormant:
      return "likely dormant";
    case TurfState::breaking:
      return "breaking";
    case TurfState::greening:
      return "greening";
    case TurfState::unknown:
      break;
  }
  return "not known";
}

TurfReading read_turf(const TurfWeather& weather, Day today, TurfSpecies species, Hemisphere hemisphere,
                      const std::optional<EyeCheck>& seen, const TurfRules& rules) {
  TurfReading reading;
  reading.soil_week = mean_before(weather.soil, today, 7);
  if (species == TurfSpecies::cool_season) {
    reading.state = TurfState::green;
    reading.post = PostGate::open;
    return reading;
  }
  ColdSeason walk{weather, rules, hemisphere};
  // A year back holds the whole cold season, whichever day it is.
  for (Day morning = today - Days{365}; morning <= today; morning += Days{1}) walk.advance(morning);
  reading.state = walk.state();
  reading.hard_nights = walk.hard_nights();
  reading.post = gate_of(reading.state);
  if (species == TurfSpecies::zoysiagrass) {
    reading.heat_units = heat_since_midwinter(weather, today, hemisphere, rules.heat_base);
  }
  const bool fresh = seen && seen->day <= today && (today - seen->day).count() <= rules.look_valid_days;
  reading.seen_dormant = fresh && seen->fully_dormant && reading.state == TurfState::likely_dormant;
  reading.ask = question(reading.state, seen);
  add_remarks(reading, species, rules);
  return reading;
}

}  // namespace soilclock::treatment
