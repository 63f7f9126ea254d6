// SPDX-License-Identifier: MIT
#include "treatment/spray_gates.hpp"

#include <fmt/format.h>

#include <optional>

#include "core/unit_words.hpp"

namespace soilclock::treatment {

namespace {

/// Sum of the known rain of [from, to); nothing when no day of it is known.
std::optional<double> rain_mm(const weather::DailyWeather& daily, Day from, Day to) {
  std::optional<double> sum;
  for (Day day = from; day < to; day += Days{1}) {
    if (const auto rain = daily.rain.at(day)) sum = sum.value_or(0.0) + rain->mm();
  }
  return sum;
}

std::optional<Temperature> shallow_soil(const weather::DailyWeather& daily, Day day) {
  for (const auto& [depth, series] : daily.soil) {
    if (const auto value = series.at(day)) return value;
  }
  return std::nullopt;
}

/// Frozen by a soil reading of the day before, else by two days whose mean air stayed at or below freezing.
bool probably_frozen(const weather::DailyWeather& daily, Day day) {
  if (const auto soil = shallow_soil(daily, day - Days{1})) return soil->celsius() <= 0.0;
  for (int back = 1; back <= 2; ++back) {
    const auto low = daily.air_min.at(day - Days{back});
    const auto high = daily.air_max.at(day - Days{back});
    if (!low || !high || midpoint(*low, *high).celsius() > 0.0) return false;
  }
  return true;
}

class DayGates {
 public:
  DayGates(Day day, SprayJob job, const weather::DailyWeather& daily, const SpraySite& site,
           const SprayRules& rules)
      : day_{day}, job_{job}, daily_{daily}, site_{site}, rules_{rules} {}

  std::vector<SprayFinding> all(bool hours_known) {
    warmth();
    ground();
    rain(hours_known);
    if (job_ == SprayJob::residual) water();
    if (job_ == SprayJob::foliar) frost();
    return std::move(findings_);
  }

 private:
  std::string degrees(Temperature temperature) const {
    return whole_degree_words(temperature, site_.us_units);
  }
  std::string water(double mm) const { return water_words(Rain::from_mm(mm), site_.us_units); }

  void add(SprayGate gate, bool stops, std::string text) {
    findings_.push_back({gate, stops, std::move(text)});
  }

  void warmth() {
    const auto high = daily_.air_max.at(day_);
    if (!high || job_ == SprayJob::residual) return;
    const bool foliar = job_ == SprayJob::foliar;
    const Temperature stop = foliar ? rules_.post_stop_maximum : rules_.dormant_stop_maximum;
    const Temperature good = foliar ? rules_.post_good_maximum : rules_.dormant_good_maximum;
    if (*high < stop) {
      add(SprayGate::cold, true, fmt::format("Maximum {}: too cold for foliar action", degrees(*high)));
    } else if (*high < good) {
      add(SprayGate::cold, false, fmt::format("Maximum {}: foliar action slow", degrees(*high)));
    }
    if (*high > rules_.hot_stop) {
      add(SprayGate::hot, true, fmt::format("Maximum {}: turf tolerates less", degrees(*high)));
    }
  }

  void ground() {
    if (probably_frozen(daily_, day_)) add(SprayGate::frozen, true, "Ground probably frozen");
    const auto before = rain_mm(daily_, day_ - Days{3}, day_);
    if (before && *before >= rules_.saturating_rain.mm()) {
      add(SprayGate::saturated, true,
          fmt::format("{} of rain in three days: ground probably saturated", water(*before)));
    }
  }

  void rain(bool hours_known) {
    const auto soon = rain_mm(daily_, day_, day_ + Days{2});
    if (soon && *soon > rules_.heavy_rain.mm()) {
      add(SprayGate::runoff, site_.slope_to_green,
          fmt::format("{} of rain on the day and the next: runoff{}", water(*soon),
                      site_.slope_to_green ? " down the slope to a green" : " possible"));
    }
    if (hours_known || job_ == SprayJob::residual) return;
    const auto today = daily_.rain.at(day_);
    if (!today || today->mm() <= 0.0) return;
    add(SprayGate::rain, *today >= rules_.rain_on_day,
        fmt::format("{} of rain on the day, its hours not known", water(today->mm())));
  }

  void water() {
    if (site_.irrigated) return;
    const Day end = day_ + Days{rules_.watering_within_days + 1};
    const auto after = rain_mm(daily_, day_, end);
    if (after && after.value() >= rules_.watering_least.mm()) return;
    add(SprayGate::no_water, false,
        after ? fmt::format("Only {} of water by {}: not activated", water(*after), short_date(end - Days{1}))
              : std::string{"Rain after the day not known: water in by irrigation"});
  }

  void frost() {
    for (int ahead = 1; ahead <= 2; ++ahead) {
      const auto low = daily_.air_min.at(day_ + Days{ahead});
      if (!low || *low > rules_.frost_ahead) continue;
      add(SprayGate::frost_ahead, false,
          fmt::format("Frost on {}: foliar action slow", short_date(day_ + Days{ahead})));
      return;
    }
  }

  Day day_;
  SprayJob job_;
  const weather::DailyWeather& daily_;
  const SpraySite& site_;
  const SprayRules& rules_;
  std::vector<SprayFinding> findings_;
};

}  // namespace

std::vector<SprayFinding> day_findings(Day day, SprayJob job, const weather::DailyWeather& daily,
                                       const SpraySite& site, const SprayRules& rules, bool hours_known) {
  return DayGates{day, job, daily, site, rules}.all(hours_known);
}

}  // namespace soilclock::treatment
