// SPDX-License-Identifier: MIT
// A course's answer as one page for screen, phone and paper: self-contained, without script, nothing fetched.
#pragma once

#include <string>

#include "report/advice_json.hpp"

namespace soilclock::report {

/// The page of one site: for each target still open what to do, how sure, the season in pictures and the same
/// in tables; finished targets and those without an answer in one line each.
std::string course_page(const advice::SiteAnswer& site, const AnswerFrame& frame);

/// What stands in the body of that page, for a page that shows one course after another.
std::string course_body(const advice::SiteAnswer& site, const AnswerFrame& frame);

}  // namespace soilclock::report
