// SPDX-License-Identifier: MIT
// When a thermal sum starts within a season.
#pragma once

#include <string>
#include <string_view>
#include <variant>

#include "core/problem.hpp"
#include "core/season.hpp"

namespace soilclock::thermal {

/// From the season's first day on.
struct StartWithSeason {
  friend bool operator==(const StartWithSeason&, const StartWithSeason&) = default;
};

/// From a date, written for the northern hemisphere; in the south six months later. 29 February is 1 March in
/// a common year.
struct StartByDate {
  unsigned month = 1;
  unsigned day_of_month = 1;
  friend bool operator==(const StartByDate&, const StartByDate&) = default;
};

using StartRule = std::variant<StartWithSeason, StartByDate>;

/// "season" or "MM-DD" as model files and options write it; a request problem otherwise.
Result<StartRule> parse_start(std::string_view text);

/// The day the sum starts in a season.
Day start_day(const StartRule& rule, const Season& season);

}  // namespace soilclock::thermal
