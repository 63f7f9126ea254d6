// SPDX-License-Identifier: MIT
// Records from CSV: what export_csv writes, or a table made by hand with the same headings.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "records/store.hpp"

namespace soilclock::records {

/// A row that says what the file already holds; it was not added again.
struct Duplicate {
  int line = 0;
  EntryId same_as = 0;
};

struct Imported {
  std::vector<EntryId> added;
  std::vector<Duplicate> duplicates;
};

using ImportResult = tl::expected<Imported, std::vector<Problem>>;

/// Adds the rows of a CSV text, all of them in one transaction, or none when there is any problem.
/// Headings are those of export_csv or the plain field names; the unit of a measured column stands at the end
/// of its heading (air_temperature_c, air_temperature_f) or behind every value. Column "kind" may be absent
/// when `kind` is given. noted_at and noted_by are kept where they stand; `stamp` fills what is blank. Column
/// id is passed over: entries get new numbers. A row equal in all fields to a present entry is a duplicate,
/// unless the text holds more of them than the file does (two equal counts on one day are two counts). Blank
/// cells are "not noted". Problems (data, with line and column number of the cell): at most the first 20.
ImportResult import_csv(Store& store, std::string_view text, const std::string& file, const Stamp& stamp,
                        std::optional<RecordKind> kind = std::nullopt);

}  // namespace soilclock::records
