// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "report/advice_json.hpp"

namespace soilclock::report {

/// A message to paste: at most five lines of at most 100 columns (site, what to do, until when, next, care),
/// each ending in a line feed. Seed that must be heeded first takes the place of "next".
std::string message(const advice::SiteAnswer& site, const advice::TargetAnswer& target,
                    const AnswerFrame& frame);

/// What all areas of a course come to: for each grass a line of course, grass and day, then a line a clause
/// of its summary, and the care line once. Lines as above.
std::string message(const advice::CourseSummary& course, const AnswerFrame& frame);

/// The message about the site's most urgent grass; about what went wrong where none was answered.
std::string message(const advice::SiteAnswer& site, const AnswerFrame& frame);

}  // namespace soilclock::report
