// SPDX-License-Identifier: MIT
#include "advice/ensemble/site_climate.hpp"

#include <algorithm>
#include <cmath>

#include "advice/ensemble/quantiles.hpp"
#include "advice/futures/air_normals.hpp"
#include "emergence/sum_curve.hpp"

namespace soilclock::advice {

namespace {

using emergence::lead_in_days;
using emergence::SingleWindowRule;

/// What one season's soil and air show.
struct SeasonFacts {
  double warmest_month_c = 0.0;
  std::optional<int> crossing_day;
  double cool_days = 0.0;
  double late_cooling = 0.0;
};

/// 0 where the units come on the early day or never, 1 from the late one on.
double lateness(std::optional<int> day, const CoolingMark& mark) {
  if (!day) return 0.0;
  return std::clamp(static_cast<double>(*day - mark.early_day) / (mark.late_day - mark.early_day), 0.0, 1.0);
}

double warmest_mean(std::span<const Temperature> soil, int span_days, int until_day) {
  double warmest = -1e9;
  double sum = 0.0;
  const int first = lead_in_days;
  const int last = std::min(static_cast<int>(soil.size()), first + until_day + 1);
  for (int i = first; i < last; ++i) {
    sum += soil[static_cast<std::size_t>(i)].celsius();
    if (i - first >= span_days) sum -= soil[static_cast<std::size_t>(i - span_days)].celsius();
    if (i - first + 1 >= span_days) warmest = std::max(warmest, sum / span_days);
  }
  return warmest;
}

SeasonFacts facts_of(std::span<const Temperature> soil, std::span<const Temperature> air,
                     const SingleWindowRule& rule, const std::optional<CoolingMark>& mark) {
  SeasonFacts facts;
  facts.warmest_month_c = warmest_mean(soil, rule.warmest_span_days, rule.warmest_until_day);
  const std::vector<Temperature> week = emergence::trailing_week(soil);
  int run = 0;
  for (std::size_t d = 0; d < week.size(); ++d) {
    const bool cool = week[d] <= rule.crossing;
    facts.cool_days += cool ? 1.0 : 0.0;
    run = cool && static_cast<int>(d) >= rule.crossing_from_day ? run + 1 : 0;
    if (run == rule.crossing_run_days && !facts.crossing_day) {
      facts.crossing_day = static_cast<int>(d) - rule.crossing_run_days + 1;
    }
  }
  if (mark) {
    facts.late_cooling =
        lateness(emergence::day_reaching(emergence::cooling_sum(air, mark->below, 0), mark->units), *mark);
  }
  return facts;
}

/// A past season's soil (measured where it was) and air, whole or not at all.
std::optional<SeasonFacts> past_facts(const SiteWeather& site, const SiteSoil& site_soil,
                                      const Season& season, const SingleWindowRule& rule,
                                      const std::optional<CoolingMark>& mark) {
  std::vector<Temperature> soil;
  std::vector<Temperature> air;
  for (Day day = season.first - Days{lead_in_days}; day < season.end(); day += Days{1}) {
    const auto low = site.daily.air_min.at(day);
    const auto high = site.daily.air_max.at(day);
    const auto here = site_soil.at_5cm.daily.at(day);
    if (!low || !high || !here || day >= site.outlook_start) return std::nullopt;
    soil.push_back(*here);
    air.push_back(midpoint(*low, *high));
  }
  return facts_of(soil, air, rule, mark);
}

/// The present season, the median of its possible courses (soil errors do not matter for such medians), of
/// the lateness the mean: a median would jump where half the courses have the units.
SeasonFacts present_facts(const Scenarios& scenarios, const SiteSoil& site_soil, const SingleWindowRule& rule,
                          const std::optional<CoolingMark>& mark) {
  std::vector<double> warmest;
  std::vector<double> cool;
  std::vector<std::optional<int>> crossing;
  double late_cooling = 0.0;
  for (const WeatherTrace& trace : scenarios.traces()) {
    std::vector<Temperature> soil = trace.soil_estimate;
    for (std::size_t i = 0; i < soil.size(); ++i) {
      const Day day = scenarios.days().begin() + Days{static_cast<int>(i)};
      if (site_soil.at_5cm.daily.quality(day) == Quality::measured) soil[i] = *site_soil.at_5cm.daily.at(day);
    }
    const SeasonFacts facts = facts_of(soil, trace.air_mean, rule, mark);
    warmest.push_back(facts.warmest_month_c);
    cool.push_back(facts.cool_days);
    crossing.push_back(facts.crossing_day);
    late_cooling += facts.late_cooling / static_cast<double>(scenarios.traces().size());
  }
  return {band_of(warmest).middle, day_band_of(crossing).middle, band_of(cool).middle, late_cooling};
}

/// What is taken off the warmest month where soil is only estimated and the estimate is poor: outside its
/// area it runs warm under cool coasts, and a window named there would rest on the estimate's error alone.
/// All of the error from the distrusted size on, none up to the trusted one, evenly between.
TemperatureDelta doubt_of_estimate(const SiteSoil& soil, const SingleWindowRule& rule) {
  if (soil.at_5cm.origin != soil::SoilOrigin::estimated) return {};
  const double sd = std::sqrt(soil.at_5cm.error.variance());
  const double trusted = rule.trusted_soil_error.kelvin();
  const double share = std::clamp((sd - trusted) / (rule.distrusted_soil_error.kelvin() - trusted), 0.0, 1.0);
  return TemperatureDelta::from_kelvin(share * sd);
}

}  // namespace

SiteClimate site_climate(const SiteWeather& site, const SiteSoil& site_soil, const Scenarios& scenarios,
                         const Season& season, const SingleWindowRule& rule,
                         const std::optional<CoolingMark>& mark, const FutureRules& futures) {
  const SeasonFacts present = present_facts(scenarios, site_soil, rule, mark);
  std::vector<double> warmest{present.warmest_month_c};
  std::vector<double> cool{present.cool_days};
  std::vector<std::optional<int>> crossing{present.crossing_day};
  SiteClimate climate;
  const Day record_begin = site.daily.air_min.empty() ? site.outlook_start : site.daily.air_min.first();
  for (Season past = season.previous(); past.first >= record_begin; past = past.previous()) {
    const auto facts = past_facts(site, site_soil, past, rule, mark);
    if (!facts) continue;
    ++climate.seasons;
    warmest.push_back(facts->warmest_month_c);
    cool.push_back(facts->cool_days);
    crossing.push_back(facts->crossing_day);
  }
  climate.warmest_month_soil =
      Temperature::from_celsius(band_of(warmest).middle) - doubt_of_estimate(site_soil, rule);
  climate.cool_days = band_of(cool).middle;
  climate.usual_crossing_day = day_band_of(crossing).middle;
  climate.late_cooling = present.late_cooling;
  const bool north = site.place.hemisphere() == Hemisphere::north;
  const AirNormals normals = fit_air_normals(site.daily, site.place, futures);
  climate.july_air = Temperature::from_celsius(normals.mean_c.at(north ? 197 : 15));  // 16 July, 15 January
  return climate;
}

double single_window_share(const SiteClimate& climate, const SingleWindowRule& rule) {
  return std::clamp((climate.warmest_month_soil - rule.warmest_none).kelvin() /
                        (rule.warmest_full - rule.warmest_none).kelvin(),
                    0.0, 1.0);
}

}  // namespace soilclock::advice
