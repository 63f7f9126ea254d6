// SPDX-License-Identifier: MIT
#include "soil/soil_temperature.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/unit_words.hpp"
#include "soil/learned_error.hpp"

namespace soilclock::soil {

namespace {

double apart_cm(Depth a, Depth b) { return std::abs(a.cm() - b.cm()); }

std::optional<double> latitude_of(const SoilSite& site) {
  return site.place ? std::optional{site.place->latitude_deg} : std::nullopt;
}

/// What the estimate says at the depths of probes, each worked out once.
class EstimatesByDepth {
 public:
  EstimatesByDepth(const SoilSite& site, const SoilChoice& choice, const DailySeries<Temperature>& air)
      : site_{site}, choice_{choice}, air_{air} {}

  const DailySeries<Temperature>& at(Depth depth) {
    const auto found = estimates_.find(depth);
    if (found != estimates_.end()) return found->second;
    const SoilEstimator there{choice_.pair, depth, latitude_of(site_), site_.offset};
    return estimates_.emplace(depth, estimate_soil(air_, there)).first->second;
  }

  /// Error variance that a reading at a depth has for the depth of the site, K2.
  double variance_for_site(Depth depth, double reading_variance) const {
    return reading_variance + choice_.pair.rules.depth_variance_k2_per_cm * apart_cm(depth, site_.depth);
  }

 private:
  const SoilSite& site_;
  const SoilChoice& choice_;
  const DailySeries<Temperature>& air_;
  std::map<Depth, DailySeries<Temperature>> estimates_;
};

/// One reading a day, from the probe nearest to the depth.
std::vector<SoilReading> readings_of(const SoilSite& site, const SoilChoice& choice,
                                     const DailySeries<Temperature>& air, double reading_variance) {
  const auto nearer = [&site](Depth a, Depth b) { return apart_cm(a, site.depth) < apart_cm(b, site.depth); };
  EstimatesByDepth estimates{site, choice, air};
  std::map<Day, SoilReading> by_day;
  std::vector<Depth> depths;
  for (const auto& entry : site.measured) depths.push_back(entry.first);
  std::stable_sort(depths.begin(), depths.end(), nearer);
  for (const Depth depth : depths) {
    if (depth < shallowest || depth > deepest) continue;
    const DailySeries<Temperature>& estimate = estimates.at(depth);
    const DailySeries<Temperature>& measured = site.measured.at(depth);
    const double variance = estimates.variance_for_site(depth, reading_variance);
    for (Day day = measured.days().begin(); day < measured.days().end(); day += Days{1}) {
      const auto reading = measured.at(day);
      const auto expected = estimate.at(day);
      if (reading && expected) by_day.try_emplace(day, SoilReading{day, *expected - *reading, variance});
    }
  }
  std::vector<SpotMean> spots = site.spots;
  std::stable_sort(spots.begin(), spots.end(),
                   [&](const SpotMean& a, const SpotMean& b) { return nearer(a.depth, b.depth); });
  for (const SpotMean& spot : spots) {
    const Depth depth = std::clamp(spot.depth, shallowest, deepest);
    const DailySeries<Temperature>& estimate = estimates.at(depth);
    if (estimate.empty()) continue;
    const auto expected = estimate.at(std::min(spot.day, estimate.last()));
    if (!expected) continue;
    by_day.try_emplace(spot.day, SoilReading{spot.day, *expected - spot.mean,
                                             estimates.variance_for_site(depth, spot.variance_k2)});
  }
  std::vector<SoilReading> result;
  result.reserve(by_day.size());
  for (const auto& entry : by_day) result.push_back(entry.second);
  return result;
}

/// The last run of missing air longer than is bridged, if any lies between known days.
std::optional<DayRange> last_long_gap(const DailySeries<Temperature>& air, int bridged_days) {
  std::optional<DayRange> found;
  std::optional<Day> last_known;
  for (Day day = air.days().begin(); day < air.days().end(); day += Days{1}) {
    if (!air.at(day)) continue;
    if (last_known && (day - *last_known).count() > bridged_days + 1) {
      found = DayRange{*last_known + Days{1}, day};
    }
    last_known = day;
  }
  return found;
}

std::optional<double> mean_difference(const DailySeries<Temperature>& a, const DailySeries<Temperature>& b,
                                      int days) {
  double sum = 0.0;
  int count = 0;
  for (Day day = a.days().end() - Days{days}; day < a.days().end(); day += Days{1}) {
    const auto first = a.at(day);
    const auto second = b.at(day);
    if (!first || !second) continue;
    sum += (*first - *second).kelvin();
    ++count;
  }
  return count > 0 ? std::optional{sum / count} : std::nullopt;
}

void add_remarks(std::vector<Remark>& remarks, const SoilModels& models, const SoilTemperature& soil,
                 const DailySeries<Temperature>& air, bool us_units) {
  int known = 0;
  for (const Quality quality : air.qualities()) known += quality == Quality::missing ? 0 : 1;
  if (known == 0) {
    remarks.push_back({"soil-no-air", "There is no air temperature to estimate soil temperature from."});
    return;
  }
  const EstimateRules& rules = models.rules();
  if (known < rules.run_in_days) {
    remarks.push_back(
        {"soil-short-run-in",
         fmt::format("Soil temperature is estimated from {} days of air temperature; it needs {} to "
                     "forget how it was started.",
                     known, rules.run_in_days)});
  }
  if (const auto gap = last_long_gap(air, rules.bridged_gap_days)) {
    remarks.push_back(
        {"soil-air-gap", fmt::format("Air temperature is missing from {} to {}; the soil estimate "
                                     "starts anew after it.",
                                     iso(gap->begin()), iso(gap->end() - Days{1}))});
  }
  const SoilModel& second = models.cross_check();
  const Days run_in{static_cast<int>(second.parameter("compared_run_in"))};
  const int days = static_cast<int>(second.parameter("compared_days"));
  const DayRange lately{std::max(air.first(), air.last() - run_in), air.days().end()};
  const DailySeries<Temperature> other =
      canopy_recursion(air.slice(lately), second, soil.estimator.depth(), rules);
  if (const auto difference = mean_difference(soil.estimate, other, days)) {
    const double kelvin = *difference - soil.estimator.offset().kelvin();
    if (std::abs(kelvin) > second.parameter("compared_limit")) {
      remarks.push_back({"soil-cross-check",
                         fmt::format("Over the last {} days the soil estimate is {} {} than a second, "
                                     "independent one: compare it with a probe.",
                                     days, difference_words(TemperatureDelta::from_kelvin(kelvin), us_units),
                                     kelvin > 0.0 ? "warmer" : "cooler")});
    }
  }
}

/// Lets the probe at the depth win; says where the values come from.
SoilOrigin pass_measured_through(const SoilSite& site, const EstimateRules& rules,
                                 DailySeries<Temperature>& daily) {
  bool any_measured = false;
  for (const auto& [depth, measured] : site.measured) {
    if (!rules.same_depth(depth, site.depth)) continue;
    for (Day day = measured.days().begin(); day < measured.days().end(); day += Days{1}) {
      const auto reading = measured.at(day);
      if (!reading) continue;
      daily.set(day, *reading, Quality::measured);
      any_measured = true;
    }
  }
  if (!any_measured) return SoilOrigin::estimated;
  for (const Quality quality : daily.qualities()) {
    if (quality == Quality::modelled) return SoilOrigin::mixed;
  }
  return SoilOrigin::measured;
}

}  // namespace

std::string_view name(SoilOrigin origin) {
  switch (origin) {
    case SoilOrigin::measured:
      return "measured";
    case SoilOrigin::mixed:
      return "mixed";
    case SoilOrigin::estimated:
      break;
  }
  return "estimated";
}

SoilTemperature soil_temperature(const SoilModels& models, const SoilSite& site,
                                 const DailySeries<Temperature>& air_mean) {
  SoilSite within = site;
  within.depth = std::clamp(site.depth, shallowest, deepest);
  const SoilChoice choice = models.choose(site.place);
  SoilTemperature soil{{},
                       {},
                       SoilOrigin::estimated,
                       choice.error_at(within.depth),
                       {},
                       {},
                       choice.remarks,
                       choice.pair.shallow.id,
                       SoilEstimator{choice.pair, within.depth, latitude_of(site), site.offset},
                       {}};
  soil.estimate = soil.estimator.run(air_mean, soil.state);
  soil.daily = soil.estimate;
  soil.origin = pass_measured_through(within, models.rules(), soil.daily);
  const Hemisphere hemisphere = site.place ? site.place->hemisphere() : Hemisphere::north;
  LearnedError learned =
      learned_error(soil.error, hemisphere,
                    readings_of(within, choice, air_mean, soil.error.reading_variance), models.rules());
  soil.error = learned.error;
  soil.readings = std::move(learned.readings);
  if (soil.origin == SoilOrigin::estimated && !soil.readings.empty()) soil.origin = SoilOrigin::mixed;
  if (!soil.daily.empty()) {
    const Day last = soil.daily.last();
    const ConditionedSoilError error{soil.error, hemisphere, {last, last + Days{1}}, soil.readings};
    soil.expected_error = soil.daily.quality(last) == Quality::measured
                              ? TemperatureDelta::from_kelvin(std::sqrt(soil.error.reading_variance))
                              : error.sd(last);
  }
  add_remarks(soil.remarks, models, soil, air_mean, site.us_units);
  return soil;
}

DailySeries<Temperature> corrected(const SoilTemperature& soil, Hemisphere hemisphere, DayRange days,
                                   MovedBy moved_by) {
  DailySeries<Temperature> best = soil.daily.slice(days);
  if (soil.readings.empty() || days.empty()) return best;
  const ConditionedSoilError error{soil.error, hemisphere, days, soil.readings};
  for (Day day = days.begin(); day < days.end(); day += Days{1}) {
    const auto value = best.at(day);
    if (!value || best.quality(day) == Quality::measured) continue;
    const TemperatureDelta off = moved_by == MovedBy::all_readings ? error.mean(day) : error.mean_then(day);
    best.set(day, *value - off, Quality::modelled);
  }
  return best;
}

}  // namespace soilclock::soil
