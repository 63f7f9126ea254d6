// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "advice/data/catalogue.hpp"
#include "advice/ensemble/site_climate.hpp"
#include "advice/ensemble/target_run.hpp"

namespace soilclock::advice {

/// The cooling sum the weight of one of the target's members depends on, as the files have it, with its days
/// in a season; empty without such a member.
std::optional<CoolingMark> cooling_mark(const emergence::Target& target, const Catalogue& catalogue,
                                        const Season& season);

/// The members of a target with the weight each earns at this site and season, scaled to a sum of 1; members
/// without weight are left out and go to `unused` with the reason. `climate` is needed for targets with a
/// single-window rule, null for others. A model whose file says so loses its weight outside its validity,
/// evenly over the degrees the file names.
std::vector<WeightedModel> member_weights(const emergence::Target& target, const Catalogue& catalogue,
                                          const Place& place, const Season& season,
                                          const SiteClimate* climate, std::vector<UnusedModel>& unused);

/// Leaves out members that need weather from before `complete_since` (they go to `left_out`); what is kept is
/// scaled to 1 again, and empty when only a calendar would remain: that is no answer from weather.
std::vector<WeightedModel> with_weather_since(std::vector<WeightedModel> members, const Season& season,
                                              Day complete_since, std::vector<WeightedModel>& left_out);

}  // namespace soilclock::advice
