// SPDX-License-Identifier: MIT
// Advice as text: what to do first, the few lines that matter, and everything else on request.
#pragma once

#include <span>
#include <string>

#include "report/advice_json.hpp"

namespace soilclock::report {

/// What the areas of each course come to, a sentence a grass; empty where no course has areas.
std::string courses_text(std::span<const advice::CourseSummary> courses);

/// One site in short: for each grass the headline and the lines that matter, then fit days and age of the
/// data.
std::string advice_brief(const advice::SiteAnswer& site);

/// Everything below the short answer: reasons, dates, the weeks in figures, models, rules of thumb, sources.
std::string advice_details(const advice::SiteAnswer& site);

/// Many sites: a row for each grass still open, most urgent first; those with nothing left are counted.
std::string advice_table(std::span<const advice::SiteAnswer> sites);

/// What stands once below all sites: the cautions in one line.
std::string closing_text(const AnswerFrame& frame);

/// "Copper Heron, annual bluegrass: Treat this week ...": the headline with site and grass.
std::string headline(const advice::SiteAnswer& site, const advice::TargetAnswer& target);

}  // namespace soilclock::report
