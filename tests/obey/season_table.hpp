// SPDX-License-Identifier: MIT
// What each week and kind gave in a season that is over, and the points a choice kept.
#pragma once

#include <optional>
#include <variant>
#include <vector>

#include "advice/decision/decision.hpp"
#include "core/season.hpp"
#include "obey/asking.hpp"
#include "obey/settings.hpp"

namespace soilclock::obey {

/// A kind in a week, the weeks of a season counted from 0.
struct Choice {
  treatment::Kind kind = treatment::Kind::pre;
  std::size_t week = 0;
};

/// The weeks of one season under one plan.
class SeasonTable {
 public:
  /// `useful`: how many of the weeks, from the first, still count as timed.
  SeasonTable(std::vector<advice::TreatmentWeek> weeks, std::size_t useful, double part_worth)
      : weeks_{std::move(weeks)}, useful_{useful}, part_worth_{part_worth} {}

  std::size_t useful() const { return useful_; }
  Day monday(std::size_t week) const { return weeks_[week].week_of; }
  /// The week a day lies in, the first one for days before.
  std::size_t week_of(Day day) const;

  /// Points of a choice, each part beyond the first taken off. Where the week was gated the next one that was
  /// not is taken; nothing was done, and nothing gained, where none comes.
  double net(const Choice& choice) const;
  /// The useful week and kind with the most points, the earliest on a tie.
  Choice best() const;

 private:
  std::vector<advice::TreatmentWeek> weeks_;
  std::size_t useful_;
  double part_worth_;
};

/// One season as it really came.
struct PastSeason {
  int year = 0;                      ///< in which it began
  std::vector<SeasonTable> tables;   ///< by plan
  std::optional<Day> soil_rule_run;  ///< first day of the run of the rival's soil rule
  bool cut = false;                  ///< the record ends before the season's last useful week
};

/// Why a season cannot be judged.
enum class NotJudged { refused, no_single_week };

Season season_beginning(int year, const TargetSettings& target, const advice::Catalogue& catalogue);

/// A season judged from its end, with its weather known and the draws that answers on its Mondays have.
std::variant<PastSeason, NotJudged> judge_season(const Asker& asker, const Station& station, int year,
                                                 const TargetSettings& target);

}  // namespace soilclock::obey
