// SPDX-License-Identifier: MIT
// What the library says at a station: the answer on a day, and when a season's half of the seedlings was
// really up by the same models, with the weather and the soil that came.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "advice/data/catalogue.hpp"
#include "pipeline.hpp"
#include "studies/stations.hpp"

namespace soilclock::studies {

/// A question from the weather before a day and from a day on, without targets.
SiteRequest request_of(const Station& station, DayRange record);

/// The stations with several years.
std::vector<const Station*> several_years(const std::vector<Station>& stations);

/// The answer for one target from the weather before a day and from a day on; nothing where the library
/// refuses or names no single wave.
std::optional<advice::TargetAnswer> ask(const Station& station, const std::string& target, DayRange record,
                                        const advice::Catalogue& catalogue);

/// The milestone of a percent, nothing where the answer has none.
std::optional<DateBand> milestone(const advice::TargetAnswer& answer, int percent);

/// The answer, with its table of days, for the season that holds `within`, asked 190 days after it began and
/// told the measured soil, if any was measured at the station. Nothing where half up has no date or the soil
/// at 5 cm was measured on fewer than nine in ten of the season's days before it.
std::optional<advice::TargetAnswer> in_hindsight(const Station& station, const std::string& target,
                                                 Day within, const advice::Catalogue& catalogue);

/// The middle date of half up in hindsight.
std::optional<Day> true_half_up(const Station& station, const std::string& target, Day within,
                                const advice::Catalogue& catalogue);

}  // namespace soilclock::studies
