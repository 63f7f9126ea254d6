// SPDX-License-Identifier: MIT
// The season in one picture: kinds of treatment, seedlings, past seasons, soil, rain, notes and expected
// control on one time axis.
#pragma once

#include <string>

#include "advice/answer/answer.hpp"

namespace soilclock::report {

/// Wide for large screens and for paper. A phone has a drawing of its own: a wide one scaled down that far
/// could not be read.
enum class PlateForm { wide, phone };

/// Whether there is a season to draw: the day table was asked for and a share is known.
bool has_plate(const advice::TargetAnswer& target);

/// The plate of a target that has one. `id` is unique in the page. The seedlings up by the answer `behind`,
/// where there is one, stand as a line behind those of the target.
std::string season_plate(const advice::SiteAnswer& site, const advice::TargetAnswer& target, PlateForm form,
                         const std::string& id, const advice::TargetAnswer* behind = nullptr);

/// The days the wide plate shows, for tables that say the same.
DayRange plate_span(const advice::TargetAnswer& target, Day on);

}  // namespace soilclock::report
