// SPDX-License-Identifier: MIT
// Teaching sheets: why the calendar fails, from a site's own record. Self-contained, without script, two
// sheets of paper.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "advice/comparison/comparison.hpp"
#include "report/advice_json.hpp"

namespace soilclock::report {

/// The handout of one site and grass: seasons one above another, calls against the yardstick, what-ifs,
/// degree-days by hand with a worksheet and its key.
std::string handout_page(const advice::SiteComparison& site, const advice::TargetComparison& target,
                         const AnswerFrame& frame);

/// What stands in the body of that page. On a page that has a main part already, `main` is "section".
std::string handout_body(const advice::SiteComparison& site, const advice::TargetComparison& target,
                         const AnswerFrame& frame, std::string_view main = "main");

/// The handout of several sites for one grass: this season of each, one above another.
std::string sites_handout_page(const std::vector<advice::SiteComparison>& sites, const std::string& target,
                               const AnswerFrame& frame);

}  // namespace soilclock::report
