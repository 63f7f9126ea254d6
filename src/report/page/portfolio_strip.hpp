// SPDX-License-Identifier: MIT
// The small picture of a season in a row of the portfolio.
#pragma once

#include <span>
#include <string>

#include "advice/answer/answer.hpp"

namespace soilclock::report {

/// The days that all strips of one grass show, around `on`: as far as their kinds reach, half a year at most.
DayRange strip_days(std::span<const advice::TargetAnswer* const> targets, Day on);

/// Month names over the strips, with the word "today".
std::string strip_axis(DayRange days, Day on);

/// Kinds by percent emerged with slanted joints, best weeks framed, a line over the weeks that are good, half
/// up as a lozenge, usual half up as a ring, today. `id` is unique in the page, `name` the course.
std::string season_strip(const advice::TargetAnswer& target, DayRange days, Day on, const std::string& id,
                         const std::string& name);

}  // namespace soilclock::report
