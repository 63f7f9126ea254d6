// SPDX-License-Identifier: MIT
// The pictures of a handout: seasons one above another, and how early or late calls were.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "advice/comparison/comparison.hpp"

namespace soilclock::report {

/// How a handout's pictures are called and what they say to those who do not see them.
struct StackWords {
  std::string id;  ///< unique in the page
  std::string title;
  std::string description;
};

/// A row a season (or site), each with its hundred seedlings over the same span of the year, the day of the
/// first soil rule, of the yardstick's share and of half up; in two forms, wide and for the phone. A
/// calendar date is a line through all rows. `start` is the first day of the season the axis is drawn for.
std::string season_stack(const std::vector<advice::SeasonRow>& rows, int yardstick_percent, Day start,
                         const std::optional<Day>& calendar, const StackWords& words);

/// A dot a season for each call, on an axis of days early and late; the yardstick's own band below.
std::string call_dots(const advice::TargetComparison& target, const StackWords& words);

}  // namespace soilclock::report
