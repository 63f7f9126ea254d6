// SPDX-License-Identifier: MIT
// What is walked, the rivals, the aims and the bars: the file obey.json beside this one.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/problem.hpp"
#include "emergence/emergence_model.hpp"
#include "treatment/expected_control.hpp"

namespace soilclock::obey {

struct TargetSettings {
  std::string code;
  int first_season = 0;  ///< years in which seasons begin
  int last_season = 0;
  std::vector<int> quick_seasons;
  emergence::MonthDay judged_on;  ///< when a season is over and what it gave is known
  emergence::MonthDay fixed_day;  ///< rival: every year in the week of this day ...
  treatment::Kind fixed_kind = treatment::Kind::pre;
  std::string soil_rule;  ///< rival: the first Monday after this habit of config/practice.json holds
  treatment::Kind soil_kind = treatment::Kind::pre;
};

/// In points of expected control; shares as 0..1.
struct Aims {
  double mean = 0.0;
  double p95 = 0.0;
  double worst = 0.0;
  double share_of_habits = 0.0;  ///< of the mean regret of fixed date and soil rule
  double above_own_week = 0.0;   ///< above the mean regret of the site's own best week
  double steps_over_one_week_percent = 0.0;
};

struct StepsSettings {
  std::vector<std::string> stations;
  int season = 0;
  double near_normal_c = 0.0;  ///< a step counts when the new day's mean is this near to normal
};

struct Settings {
  std::vector<TargetSettings> targets;
  int record_from = 0;      ///< first season that may serve as an earlier one
  int one_year_season = 0;  ///< of the stations with a single year
  std::vector<std::string> quick_stations;
  StepsSettings steps;
  Aims aims;
  std::map<std::string, double> quick_bars;  ///< mean regret over all plans, by target
  std::map<std::string, double> full_bars;
};

/// Reads obey.json strictly.
Result<Settings> read_settings();

}  // namespace soilclock::obey
