// SPDX-License-Identifier: MIT
// The soil-temperature rules of thumb.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "advice/data/practice.hpp"
#include "advice/site/site_soil.hpp"
#include "core/remark.hpp"

namespace soilclock::advice {

/// A soil-temperature rule of thumb, read off the site's soil up to the day of the answer.
struct SoilRuleStatus {
  std::string id;
  std::string title;
  std::string meaning;
  Temperature level;
  bool falling = false;  ///< the soil is to stay below the level, else above it
  Depth depth = Depth::from_cm(5.0);
  int days = 1;                  ///< in a row
  std::optional<Day> first_run;  ///< first day of the first run that lasts long enough
  std::optional<Day>
      last_run;       ///< first day of the run that holds now; empty when the soil is on the other side
  int reversals = 0;  ///< how often it turned back after the first run
  bool habit_of_last_run = false;  ///< the habit counts the run that holds now, else the first one
  std::optional<Rain> rain_asked;  ///< of seven days, for habits that ask for rain as well
  std::optional<Rain> rain_now;    ///< of the seven days before the answer, where known

  /// The day the habit calls for; empty: not yet, or not now.
  const std::optional<Day>& habit_day() const { return habit_of_last_run ? last_run : first_run; }
};

/// The rules of thumb of a target as the site's soil stands in the morning of the answer. Looked at from 1
/// August on for fall species and 1 February on for summer annuals (half a year later in the south): before,
/// cool summer nights and warm winter spells would count.
std::vector<SoilRuleStatus> read_soil_rules(const Practice& practice, const std::string& target,
                                            const Season& season, const SiteWeather& site,
                                            const SiteSoil& soil);

/// Remark "soil-date-moved" for each habit whose day, as `readings` of read_soil_rules have it, is another
/// than the one that followed from the probe readings up to each day: what was said before does not move in
/// silence.
std::vector<Remark> dates_moved_by_later_readings(const std::vector<SoilRuleStatus>& readings,
                                                  const Practice& practice, const std::string& target,
                                                  const Season& season, const SiteWeather& site,
                                                  const SiteSoil& soil);

}  // namespace soilclock::advice
