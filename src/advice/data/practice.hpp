// SPDX-License-Identifier: MIT
// Thresholds and rules of thumb as read from config/practice.json: working numbers the user may change,
// soil rules shown beside the model's answer, and the cautions printed under every answer.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "advice/data/decision_rules.hpp"
#include "advice/data/hindcast_rules.hpp"
#include "core/depth.hpp"
#include "core/fraction.hpp"
#include "core/model_head.hpp"
#include "core/parameter.hpp"
#include "core/problem.hpp"
#include "core/rain.hpp"
#include "core/season.hpp"
#include "core/temperature.hpp"
#include "emergence/emergence_model.hpp"

namespace soilclock::advice {

/// Shares of a season's seedlings, in percent, whose days answers name.
inline constexpr std::array answered_shares{5, 10, 25, 50, 80, 90};

/// What the emerged percent E of the season means for the kind of treatment. No paper prints these cut-offs.
struct PracticeThresholds {
  Fraction hold_below;  ///< E in hold_look_ahead_days under this: hold
  int hold_look_ahead_days = 0;
  Fraction pre_up_to;             ///< middle of E up to this ...
  Fraction pre_upper_band_up_to;  ///< ... and its high end up to this: a residual alone
  Fraction post_from;        ///< E from this: foliar alone; the file says between which shares it may lie
  Fraction second_pre_from;  ///< still to come, worth asking
  Fraction second_pre_firm_from;  ///< still to come, called for
  Fraction main_wave_over;        ///< share of the main wave from which it counts as over
};

/// Known days that make the mean of a week.
struct WeeklyMeanRules {
  int temperature_days = 0;
  int rain_days = 0;
};

/// How long a turf state that somebody noted overrides the estimate.
struct NotedTurf {
  int holds_days = 0;
  int ended_by_hard_nights = 0;  ///< nights at or below the hard-frost limit of the turf rules
};

/// How old the weather behind an answer may be, in days without a measured value.
struct DataAgeRules {
  int oldest_days = 0;        ///< older: no answer
  int mention_from_days = 0;  ///< from here on the answer says so
};

/// Last day of a season that it is answered for; from the next on the season that follows is.
struct AnsweredTo {
  int fall = 0;
  int summer = 0;
  int day(SeasonKind kind) const { return kind == SeasonKind::fall ? fall : summer; }
};

/// How seasons that are over are run again, to stand beside the present one.
struct PastSeasonRules {
  int members = 0;           ///< of each past season's ensemble
  int fewest_for_usual = 0;  ///< seasons from which a usual one is named
};

/// What seasons, rules and changed sites are compared by.
struct ComparisonRules {
  int yardstick_percent = 0;  ///< up: the day calls for the first residual are measured from
  emergence::MonthDay fall_calendar;
  emergence::MonthDay summer_calendar;
  emergence::MonthDay fall_asked_on;
  emergence::MonthDay summer_asked_on;
  TemperatureDelta small_soil_shift;
  TemperatureDelta large_soil_shift;
  int missing_days = 0;
  int dry_days = 0;          ///< ahead, in a what-if
  int frost_after_days = 0;  ///< how far ahead the frost of a what-if lies
  Temperature frost_low;     ///< the minimum of that day
  Temperature lesson_base;   ///< of the worked degree-day example
  /// A usual calendar date for the first residual.
  const emergence::MonthDay& calendar_day(SeasonKind kind) const {
    return kind == SeasonKind::fall ? fall_calendar : summer_calendar;
  }
  /// The morning that what-ifs are asked on.
  const emergence::MonthDay& asked_on(SeasonKind kind) const {
    return kind == SeasonKind::fall ? fall_asked_on : summer_asked_on;
  }
};

/// What counts as a change against an earlier answer.
struct ChangeRules {
  int best_weeks_moved_days = 0;  ///< best weeks that begin more than so many days earlier or later
};

/// A soil-temperature habit: a run of days below or above a temperature.
struct SoilRule {
  enum class Direction { falling, rising };
  enum class Statistic { daily_mean, trailing_week };
  enum class WhichRun { first, last };
  std::string id;
  std::vector<std::string> targets;  ///< EPPO codes
  std::string title;
  Direction direction = Direction::falling;
  Temperature temperature;  ///< falling: at or below; rising: at or above
  Depth depth = Depth::from_cm(5.0);
  Statistic statistic = Statistic::daily_mean;
  int run_days = 1;  ///< consecutive days it must hold
  WhichRun which = WhichRun::first;
  std::optional<Rain> rain_of_seven_days;  ///< shown beside, not part of the run
  std::string meaning;
  FileGrounds grounds;
};

/// A short text printed under answers.
struct Caution {
  std::string id;
  std::string text;
  bool brief = false;  ///< among the few printed below every text answer
};

struct Practice {
  PracticeThresholds thresholds;
  WeeklyMeanRules weekly_means;
  Fraction resistant_by_test;  ///< plants a group no longer kills where a test found resistance, no more
  DecisionRules decision;
  NotedTurf noted_turf;
  DataAgeRules data_age;
  AnsweredTo answered_to;
  PastSeasonRules past_seasons;
  ComparisonRules comparison;
  ChangeRules changes;
  HindcastRules hindcast;
  std::vector<SoilRule> soil_rules;
  std::vector<Caution> cautions;
};

/// Reads a practice file strictly: unknown or missing key, wrong unit, missing basis or note, thresholds out
/// of order are request problems with their place.
Result<Practice> read_practice(std::string_view text, const std::string& file);

}  // namespace soilclock::advice
