// SPDX-License-Identifier: MIT
// Sites of one run in the same group: what one noted in earlier seasons counts for the others, too.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "advice/scouting/earlier_season.hpp"
#include "app/site_options.hpp"
#include "site/site_file.hpp"

namespace soilclock::app {

/// The sites of a run, asked for what they noted when another one of their group is answered.
class Neighbors {
 public:
  /// `sites` must outlive this.
  explicit Neighbors(const std::vector<Site>& sites) : sites_{&sites} {}

  /// Earlier seasons noted at the other courses of the site's group, course by course in the order of the
  /// sites; none for a site without a group. The areas of a course share one log, so the first stands for
  /// all. A course whose files cannot be read has none: its own answer says why.
  std::vector<advice::TargetSeasons> of(const Site& site, const SiteOptions& options, Day on,
                                        const advice::Catalogue& catalogue);

 private:
  const std::vector<Site>* sites_;
  std::map<std::string, std::vector<advice::TargetSeasons>> noted_;  // by course, once asked for
};

}  // namespace soilclock::app
