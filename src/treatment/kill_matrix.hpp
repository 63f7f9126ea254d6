// SPDX-License-Identifier: MIT
// Which share of the plants of a stage a foliar part kills, and what takes away from that.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "core/fraction.hpp"
#include "core/problem.hpp"
#include "core/temperature.hpp"
#include "treatment/cited_value.hpp"
#include "treatment/stages.hpp"

namespace soilclock::treatment {

/// How the foliar part works on plants that are up.
enum class FoliarPartner : std::size_t {
  contact,       ///< kills what it wets; fades past two tillers
  translocated,  ///< selective, moves in the plant
  mixture,       ///< two or more sites of action effective on the plants
  non_selective  ///< systemic, for dormant turf only
};
inline constexpr std::size_t partner_count = 4;

/// "contact", "translocated", "mixture", "non_selective".
std::string_view name(FoliarPartner partner);

/// Loss of foliar action in the cold: the kill is multiplied by least + (1 - least) * clamp((Tmax5 -
/// from)/span, 0, 1), Tmax5 being the mean maximum of the five days from spraying.
struct WarmthRule {
  double least = 0.55;
  Temperature from = Temperature::from_celsius(8.0);
  TemperatureDelta span = TemperatureDelta::from_kelvin(7.6);
  int days = 5;
};

/// The factor 0.55 ... 1 for a mean maximum. Unknown temperature gives not-a-number.
double warmth_factor(Temperature mean_maximum, const WarmthRule& rule = {});

/// models/treatment/kill_matrix.json.
struct KillMatrix {
  StageLimits limits;
  std::array<std::array<Fraction, stage_count>, partner_count> kill{};
  std::array<std::array<Grounds, stage_count>, partner_count> grounds{};
  Fraction young_seedlings;          ///< what a residual alone kills of plants just up
  int young_up_to_days = 4;          ///< how long a plant counts as just up
  Fraction cap;                      ///< no total is printed above this
  std::optional<WarmthRule> warmth;  ///< absent: warm days throughout
  /// Share of collections of one state found with some resistance, by group; a warning, not a share of
  /// plants.
  std::map<int, CitedValue> collections_resistant;

  Fraction of(FoliarPartner partner, StageClass stage) const {
    return kill[static_cast<std::size_t>(partner)][static_cast<std::size_t>(stage)];
  }
};

/// Reads a kill matrix. Problems of the request family name the place: unknown keys, a class or stage missing
/// or twice, an older stage killed better than a younger one, numbers without grounds.
Result<KillMatrix> read_kill_matrix(std::string_view json, const std::string& file);

/// Share of the plants that no group of a part kills: the smallest of the resistant shares of its groups,
/// since nobody has counted how resistances fall together and the cautious reading is that they do. A group
/// without an entry counts as fully effective; no groups at all kill nothing (1). Source: judgement.
Fraction resistant_to_all(std::span<const int> groups, const std::map<int, Fraction>& resistant_share);

/// Failure share of a part when `resistant` of the plants survive it anyway: 1 - (1 - failure)(1 -
/// resistant).
Fraction failing(Fraction failure, Fraction resistant);

}  // namespace soilclock::treatment
