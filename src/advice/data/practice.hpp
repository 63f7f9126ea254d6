// SPDX-License-Identifier: MIT
// Thresholds and rules of thumb as read from config/practice.json: working numbers the user may change,
// soil rules shown beside the model's answer, and the cautions printed under every answer.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "advice/data/decision_rules.hpp"
#include "core/depth.hpp"
#include "core/fraction.hpp"
#include "core/model_head.hpp"
#include "core/parameter.hpp"
#include "core/problem.hpp"
#include "core/rain.hpp"
#include "core/temperature.hpp"

namespace soilclock::advice {

/// A share with its grounds.
struct PracticeShare {
  Fraction value;
  Grounds grounds;
};

/// What the emerged percent E of the season means for the kind of treatment. No paper prints these cut-offs.
struct PracticeThresholds {
  PracticeShare hold_below;  ///< E in hold_look_ahead_days under this: hold
  int hold_look_ahead_days = 0;
  Grounds hold_look_ahead_grounds;
  PracticeShare pre_up_to;             ///< middle of E up to this ...
  PracticeShare pre_upper_band_up_to;  ///< ... and its high end up to this: a residual alone
  PracticeShare post_from;             ///< E from this: foliar alone; settable between the two below
  Fraction post_from_least, post_from_most;
  PracticeShare second_pre_from;       ///< still to come, worth asking
  PracticeShare second_pre_firm_from;  ///< still to come, called for
};

/// How long a turf state that somebody noted overrides the estimate.
struct NotedTurf {
  int holds_days = 0;
  Grounds holds_grounds;
  int ended_by_hard_nights = 0;  ///< nights at or below the hard-frost limit of the turf rules
  Grounds ended_grounds;
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
  PracticeShare resistant_by_test;  ///< plants a group no longer kills where a test found resistance, no more
  DecisionRules decision;
  NotedTurf noted_turf;
  std::vector<SoilRule> soil_rules;
  std::vector<Caution> cautions;
};

/// Reads a practice file strictly: unknown or missing key, wrong unit, missing basis or note, thresholds out
/// of order are request problems with their place.
Result<Practice> read_practice(std::string_view text, const std::string& file);

}  // namespace soilclock::advice
