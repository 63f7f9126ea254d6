// SPDX-License-Identifier: MIT
// How uncertain the parts of a treatment are, and what counts as best week, window and kind.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "core/fraction.hpp"
#include "core/problem.hpp"
#include "core/random.hpp"
#include "treatment/kill_matrix.hpp"

namespace soilclock::treatment {

/// models/treatment/reach_settings.json; the defaults are the same numbers. The shares of the season's
/// emergence that divide the kinds stand in config/practice.json and are put in by whoever loads both.
struct ReachSettings {
  // Spread of what nobody knows before spraying; each uniform.
  double foliar_failure_most = 0.3;
  double residual_failure_most = 0.4;
  double residual_weeks_least = 8.0;
  double residual_weeks_most = 16.0;
  double contact_share = 0.5;
  // What follows from the numbers; points are percent points of the season's seedlings.
  double window_points = 5.0;
  double tie_points = 1.0;
  double pre_alone_within_points = 5.0;
  Fraction post_from = Fraction::from_percent(80.0);
  Fraction second_pre_from = Fraction::from_percent(5.0);
  Fraction second_pre_firm_from = Fraction::from_percent(10.0);
  Fraction hold_below = Fraction::from_percent(1.0);
  int hold_look_ahead_days = 21;
};

/// Reads reach settings; a request problem names the place (unknown key, reversed span, missing grounds).
Result<ReachSettings> read_reach_settings(std::string_view json, const std::string& file);

/// What one member assumes of the treatment.
struct MemberDraw {
  FoliarPartner partner = FoliarPartner::contact;
  Fraction foliar_failure;
  Fraction residual_failure;
  double residual_weeks = 12.0;
};

/// What a plan already settles; empty parts are drawn.
struct KnownParts {
  std::optional<FoliarPartner> partner;
  std::optional<double> residual_weeks;
  Fraction foliar_resistant;    ///< share of the plants no foliar group of the plan kills
  Fraction residual_resistant;  ///< share of the plants no residual group of the plan kills
};

/// The draw of one member. Depends on seed and member number only, so that other inputs move an answer and do
/// not reshuffle it.
MemberDraw draw_parts(const RandomField& field, std::uint64_t member, const ReachSettings& settings,
                      const KnownParts& known = {});

}  // namespace soilclock::treatment
