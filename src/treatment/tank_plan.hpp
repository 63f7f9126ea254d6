// SPDX-License-Identifier: MIT
// What a site means to put down, as its parts act on one grass. It takes a plan as it is; it never proposes
// an active.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "treatment/actives.hpp"
#include "treatment/grass_control.hpp"

namespace soilclock::treatment {

enum class FoliarClass { none, contact, translocated };
/// "none", "contact", "translocated".
std::string_view name(FoliarClass foliar);

/// A plan in the user's words: actives and groups, or how long the residual lasts and what kind of foliar
/// goes with it. What is not said stays open.
struct TankPlan {
  std::vector<PlanEntry> entries;
  std::optional<double> residual_weeks;  ///< at 20 C; 0: no residual
  std::optional<FoliarClass> foliar;
  /// Whether anything was said.
  bool given() const { return !entries.empty() || residual_weeks || foliar; }
};

/// Resistance at a site: share of the plants a group does not kill, by group.
using ResistantShares = std::map<int, Fraction>;

/// One site of action on plants that are up.
struct FoliarPart {
  int group = 0;
  std::vector<KillByStage> rows;  ///< one, or two that are equally likely
  Fraction resistant;
};

/// One site of action on seedlings to come.
struct ResidualPart {
  int group = 0;
  ParameterSpan weeks;     ///< at 20 C
  ParameterSpan greatest;  ///< percent of the seedlings a full, active dose stops
  Fraction resistant;
};

/// A treatment against one grass. An empty list: the treatment has no such part.
struct TreatmentParts {
  std::vector<FoliarPart> foliar;        ///< each group once
  std::vector<ResidualPart> residual;    ///< each group once
  std::vector<std::string> not_counted;  ///< actives of the plan nothing is known of on this grass
  std::vector<std::string> more_sprays;  ///< actives whose figures need more than one spray
};

/// The parts of a treatment nobody named: one foliar active and one residual.
TreatmentParts unnamed_parts(const GrassControl& grass);

/// The parts of a plan on a grass; what the plan leaves open is as unnamed. Actives of one group count once,
/// with the better figure of each stage and the longer residual. A mixture with figures of its own stands for
/// its actives. An active without figures of its own on this grass has those of its class up to its oldest
/// stage, where the grass has classes, else it is not counted. A bare group counts as what most of its
/// actives are, on plants that are up with the weakest of their figures; a group of foliar actives without
/// figures on this grass counts as an unnamed partner.
TreatmentParts parts_of(const TankPlan& plan, const GrassControl& grass, const ResistantShares& resistant,
                        const Actives& actives);

}  // namespace soilclock::treatment
