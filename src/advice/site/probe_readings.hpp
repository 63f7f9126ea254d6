// SPDX-License-Identifier: MIT
// Readings of a hand probe made into daily means, with what must be said about how they were taken.
#pragma once

#include <string>
#include <vector>

#include "advice/site/site_log.hpp"
#include "advice/site/site_weather.hpp"
#include "core/remark.hpp"
#include "soil/probe_rules.hpp"

namespace soilclock::advice {

struct ProbeEvidence {
  std::vector<soil::SpotMean> spots;
  std::vector<Remark> remarks;
};

/// The readings of probe files and of the log up to the day of the answer; of that day itself only those
/// whose hour is known ("reading-needs-hour" where one is left out). Readings of one day and depth become one
/// mean, the surer the more there are. The daily wave is taken out with the day's range of air, else with
/// that of the day before, else with the usual one; without an hour a reading is taken as the mean of its
/// day. Remark "reading-used": how the newest readings were taken, when they are no older than a week, and at
/// which hour none of it would be needed, where the correction was large. `site` needs its day, outlook start
/// and daily weather.
ProbeEvidence take_readings(const std::vector<weather::ProbeObservation>& of_files,
                            const std::vector<LoggedReading>& logged, const SiteWeather& site,
                            const soil::ProbeRules& rules, bool us_units);

/// "11 a.m. at 2 in and 2 p.m. at 4 in (standard time)": when a reading is the mean of its day as it is.
std::string hours_without_correction(const soil::ProbeRules& rules);

}  // namespace soilclock::advice
