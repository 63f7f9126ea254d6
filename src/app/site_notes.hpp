// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "advice/data/catalogue.hpp"
#include "advice/site/site_log.hpp"
#include "core/remark.hpp"
#include "core/time_zone.hpp"
#include "records/store.hpp"

namespace soilclock::app {

/// What the records file holds on a site, as the values the pipeline works with. An active the program knows
/// gives its group, its residual and its class; one it does not know counts by the groups noted beside it.
/// Only the last look by eye is kept: the last one up to `on`, since a later one would hide what was seen
/// before. `clock` is the site's own; without it times are taken as standard time.
advice::SiteLog site_log(const std::vector<records::Entry>& entries, const advice::Catalogue& catalogue,
                         std::optional<Day> on = {}, const TimeZone* clock = nullptr);

struct SiteNotes {
  advice::SiteLog log;
  std::vector<Remark> remarks;  ///< the log knows a site that differs only in case or spacing
};

/// The notes of a site from the records file named, or from the user's own where none is named and it is
/// there. A file that is named but absent is a problem; no own file means no notes.
Result<SiteNotes> read_site_notes(const std::string& records_file, const std::string& site,
                                  const advice::Catalogue& catalogue, std::optional<Day> on = {},
                                  const TimeZone* clock = nullptr);

}  // namespace soilclock::app
