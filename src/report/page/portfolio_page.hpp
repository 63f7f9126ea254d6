// SPDX-License-Identifier: MIT
// Many courses on one page: which is next, and how its season stands.
#pragma once

#include <span>
#include <string>

#include "report/advice_json.hpp"

namespace soilclock::report {

/// One table a grass with a row a course, the most urgent first; courses with nothing left and those without
/// an answer in a line each. `files[i]` is the name of the page of `sites[i]` in the same folder; empty where
/// none could be written. Filters and sorts by an inline script; whole without it.
std::string portfolio_page(std::span<const advice::SiteAnswer> sites, std::span<const std::string> files,
                           const AnswerFrame& frame);

/// What stands in the body of that page, without the script.
std::string portfolio_body(std::span<const advice::SiteAnswer> sites, std::span<const std::string> files,
                           const AnswerFrame& frame);

}  // namespace soilclock::report
