// SPDX-License-Identifier: MIT
// The reliability picture: what chance was given against how often it came, as a drawing of its own (SVG, no
// script, readable without color).
#pragma once

#include <string>

#include "report/hindcast_report.hpp"

namespace soilclock::report {

/// One panel for each site and event, one line for each issue date, distinguished by dash and mark. On the
/// diagonal the forecasts mean what they say; above it the day came earlier than forecast, below it later.
/// The shaded band is what chance alone allows in four of five pictures of honest forecasts (binomial, the
/// fewest seasons of the lines drawn).
std::string hindcast_chart(const HindcastReport& report);

}  // namespace soilclock::report
