// SPDX-License-Identifier: MIT
// How many sites of action of a plan count, and how diverse it is, in words and as a document. Only what the
// plan itself holds is named: an active that is not in it never appears.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "advice/data/practice.hpp"
#include "core/dates.hpp"
#include "core/remark.hpp"
#include "treatment/mix.hpp"
#include "treatment/site_cautions.hpp"

namespace soilclock::report {

/// An application noted in the season of the plan or an earlier one.
struct NotedSpray {
  Day day{};
  int seasons_ago = 0;      ///< 0: the season of the plan
  std::vector<int> groups;  ///< empty where nobody noted them
};

/// A plan and everything found out about it.
struct MixReport {
  Day date{};
  std::optional<std::string> site;  ///< nothing: no site was named, its history is not known
  Day season_first{};               ///< first day of the season of the plan
  std::vector<treatment::PlanEntry> entries;
  treatment::MixScore score;
  std::vector<NotedSpray> sprays;  ///< latest first
  int seasons_known = 0;
  std::vector<treatment::SeedingWarning> seeding;
  std::vector<Remark> remarks;
  std::vector<advice::Caution> cautions;
};

/// One plain sentence, then hard warnings, groups, score line by line, history, what stands out, cautions in
/// brief.
std::string mix_text(const MixReport& report);

/// The "soilclock-mix" document, version 1.
std::string mix_json(const MixReport& report);

}  // namespace soilclock::report
