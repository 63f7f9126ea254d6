// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "core/problem.hpp"
#include "core/remark.hpp"
#include "records/entries/record.hpp"

namespace soilclock::app {

struct SiteNotes {
  std::vector<records::Record> entries;  ///< by date within a site
  std::vector<Remark> remarks;           ///< the log knows a site that differs only in case or spacing
};

/// The notes of a site, and those noted under the id of one of its areas where that is named, from the
/// records file named, or from the user's own where none is named and it is there. A file that is named but
/// absent is a problem; no own file means no notes.
Result<SiteNotes> read_site_notes(const std::string& records_file, const std::string& site,
                                  const std::string& area = {});

}  // namespace soilclock::app
