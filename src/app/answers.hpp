// SPDX-License-Identifier: MIT
// Answering for one or many sites: one site's failure does not stop the others.
#pragma once

#include <vector>

#include "advice/answer/answer.hpp"
#include "advice/comparison/comparison.hpp"
#include "app/site_requests.hpp"
#include "site/site_answer.hpp"

namespace soilclock::app {

/// The answer of a site; a problem with its files is in the answer. `shared` as in request_for.
advice::SiteAnswer answer_for(const Site& site, const SiteOptions& options, Day on,
                              const advice::Catalogue& catalogue, const Wanted& wanted,
                              SharedWeather* shared = nullptr);

/// The answer of a site with its seasons, rules and what-ifs side by side.
advice::SiteComparison comparison_for(const Site& site, const SiteOptions& options, Day on,
                                      const advice::Catalogue& catalogue, SharedWeather* shared = nullptr);

/// Every problem of the answers by report_of_site.
void write_problems(const std::vector<advice::SiteAnswer>& answers, const std::string& format,
                    Streams& streams);

}  // namespace soilclock::app
