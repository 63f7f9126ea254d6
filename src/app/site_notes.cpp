// SPDX-License-Identifier: MIT
#include "app/site_notes.hpp"

#include <filesystem>

#include "app/records_file.hpp"
#include "records/questions.hpp"

namespace soilclock::app {

Result<SiteNotes> read_site_notes(const std::string& records_file, const std::string& site,
                                  const std::string& area) {
  const auto path = records_path(records_file);
  std::error_code error;
  if (records_file.empty() && (!path || !std::filesystem::exists(*path, error))) return SiteNotes{};
  auto store = open_records(records_file, records::Access::reading);
  if (!store) return fail(store.error());
  SiteNotes notes;
  for (const std::string& id : {site, area}) {
    if (id.empty()) continue;
    const auto entries = store->list({id, {}, {}});
    if (!entries) return fail(entries.error());
    for (const records::Entry& entry : *entries) notes.entries.push_back(entry.record);
  }
  if (!notes.entries.empty()) return notes;
  const auto ids = store->sites();
  if (!ids) return fail(ids.error());
  if (const auto other = records::same_site_written_otherwise(site, *ids)) {
    notes.remarks.push_back(
        {"notes-of-a-similar-site", "The log holds notes of '" + *other + "' and none of '" + site +
                                        "': give the site that id if it is the same one."});
  }
  return notes;
}

}  // namespace soilclock::app
