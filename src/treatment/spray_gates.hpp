// SPDX-License-Identifier: MIT
// The two halves of spray-day fitness: what bars a whole day, and what bars single hours of it.
#pragma once

#include <span>
#include <vector>

#include "treatment/spray_day.hpp"

namespace soilclock::treatment {

/// Findings of a whole day from daily values: warmth, rain, frozen or saturated ground, water for a residual,
/// frost ahead. A finding that stops bars the day. `hours_known` leaves rain on the day to the hours.
std::vector<SprayFinding> day_findings(Day day, SprayJob job, const weather::DailyWeather& daily,
                                       const SpraySite& site, const SprayRules& rules, bool hours_known);

/// A part of a day, in hours of the site's clock.
struct HourRun {
  double from = 0.0;
  double to = 0.0;
  double length() const { return to - from; }
};

/// The wind of a part of the daylight.
struct WindPart {
  HourRun part;
  double m_per_s = 0.0;
};

struct HoursVerdict {
  bool known = false;          ///< the day has hourly temperatures
  std::vector<HourRun> runs;   ///< usable daytime, joined
  std::vector<WindPart> wind;  ///< of the daylight, where known
  std::vector<SprayFinding> findings;
  bool wind_known = false;
  bool humidity_known = false;
  bool rain_known = false;
};

/// Usable daytime of a day by its hourly values. A reading stands until the next one, six hours at most.
HoursVerdict usable_hours(Day day, SprayJob job, std::span<const weather::HourlyObservation> hours,
                          const SpraySite& site, const SprayRules& rules);

/// Daytime without the usual hours of inversion: what is left to a day judged without hourly values.
HourRun plain_daytime(Day day, const SpraySite& site, const SprayRules& rules);

}  // namespace soilclock::treatment
