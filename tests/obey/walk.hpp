// SPDX-License-Identifier: MIT
// Walks the seasons of a station Monday by Monday as a manager who follows the advice, and sets what came of
// it beside the best that could have been done and beside three rivals.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "obey/season_table.hpp"

namespace soilclock::obey {

enum class Rival : std::size_t { fixed_date, soil_rule, own_week };
inline constexpr std::size_t rival_count = 3;

/// One season under one plan. Regret is what was lost against the best choice in hindsight, in points.
struct Case {
  std::string station;
  std::string target;
  std::size_t plan = 0;
  int year = 0;
  bool one_year = false;
  Day best_monday{};
  treatment::Kind best_kind = treatment::Kind::pre;
  double best_net = 0.0;
  std::optional<Day> said_monday;  ///< empty: never a word to treat
  treatment::Kind said_kind = treatment::Kind::pre;
  double regret = 0.0;
  std::array<std::optional<double>, rival_count> rivals;  ///< regrets
  std::optional<double> weeks_off_usual;  ///< best week against the station's median best week
};

/// What came of the seasons of one station and target.
struct Walked {
  std::vector<Case> cases;
  int seasons = 0;
  int refused = 0;         ///< seasons that could not be judged
  int no_single_week = 0;  ///< seasons of a climate without a single wave
  int unsaid = 0;          ///< cases in which the record ended before a word to treat
  int mondays = 0;         ///< answers asked for
};

/// `years`: the seasons to walk; the judged ones from `record_from` on give the own week and the usual one.
Walked walk_station(const Station& station, const TargetSettings& target, const std::vector<int>& years,
                    int record_from, const advice::Catalogue& catalogue);

}  // namespace soilclock::obey
