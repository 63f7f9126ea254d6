// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "core/season.hpp"
#include "treatment/delta_t.hpp"
#include "treatment/spray_gates.hpp"
#include "treatment/sun.hpp"

namespace soilclock::treatment {

namespace {

using weather::HourlyObservation;

/// Hours from midnight of `origin`.
double clock_h(const HourlyObservation& reading, Day origin) {
  return 24.0 * static_cast<double>((reading.day - origin).count()) + reading.minute_of_day / 60.0;
}

bool damp_air_allowed(Day day, const SpraySite& site, const SprayRules& rules) {
  const int doy = northern_day_of_year(day, site.place.hemisphere());
  return doy >= rules.damp_air_allowed_from || doy <= rules.damp_air_allowed_to;
}

class HourJudge {
 public:
  HourJudge(Day day, SprayJob job, std::span<const HourlyObservation> hours, const SpraySite& site,
            const SprayRules& rules)
      : day_{day},
        job_{job},
        hours_{hours},
        rules_{rules},
        damp_air_allowed_{damp_air_allowed(day, site, rules)} {
    const auto sun = sun_hours(site.place, site.utc_offset_hours, day);
    light_ = sun ? HourRun{sun->sunrise, sun->sunset} : HourRun{0.0, 24.0};
    calm_ = plain_daytime(day, site, rules);
  }

  HoursVerdict judge() {
    const auto first =
        std::lower_bound(hours_.begin(), hours_.end(), day_,
                         [](const HourlyObservation& reading, Day day) { return reading.day < day; });
    for (auto i = static_cast<std::size_t>(first - hours_.begin());
         i < hours_.size() && hours_[i].day == day_; ++i) {
      if (hours_[i].air) judge_reading(i);
    }
    return std::move(verdict_);
  }

 private:
  void judge_reading(std::size_t i) {
    const HourlyObservation& reading = hours_[i];
    const double from = clock_h(reading, day_);
    double to = from + rules_.reading_lasts_h;
    if (i + 1 < hours_.size()) to = std::min(to, clock_h(hours_[i + 1], day_));
    to = std::min(to, 24.0);
    verdict_.known = true;
    HourRun part{std::max(from, light_.from), std::min(to, light_.to)};
    if (part.length() <= 0.0) return;
    if (reading.wind_m_per_s) verdict_.wind.push_back({part, *reading.wind_m_per_s});
    bool usable = wind_allows(reading, part);
    usable = drops_allow(reading) && usable;
    usable = heat_allows(reading) && usable;
    usable = rain_allows(i, to) && usable;
    if (usable && part.length() > 0.0) append(part);
  }

  /// Wind too strong bars the hour; too little leaves only the part outside the hours of inversion.
  bool wind_allows(const HourlyObservation& reading, HourRun& part) {
    verdict_.wind_known = verdict_.wind_known || reading.wind_m_per_s.has_value();
    if (reading.wind_m_per_s && *reading.wind_m_per_s > rules_.wind_most_m_per_s) {
      note(SprayGate::wind_high, true, "Hours with too much wind");
      return false;
    }
    const bool stirred = reading.wind_m_per_s && *reading.wind_m_per_s >= rules_.inversion_broken_m_per_s;
    if (!stirred && (part.from < calm_.from || part.to > calm_.to)) {
      note(SprayGate::inversion, true, "Inversion likely after sunrise and before sunset");
      part = {std::max(part.from, calm_.from), std::min(part.to, calm_.to)};
    }
    if (reading.wind_m_per_s && *reading.wind_m_per_s < rules_.wind_least_m_per_s) {
      note(SprayGate::wind_low, false, "Hours nearly without wind: check for an inversion at the place");
    }
    return true;
  }

  bool drops_allow(const HourlyObservation& reading) {
    if (!reading.humidity_percent) return true;
    verdict_.humidity_known = true;
    const TemperatureDelta depression = delta_t(*reading.air, *reading.humidity_percent);
    if (depression > rules_.delta_t_stop) {
      note(SprayGate::drops_fast, true, "Hours too dry: drops dry before they work");
      return false;
    }
    if (depression > rules_.delta_t_most)
      note(SprayGate::drops_fast, false, "Hours with dry air: drops dry fast");
    if (depression >= rules_.delta_t_least) return true;
    note(SprayGate::drops_slow, !damp_air_allowed_, "Hours with damp air or dew: drops hang");
    return damp_air_allowed_;
  }

  bool heat_allows(const HourlyObservation& reading) {
    if (job_ != SprayJob::residual && *reading.air > rules_.hot_stop) {
      note(SprayGate::hot, true, "Hours too hot");
      return false;
    }
    if (*reading.air > rules_.hot_caution) note(SprayGate::hot, false, "Hot hours");
    return true;
  }

  /// The rain of a reading fell before it, so the rain of this step stands in the next reading.
  bool rain_allows(std::size_t i, double step_end) {
    const double dry_until = step_end + (job_ == SprayJob::residual ? 0.0 : rules_.rain_free_h);
    for (std::size_t later = i + 1; later < hours_.size(); ++later) {
      const double ends = clock_h(hours_[later], day_);
      const double starts = clock_h(hours_[later - 1], day_);
      if (starts >= dry_until) break;
      verdict_.rain_known = verdict_.rain_known || hours_[later].rain.has_value();
      if (!hours_[later].rain || *hours_[later].rain <= rules_.trace) continue;
      if (ends <= step_end)
        note(SprayGate::rain, true, "Rain in some hours");
      else
        note(SprayGate::rain_soon, true,
             fmt::format("Rain within {:g} hours after some hours", rules_.rain_free_h));
      return false;
    }
    return true;
  }

  void note(SprayGate gate, bool stops, std::string text) {
    for (SprayFinding& finding : verdict_.findings) {
      if (finding.gate != gate) continue;
      if (stops && !finding.stops) finding = {gate, stops, std::move(text)};
      return;
    }
    verdict_.findings.push_back({gate, stops, std::move(text)});
  }

  void append(HourRun part) {
    constexpr double touching_h = 1e-6;
    if (!verdict_.runs.empty() && part.from <= verdict_.runs.back().to + touching_h) {
      verdict_.runs.back().to = std::max(verdict_.runs.back().to, part.to);
    } else {
      verdict_.runs.push_back(part);
    }
  }

  Day day_;
  SprayJob job_;
  std::span<const HourlyObservation> hours_;
  const SprayRules& rules_;
  bool damp_air_allowed_;
  HourRun light_;
  HourRun calm_;
  HoursVerdict verdict_;
};

}  // namespace

HourRun plain_daytime(Day day, const SpraySite& site, const SprayRules& rules) {
  const auto sun = sun_hours(site.place, site.utc_offset_hours, day);
  if (!sun) return {0.0, 24.0};
  const double from = sun->sunrise + rules.inversion_after_sunrise_h;
  return {from, std::max(from, sun->sunset - rules.inversion_before_sunset_h)};
}

HoursVerdict usable_hours(Day day, SprayJob job, std::span<const HourlyObservation> hours,
                          const SpraySite& site, const SprayRules& rules) {
  return HourJudge{day, job, hours, site, rules}.judge();
}

}  // namespace soilclock::treatment
