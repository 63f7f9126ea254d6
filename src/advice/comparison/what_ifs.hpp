// SPDX-License-Identifier: MIT
// What a warmer or cooler soil, other watering or a hole in the weather would change, asked on one morning.
#pragma once

#include <optional>

#include "advice/answer/site_state.hpp"
#include "advice/comparison/comparison.hpp"
#include "advice/data/catalogue.hpp"
#include "advice/ensemble/season_ensemble.hpp"
#include "advice/hindcast/hindcast_history.hpp"
#include "treatment/tank_plan.hpp"

namespace soilclock::advice {

/// Whose season is asked about, and how. Everything must outlive the call.
struct WhatIfQuestion {
  const emergence::Target* target = nullptr;
  const TurfFacts* turf_facts = nullptr;
  const treatment::TankPlan* plan = nullptr;
  const treatment::ResistantShares* resistant = nullptr;
  EnsembleDraws draws;
};

/// The cases for the latest season whose morning (the practice file's "asked_on") is not after `on`, with
/// nothing known from that morning on, no soil readings and nothing noted. Empty when the day before that
/// morning is not known or no single wave can be named at the site.
std::optional<WhatIfTable> what_ifs(const SiteHistory& history, Day on, const WhatIfQuestion& question,
                                    const Catalogue& catalogue);

}  // namespace soilclock::advice
