// SPDX-License-Identifier: MIT
// What was noted of a site, from the site file or the records file, as the values the pipeline works with.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "advice/data/catalogue.hpp"
#include "advice/site/site_log.hpp"
#include "core/json_reader.hpp"
#include "core/time_zone.hpp"
#include "records/entries/record.hpp"

namespace soilclock {

/// Reads the key "log" of a site: a list of entries with the kinds and fields of `soilclock log add`, such as
/// {"kind": "count", "date": "2026-10-20", "target": "POAAN", "count": [12, 0, 7]}. Measured values need
/// their unit ("62F"). The site's own id goes into each. What cannot be noted is a problem at the entry.
std::vector<records::Record> read_log_entries(const JsonObject& site, const std::string& site_id);

/// The entries of both lists by date; one that says the same in every field as one of the other list counts
/// once.
std::vector<records::Record> without_repeats(std::vector<records::Record> entries,
                                             const std::vector<records::Record>& more);

/// An active the program knows gives its group, its residual and its class; one it does not know counts by
/// the groups noted beside it. Only the last look by eye is kept: the last one up to `on`, since a later one
/// would hide what was seen before. `clock` is the site's own; without it times are taken as standard time.
advice::SiteLog site_log(const std::vector<records::Record>& entries, const advice::Catalogue& catalogue,
                         std::optional<Day> on = {}, const TimeZone* clock = nullptr);

}  // namespace soilclock
