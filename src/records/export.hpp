// SPDX-License-Identifier: MIT
// Entries as text for other programs. Every value leaves exactly as it was noted: leading zeros stay, and so
// do texts that begin with =, +, - or @, which a spreadsheet may take for a formula when it opens the CSV
// (import such a file there with all columns as text). Numbers are in the unit of their column and have as
// many digits as it takes to read the same number back.
#pragma once

#include <string>
#include <vector>

#include "records/store.hpp"

namespace soilclock::records {

/// Heading and one row an entry: id, kind, noted_at, noted_by, noted_units where any value was noted in
/// another unit than its column has ("temperature F"), then the columns of the kinds that occur (all
/// kinds when there is no entry). A blank cell is "not noted", never zero; lists are joined by "; ". UTF-8,
/// lines end in LF.
std::string export_csv(const std::vector<Entry>& entries);

/// {"format":"soilclock-records","version":1,"entries":[{"id","kind","noted_at","noted_by", fields of the
/// kind}]}, with "noted_units" {"temperature": "F"} as above; "not noted" is null, lists are arrays.
std::string export_json(const std::vector<Entry>& entries);

}  // namespace soilclock::records
