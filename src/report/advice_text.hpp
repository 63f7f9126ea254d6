// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "report/advice_json.hpp"

namespace soilclock::report {

/// The answer of one site for people: one plain sentence a target, then why, then dates, then doubts.
std::string advice_text(const advice::SiteAnswer& site, bool us_units);

/// What stands once below all sites: sources and cautions.
std::string closing_text(const AnswerFrame& frame);

/// The headline alone: "Copper Heron, annual bluegrass: ...".
std::string headline(const advice::SiteAnswer& site, const advice::TargetAnswer& target);

}  // namespace soilclock::report
