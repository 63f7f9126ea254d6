// SPDX-License-Identifier: MIT
#include "treatment/turf_state.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/number_text.hpp"
#include "core/season.hpp"
#include "core/text.hpp"
#include "core/unit_words.hpp"

namespace soilclock::treatment {

namespace {

/// Mean of the `days` days before a day; nothing unless the share `days_known` of them is there.
std::optional<Temperature> mean_before(const DailySeries<Temperature>& series, Day day, int days,
                                       double days_known) {
  double sum = 0.0;
  int known = 0;
  for (int back = 1; back <= days; ++back) {
    if (const auto value = series.at(day - Days{back})) {
      sum += value->celsius();
      ++known;
    }
  }
  if (known < days_known * days) return std::nullopt;
  return Temperature::from_celsius(sum / known);
}

bool all_at_least(const DailySeries<Temperature>& series, Day before, int days, Temperature limit) {
  for (int back = 1; back <= days; ++back) {
    const auto value = series.at(before - Days{back});
    if (!value || *value < limit) return false;
  }
  return true;
}

std::optional<Temperature> air_week(const TurfWeather& weather, Day day, double days_known) {
  const auto low = mean_before(weather.air_min, day, 7, days_known);
  const auto high = mean_before(weather.air_max, day, 7, days_known);
  if (!low || !high) return std::nullopt;
  return midpoint(*low, *high);
}

/// Order of the states from midwinter to full growth.
int spring_rank(TurfState state) {
  switch (state) {
    case TurfState::semi_dormant:
      return 1;
    case TurfState::breaking:
      return 2;
    case TurfState::greening:
      return 3;
    case TurfState::slowing:
      return 4;
    case TurfState::green:
      return 5;
    case TurfState::unknown:
    case TurfState::likely_dormant:
    case TurfState::dormant:
      break;
  }
  return 0;
}

bool is_growing(TurfState state) { return state == TurfState::green || state == TurfState::slowing; }

/// Walks through one cold season, day by day.
class ColdSeason {
 public:
  ColdSeason(const TurfWeather& weather, const TurfRules& rules, Hemisphere hemisphere,
             const std::optional<EyeCheck>& seen)
      : weather_{weather}, rules_{rules}, hemisphere_{hemisphere}, seen_{seen} {}

  /// Takes the night that ended on a morning into account and then judges that morning.
  void advance(Day morning) {
    const int doy = northern_day_of_year(morning, hemisphere_);
    if (doy > rules_.spring.to && doy < rules_.frost_counts_from) forget_winter();
    if (doy == rules_.frost_counts_from)
      fall_on_record_ = !weather_.air_min.empty() && weather_.air_min.first() < morning;
    take_night(morning - Days{1});
    warm_since_look_ = warm_since_look_ || (seen_ && morning - seen_->day >= one_week &&
                                            morning - seen_->day >= Days{rules_.run_days} && breaks(morning));
    const bool in_spring = in_turf_spring(morning, hemisphere_, rules_.spring);
    if (!in_spring) leave_spring();
    if (in_spring && seen_ && seen_->day == morning) take_look();
    state_ = in_spring ? spring(morning) : fall(morning);
    if (state_ == TurfState::unknown || state_ == last_known_) return;
    last_known_ = state_;
    since_ = morning;
    if (!in_spring) start_counting_freezes();
  }

  TurfState state() const { return state_; }
  std::optional<Day> since() const { return state_ == TurfState::unknown ? std::nullopt : since_; }
  int hard_nights() const { return hard_nights_; }
  /// What was seen is no longer so: a freeze since, or a warm spell when it was dormant.
  bool look_outlived() const {
    if (seen_->state == TurfState::dormant) return warm_since_look_;
    return hard_nights_since_look_ >= rules_.look.ended_by_hard_nights;
  }

 private:
  void forget_winter() {
    frost_ = false;
    hard_nights_ = 0;
    hard_nights_at_level_ = 0;
    frozen_on_.reset();
  }

  void leave_spring() {
    level_.reset();
    still_growing_ = false;
  }

  void take_night(Day night) {
    const auto low = weather_.air_min.at(night);
    if (!low) return;
    frost_ = frost_ || *low <= rules_.frost;
    if (*low > rules_.hard_frost) return;
    ++hard_nights_;
    if (seen_ && night > seen_->day) ++hard_nights_since_look_;
    if (hard_nights_ - hard_nights_at_level_ >= rules_.hard_nights) frozen_on_ = night;
  }

  bool looks_dormant(Day morning) const {
    const auto soil = mean_before(weather_.soil, morning, rules_.dormant_mean_days, rules_.days_known);
    return hard_nights_ >= rules_.hard_nights && soil && *soil <= rules_.dormant_soil;
  }

  bool breaks(Day morning) const {
    if (all_at_least(weather_.soil, morning, rules_.run_days, rules_.breaking_soil)) return true;
    const auto air = air_week(weather_, morning, rules_.days_known);
    return air && *air >= rules_.breaking_air;
  }

  TurfState fall(Day morning) const {
    const auto soil_week = mean_before(weather_.soil, morning, 7, rules_.days_known);
    if (!soil_week) return TurfState::unknown;
    if (looks_dormant(morning)) return TurfState::likely_dormant;
    if (frost_ || *soil_week < rules_.slowing_soil) return TurfState::semi_dormant;
    return *soil_week < rules_.green_soil ? TurfState::slowing : TurfState::green;
  }

  /// What the temperatures alone say of turf that went dormant; breaking is the most it falls back to while
  /// the soil is not cold.
  TurfState thawing(Day morning, Temperature soil_week) const {
    if (breaks(morning)) {
      if (soil_week >= rules_.green_soil) return TurfState::green;
      return all_at_least(weather_.soil, morning, rules_.run_days, rules_.greening_soil)
                 ? TurfState::greening
                 : TurfState::breaking;
    }
    if (looks_dormant(morning)) return TurfState::likely_dormant;
    const bool broken = level_ && spring_rank(*level_) >= spring_rank(TurfState::breaking);
    return broken ? TurfState::breaking : TurfState::semi_dormant;
  }

  TurfState spring(Day morning) {
    const auto soil_week = mean_before(weather_.soil, morning, 7, rules_.days_known);
    if (!soil_week) return TurfState::unknown;
    const TurfState winter = fall(morning);
    if (!level_) still_growing_ = fall_on_record_ && is_growing(winter);
    const TurfState now = still_growing_ ? winter : thawing(morning, *soil_week);
    if (!level_) enter_spring(now);
    const bool after_look = seen_ && morning >= seen_->day && morning - seen_->day < one_week;
    const bool after_freeze = frozen_on_ && morning - *frozen_on_ <= rules_.freeze_shows;
    const int step = spring_rank(now) - spring_rank(*level_);
    if (step > 0 && !after_look) move_to(now);
    if (step < 0 && after_freeze) level_ = now;
    still_growing_ = still_growing_ && is_growing(*level_);
    return *level_;
  }

  /// From dormancy of the fall the way goes on, and a freeze of late can still show.
  void enter_spring(TurfState now) {
    const bool dormant = state_ == TurfState::semi_dormant || state_ == TurfState::likely_dormant;
    if (dormant)
      level_ = state_;
    else
      move_to(now);
  }

  void take_look() { move_to(seen_->state == TurfState::dormant ? TurfState::likely_dormant : seen_->state); }

  void move_to(TurfState state) {
    level_ = state;
    start_counting_freezes();
  }

  /// Only what freezes from now on can set the turf back.
  void start_counting_freezes() {
    hard_nights_at_level_ = hard_nights_;
    frozen_on_.reset();
  }

  const TurfWeather& weather_;
  const TurfRules& rules_;
  Hemisphere hemisphere_;
  const std::optional<EyeCheck>& seen_;
  TurfState state_ = TurfState::unknown;
  TurfState last_known_ = TurfState::unknown;
  std::optional<Day> since_;
  std::optional<TurfState> level_;  ///< reached in spring
  bool fall_on_record_ = false;
  bool still_growing_ = false;  ///< has not gone dormant by spring
  bool frost_ = false;
  int hard_nights_ = 0;
  int hard_nights_at_level_ = 0;  ///< that had come when the level was reached
  std::optional<Day> frozen_on_;  ///< the night that set the turf back
  int hard_nights_since_look_ = 0;
  bool warm_since_look_ = false;
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

void add_remarks(TurfAssessment& reading, TurfSpecies species, const TurfRules& rules, bool us_units) {
  if (reading.state == TurfState::unknown) {
    reading.remarks.push_back(
        {"turf-state-not-known", "Too few soil temperatures of the last week to judge the turf"});
  }
  if (species != TurfSpecies::zoysiagrass) return;
  reading.remarks.push_back(
      {"zoysiagrass-green-below",
       "Zoysiagrass can keep green leaves under a brown canopy all winter: look below it"});
  if (reading.heat_units && *reading.heat_units >= rules.zoysia_heat) {
    const auto days_of = [us_units](DegreeDays sum) {
      return us_units ? sum.fahrenheit_days() : sum.celsius_days();
    };
    reading.remarks.push_back(
        {"zoysiagrass-heat-units",
         fmt::format("{} degree-days above {} since midwinter: past the usual limit of {} for "
                     "treatments that need dormant zoysiagrass",
                     number_text(days_of(*reading.heat_units), 0),
                     whole_degree_words(rules.heat_base, us_units),
                     number_text(days_of(rules.zoysia_heat), 0))});
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

std::string_view name(TurfSpecies species) {
  switch (species) {
    case TurfSpecies::bermudagrass:
      return "bermudagrass";
    case TurfSpecies::zoysiagrass:
      return "zoysiagrass";
    case TurfSpecies::cool_season:
      break;
  }
  return "cool-season";
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
    case TurfState::dormant:
      return "dormant";
    case TurfState::unknown:
      break;
  }
  return "not known";
}

bool in_turf_spring(Day day, Hemisphere hemisphere, const TurfSpring& spring) {
  const int doy = northern_day_of_year(day, hemisphere);
  return doy >= spring.from && doy <= spring.to;
}

TurfAssessment read_turf(const TurfWeather& weather, Day today, TurfSpecies species, Hemisphere hemisphere,
                         const std::optional<EyeCheck>& seen, const TurfRules& rules) {
  TurfAssessment reading;
  reading.soil_week = mean_before(weather.soil, today, 7, rules.days_known);
  if (species == TurfSpecies::cool_season) {
    reading.state = TurfState::green;
    return reading;
  }
  const bool usable = seen && seen->day <= today && seen->state != TurfState::unknown;
  const std::optional<EyeCheck> look = usable ? seen : std::nullopt;
  ColdSeason walk{weather, rules, hemisphere, look};
  // A year back holds the whole cold season, whichever day it is.
  for (Day morning = today - Days{365}; morning <= today; morning += Days{1}) walk.advance(morning);
  const bool fresh = look && today - look->day <= Days{rules.look.valid_days};
  reading.noted = fresh && !walk.look_outlived();
  reading.state = reading.noted ? look->state : walk.state();
  reading.since = reading.noted ? look->day : walk.since();
  reading.hard_nights = walk.hard_nights();
  if (species == TurfSpecies::zoysiagrass) {
    reading.heat_units = heat_since_midwinter(weather, today, hemisphere, rules.heat_base);
  }
  reading.ask = question(reading.state, look);
  if (fresh && !reading.noted) {
    reading.remarks.push_back(
        {"turf-look-outlived",
         fmt::format("The turf was noted as {} on {}; {} since: look again", name(look->state),
                     short_date(look->day),
                     look->state == TurfState::dormant ? "it has been warm" : "a freeze came")});
  }
  add_remarks(reading, species, rules, weather.us_units);
  return reading;
}

}  // namespace soilclock::treatment
