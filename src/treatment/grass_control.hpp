// SPDX-License-Identifier: MIT
// What treatments do to one grass: which share of the plants of a stage a foliar active kills, how long and
// how well a residual keeps plants from coming up, and how far field results stray from both.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/fraction.hpp"
#include "core/parameter.hpp"
#include "core/problem.hpp"
#include "core/temperature.hpp"
#include "emergence/stage_class.hpp"

namespace soilclock::treatment {

/// Share of the plants killed, by stage class, youngest first.
using KillByStage = std::array<Fraction, emergence::stage_count>;

/// The foliar action of an active (or of a class of actives) on susceptible, well-watered plants.
struct KillRow {
  std::string name;                  ///< "contact", "fenoxaprop", "mesotrione + triclopyr"
  std::vector<std::string> actives;  ///< common names the row is for; empty for a class of actives
  int sprays = 1;                    ///< how many sprays, about three weeks apart, the figures need
  KillByStage kill{};
  std::array<Grounds, emergence::stage_count> grounds;
};

/// Loss of foliar action in the cold: the kill is multiplied by least + (1 - least) * clamp((Tmax5 -
/// from)/span, 0, 1), Tmax5 being the mean maximum of the five days from spraying.
struct WarmthRule {
  double least = 0.0;
  Temperature from;
  TemperatureDelta span;
  int days = 0;
};

/// The factor least ... 1 for a mean maximum. Unknown temperature gives not-a-number.
double warmth_factor(Temperature mean_maximum, const WarmthRule& rule);

/// How an active acts in the soil on one grass, where that differs from the list of actives.
struct ResidualAction {
  std::string active;   ///< common name
  ParameterSpan weeks;  ///< at 20 C
};

/// One file of models/treatment/control/: a grass or a few grasses that share their figures.
struct GrassControl {
  std::string id;
  std::string title;
  std::vector<std::string> targets;  ///< EPPO codes
  std::string basis_in_short;        ///< one sentence for every answer: what rests on what

  // Foliar part.
  std::vector<KillRow> rows;
  std::vector<std::string>
      unnamed_rows;                  ///< one or two rows a foliar partner nobody named is drawn from, evenly
  double row_spread_points = 0.0;    ///< a whole row is drawn this far up or down, evenly
  double foliar_failure_most = 0.0;  ///< a further loss between none and this share, evenly
  Fraction young_seedlings;          ///< what a residual alone kills of plants just up
  int young_up_to_days = 0;          ///< how long a plant counts as just up
  std::optional<WarmthRule> warmth;  ///< absent: warm days throughout

  // Residual part.
  ParameterSpan unnamed_weeks;                     ///< of a residual nobody named, at 20 C
  std::vector<ResidualAction> residuals;           ///< where this grass differs from the list of actives
  ParameterSpan greatest;                          ///< percent of the seedlings a full, active dose stops
  std::map<int, ParameterSpan> greatest_by_group;  ///< where a group does better or worse
  std::map<std::string, ParameterSpan> greatest_by_active;
  /// Largest share of the promised residual effect lost in a bad year, for a short and a long residual; in
  /// between by weeks.
  double failure_most_short = 0.0;
  double failure_most_long = 0.0;
  double short_weeks = 0.0;
  double long_weeks = 0.0;

  Fraction cap;  ///< no total is printed above this
  /// Share of collections of one state found with some resistance, by group; a warning, not a share of
  /// plants.
  std::map<int, Parameter> collections_resistant;

  /// The row of that name; null when there is none.
  const KillRow* row(std::string_view name) const;
};

/// Reads a file of models/treatment/control/. Problems of the request family name the place: unknown keys, a
/// stage missing or twice, a row named twice, an unnamed partner without a row,
/// numbers without grounds.
Result<GrassControl> read_grass_control(std::string_view json, const std::string& file);

}  // namespace soilclock::treatment
