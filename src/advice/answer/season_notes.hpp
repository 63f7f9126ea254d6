// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "advice/answer/season_days.hpp"
#include "advice/site/site_log.hpp"
#include "core/season.hpp"

namespace soilclock::advice {

/// What the log holds of a season and a target (EPPO code) for an answer on a day, oldest first: what is
/// dated before that day, and of the day itself a reading with its hour and a look at the turf. Strip checks
/// come with add_strip_notes. Readings in the user's units.
std::vector<NoteShown> notes_of_season(const SiteLog& log, const Season& season, const std::string& target,
                                       Day on, bool us_units);

}  // namespace soilclock::advice
