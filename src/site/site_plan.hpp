// SPDX-License-Identifier: MIT
// What a site means to put down and what its plants no longer die of, as the user says it: in the site file
// or with --plan. Names are looked up later, against the list of actives in use.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "advice/data/catalogue.hpp"
#include "core/fraction.hpp"
#include "core/json_reader.hpp"
#include "treatment/tank_plan.hpp"

namespace soilclock {

/// A plan in the user's words: actives and groups, or weeks of residual and the kind of foliar.
struct SitePlan {
  struct Entry {
    std::string text;  ///< as typed: "prodiamine", "3"
    InputPlace where;
  };
  std::vector<Entry> entries;
  std::optional<double> residual_weeks;  ///< 0 to 52; 0: no residual
  std::optional<treatment::FoliarClass> foliar;
};

/// Resistance to a group at a site.
struct SiteResistance {
  int group = 0;
  std::optional<Fraction>
      share;  ///< of the plants it no longer kills; empty: a test found resistance, no more
};

/// Reads the keys "plan" and "resistance" of a site; problems stand at their place in `file`.
SitePlan read_site_plan(const JsonObject& site, const std::string& file);
std::vector<SiteResistance> read_site_resistance(const JsonObject& site);

/// Reads the words of --plan: "prodiamine + simazine", "3, 5", "16 weeks, contact", "8 weeks, none". A
/// request problem that says what is accepted otherwise; names are not looked up.
Result<SitePlan> parse_plan(std::string_view text);

/// The plan with its actives and groups looked up. An active that is not known is a request problem at its
/// place with the nearest name. The result points into the catalogue.
Result<treatment::TankPlan> tank_plan(const SitePlan& plan, const advice::Catalogue& catalogue);

/// Shares by group; a test without a share counts as practice has it.
treatment::ResistantShares resistant_shares(const std::vector<SiteResistance>& resistance,
                                            const advice::Practice& practice);

}  // namespace soilclock
