// SPDX-License-Identifier: MIT
// What several sites of action do together, on plants of which some are resistant.
#pragma once

#include <array>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/problem.hpp"
#include "treatment/grass_control.hpp"

namespace soilclock::treatment {

/// Points of a plan at 0, 1, 2 and 3 groups that count.
using PointsByGroups = std::array<double, 4>;

/// What a plan is scored by, 0 to 100 points in all.
struct MixPoints {
  PointsByGroups on_plants_up{};
  PointsByGroups on_plants_to_come{};
  double shared_work = 0.0;  ///< no group stands alone in several seasons
  double alone_once = 0.0;   ///< left where the same group stood alone in an earlier season but the last
  int alone_remembered_seasons = 0;
  double date_inside = 0.0;
  double date_near = 0.0;
  double escapes = 0.0;
  double practice = 0.0;  ///< each
  int practices_counted = 0;
  double usual_from = 0.0;  ///< below: one escape from trouble
  double usual_to = 0.0;    ///< above: diversified
};

/// models/treatment/mixtures.json.
struct MixtureRule {
  double share_of_expectation = 0.0;  ///< of Colby's expectation that a mixture reaches
  Fraction cap;                       ///< no mixture is taken to do more
  MixPoints points;
  std::set<std::pair<int, int>> full_expectation;  ///< pairs of groups (smaller first) that reach all of it
};

/// Reads models/treatment/mixtures.json; a request problem names the place of what is wrong.
Result<MixtureRule> read_mixture_rule(std::string_view json, const std::string& file);

/// One site of action of a foliar mixture.
struct FoliarAction {
  int group = 0;       ///< HRAC/WSSA number; 0 where it is not known
  KillByStage kill{};  ///< of susceptible plants
  Fraction resistant;  ///< share of the plants it does not kill at all
};

/// Kill by stage of all actions together: Colby's expectation for independent action (E = X + Y - XY/100),
/// times the share of it that mixtures reach, up to the cap, and never less than the best action alone or the
/// best pair that reaches all of its expectation: a further action takes nothing away.
/// Plants resistant to several groups are taken to be the same plants, as nobody has counted them apart: the
/// cautious reading. No action kills nothing. Sources: colby-1967; the share is judgment.
KillByStage combined_kill(std::span<const FoliarAction> actions, const MixtureRule& rule);

}  // namespace soilclock::treatment
