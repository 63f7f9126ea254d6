// SPDX-License-Identifier: MIT
// How good past forecasts would have been, as text, JSON and CSV.
#pragma once

#include <string>
#include <vector>

#include "advice/hindcast/hindcast.hpp"
#include "core/problem.hpp"
#include "weather/weather_origin.hpp"

namespace soilclock::report {

struct SiteHindcast {
  std::string site;
  std::string name;
  std::vector<advice::EventHindcast> events;
  std::vector<Remark> remarks;
  std::vector<Problem> problems;
  std::vector<weather::WeatherOrigin> origins = {};  ///< services the weather was fetched from
};

struct HindcastReport {
  advice::HindcastRun run;
  int earlier_seasons = 0;  ///< asked for before a season is judged
  std::vector<SiteHindcast> sites;
};

/// Probabilities of the reliability picture.
inline constexpr double reliability_steps[] = {0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9};

/// "1 Sep".
std::string calendar_words(advice::CalendarDay day);

/// The cases of one issue date.
std::vector<advice::HindcastCase> cases_of(const advice::EventHindcast& event,
                                           advice::CalendarDay issue_date);

/// One plain sentence for each event, then its table.
std::string hindcast_text(const HindcastReport& report);
/// The "soilclock-hindcast" document, version 1.
std::string hindcast_json(const HindcastReport& report);
/// One row for each season and issue date.
std::string hindcast_csv(const HindcastReport& report);

}  // namespace soilclock::report
