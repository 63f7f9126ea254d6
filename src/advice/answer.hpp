// SPDX-License-Identifier: MIT
// The answer for one site: what every report is made from.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/band.hpp"
#include "core/place.hpp"
#include "core/problem.hpp"
#include "core/rain.hpp"
#include "core/remark.hpp"
#include "emergence/stages.hpp"
#include "treatment/turf_state.hpp"
#include "treatment/week_kind.hpp"
#include "weather/weather_origin.hpp"

namespace soilclock::advice {

/// Where a target stands today.
enum class State { hold, pre, pre_and_post, post, second_pre, dormant_season, stop, no_single_window };
std::string_view name(State state);  ///< "hold", "pre", "pre+post", ...

/// A member model's say.
struct ModelShare {
  std::string id;
  double weight = 0.0;   ///< share of the ensemble
  double percent = 0.0;  ///< emerged by this model alone (median of its members)
};

/// When a share of the season's emergence is reached.
struct Milestone {
  int percent = 0;
  DateBand date;
};

struct Window {
  treatment::Kind kind = treatment::Kind::pre;
  DateBand opens;
  DateBand closes;
};

/// A soil-temperature habit of the trade, read off the site's soil up to the day of the answer.
struct SoilRuleReading {
  std::string id;
  std::string title;
  std::string meaning;
  std::optional<Day> first_run;  ///< first day of the first run that lasts long enough
  std::optional<Day>
      last_run;       ///< first day of the run that holds now; empty when the soil is on the other side
  int reversals = 0;  ///< how often it turned back after the first run
  bool habit_of_last_run = false;  ///< the habit counts the run that holds now, else the first one
  std::optional<Rain> rain_asked;  ///< of seven days, for habits that ask for rain as well
  std::optional<Rain> rain_now;    ///< of the seven days before the answer, where known
};

/// What the answer was before the counts of the field were used.
struct BeforeScouting {
  Band<double> emerged_percent;
  std::vector<Milestone> milestones;
};

/// One day of a season as the ensemble sees it.
struct SeasonDay {
  Day day{};
  Temperature soil_5cm;      ///< median of the members
  std::optional<Rain> rain;  ///< known days only
  Band<double> emerged_percent;
  double juvenile_percent = 0.0;  ///< of those up, median
  std::string_view origin;        ///< of its air: "measured", "modelled", "filled", ..., "outlook"
};

/// Reach of the weeks from this one to the end of the season; see reach_answer.hpp.
struct ReachAnswer {
  treatment::CautiousReach reach;
  bool starts_this_week = true;  ///< false when the season has not begun: the first week is one to come
  bool past_last_week = false;   ///< plants head or turf breaks dormancy: only this week was looked at
  treatment::WeekVerdict this_week;
  std::optional<Day>
      second_due;  ///< Monday of the first week that calls for a second residual after a logged one
  /// The week whose low is highest, in the kind that week calls for; empty when nothing is worth a treatment
  /// any more.
  std::optional<treatment::BestWeek> best;
};

/// The answer for one target grass at one site.
struct TargetAnswer {
  std::string target;  ///< EPPO code
  std::string title;   ///< "annual bluegrass"
  Day season_start{};
  std::optional<Problem> refusal;  ///< set when no answer can be given; the rest is then empty
  State state = State::hold;
  std::optional<Day> treated_on;  ///< a treatment noted so lately that its effect cannot be seen yet
  Band<double> emerged_percent;
  Band<double> juvenile_percent;  ///< of those up
  emergence::StageShares stages;  ///< means over the members
  std::vector<ModelShare> models;
  std::vector<Milestone> milestones;
  std::optional<BeforeScouting> before_scouting;  ///< where counts moved the curve
  DateBand main_wave_over;
  std::vector<Window> windows;
  std::optional<ReachAnswer> reach;  ///< empty where the kill matrix does not hold, or no window can be named
  std::vector<SoilRuleReading> soil_rules;
  std::vector<std::string> reasons;
  std::vector<Remark> remarks;
  std::vector<SeasonDay> season;  ///< the day table, when asked for
};

/// Weather and soil as the answer used them.
struct WeatherSummary {
  std::optional<Day> first;
  std::optional<Day> last_measured;
  std::optional<Day> last_forecast;
  int missing_days = 0;
  int filled_days = 0;
  std::vector<weather::WeatherOrigin> origins;  ///< services the weather was fetched from
};

struct SoilSummary {
  Depth depth = Depth::from_cm(5.0);
  std::string origin;  ///< "estimated", "measured", "mixed"
  std::optional<Temperature> mean_7d;
  double error_c = 0.0;  ///< standard deviation of the daily value
};

/// Days of the coming week that weather allows, for what the week calls for.
struct SprayWeek {
  std::optional<int> fit_days;
  std::vector<Day> days;  ///< the fit ones
  std::vector<Remark> remarks;
};

struct SiteAnswer {
  std::string site;
  std::string name;
  Place place;
  Day on{};
  WeatherSummary weather;
  SoilSummary soil;
  std::optional<treatment::TurfReading> turf;  ///< bermudagrass and zoysiagrass
  std::optional<SprayWeek> spray;
  std::vector<TargetAnswer> targets;
  std::optional<std::string> first_of_all;  ///< what must be heeded before anything else, one sentence
  std::vector<Remark> remarks;              ///< about the site as a whole
  std::vector<Problem> problems;            ///< what kept (part of) the answer from being given
};

}  // namespace soilclock::advice
