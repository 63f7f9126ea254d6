// SPDX-License-Identifier: MIT
#include "app/neighbors.hpp"

#include <set>

#include "app/site_requests.hpp"
#include "pipeline.hpp"
#include "site/site_areas.hpp"

namespace soilclock::app {

std::vector<advice::TargetSeasons> Neighbors::of(const Site& site, const SiteOptions& options, Day on,
                                                 const advice::Catalogue& catalogue) {
  std::vector<advice::TargetSeasons> all;
  if (site.group.empty()) return all;
  std::set<std::string> taken{course_id(site)};
  for (const Site& other : *sites_) {
    if (other.group != site.group || !taken.insert(course_id(other)).second) continue;
    const auto [noted, first] = noted_.try_emplace(course_id(other));
    if (first) {
      const auto request = request_for(other, options, on, catalogue);
      if (request) noted->second = noted_seasons(*request, catalogue);
    }
    all.insert(all.end(), noted->second.begin(), noted->second.end());
  }
  return all;
}

}  // namespace soilclock::app
