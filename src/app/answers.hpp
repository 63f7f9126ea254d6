// SPDX-License-Identifier: MIT
// Answering for one or many sites: one site's failure does not stop the others.
#pragma once

#include <functional>
#include <vector>

#include "advice/answer/answer.hpp"
#include "advice/comparison/comparison.hpp"
#include "app/in_order.hpp"
#include "app/site_requests.hpp"
#include "site/site_answer.hpp"

namespace soilclock::app {

/// Takes an answer; false: no more are wanted.
using TakeAnswer = std::function<bool(advice::SiteAnswer)>;

/// Reads files and records of a site, those of its neighbors too, and gives what is left to be done for its
/// answer: to work it out, on any thread, and then, in the order of the sites, to put in what changed since
/// an earlier answer and hand it on. A problem with the site's files is in the answer. `shared` as in
/// request_for; everything named must outlive the work.
Work answering(const Site& site, const SiteOptions& options, Day on, const advice::Catalogue& catalogue,
               const Wanted& wanted, SharedWeather* shared, TakeAnswer take);

/// Answers sites in their order, up to `jobs` of them at once; see work_in_order.
void answer_in_order(int jobs, const Question& question, const SiteOptions& options, const Wanted& wanted,
                     const TakeAnswer& take);

/// The answer of one site.
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
