// SPDX-License-Identifier: MIT
// Records from CSV: what export_csv writes, or a table made by hand with the same headings.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "records/questions.hpp"
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

using ImportResult = Result<Imported, std::vector<Problem>>;

/// How a text is taken.
struct ImportRules {
  std::optional<RecordKind> kind;  ///< of all rows; empty: column "kind" says it
  Answered answered;
  /// The code of a target's plain name, other words as they are; empty: codes only.
  std::function<std::string(const std::string&)> target_code;
};

/// Adds the rows of a CSV text, all of them in one transaction, or none when there is any problem.
/// Headings are those of export_csv or the plain field names as `log add` has them ("-" and "_" are the
/// same); the unit of a measured column stands at the end of its heading (air_temperature_c,
/// air_temperature_f) or behind every value. noted_at and noted_by ("by") are kept where they stand; `stamp`
/// fills what is blank. noted_units says in which units the values were noted, where the heading does not.
/// Column id is passed over: entries get new numbers. A row equal in all fields to a present entry is a
/// duplicate, unless the text holds more of them than the file does (two equal counts on one day are two
/// counts). A row question_about asks about is a problem; counts are only held against those that were there
/// before. Blank cells are "not noted". Problems (data, with line and column number of the cell): at most the
/// first 20.
ImportResult import_csv(Store& store, std::string_view text, const std::string& file, const Stamp& stamp,
                        const ImportRules& rules = {});

}  // namespace soilclock::records
