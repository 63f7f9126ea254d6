// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <string>

#include "report/advice_json.hpp"

namespace soilclock::report {

/// The dates of many sites as a calendar (iCalendar, RFC 5545), all-day events for each grass: the best
/// weeks, the last good week, the week from which something else takes over, a second pre that is due, the
/// next look. An event keeps its UID from answer to answer of a season (site, grass and what it is), and its
/// SEQUENCE grows with the day of the answer, so that a calendar read again replaces what it had. Events that
/// an earlier report announced and that no longer hold are in it as canceled. The same answers give the same
/// bytes. Empty where there is no date to show: a calendar without an event is none.
std::string calendar_file(std::span<const advice::SiteAnswer> sites, const AnswerFrame& frame);

}  // namespace soilclock::report
