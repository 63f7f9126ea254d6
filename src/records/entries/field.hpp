// SPDX-License-Identifier: MIT
// The fields of each kind of record, described once. The command line, CSV, JSON and the database all go
// through this list, so that a value is checked by one rule however it comes in and looks the same however it
// goes out.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/problem.hpp"
#include "records/entries/measure.hpp"
#include "records/entries/record.hpp"

namespace soilclock::records {

/// A field's value on its way out; std::monostate is "not noted".
using Cell = std::variant<std::monostate, std::string, double, std::int64_t, std::vector<std::string>,
                          std::vector<int>>;

struct Field {
  std::string name;  ///< the word of a request: "air_temperature", "group"
  std::string
      column;  ///< heading in CSV, key in JSON, column in the database; carries the unit: "air_temperature_c"
  std::string meaning;   ///< one line of help
  std::string expected;  ///< what is accepted, for help and messages
  bool required = false;
  bool is_list = false;
  std::optional<Quantity> quantity;  ///< of numbers with a unit
  std::function<Cell(const Record&)> read;
  /// Sets the field from text; empty text makes it "not noted". `unit` as in parse_measure.
  /// Problem (request, names the field): not readable or out of range; the record is then unchanged.
  std::function<Checked(Record&, std::string_view text, std::string_view unit)> write;
};

/// All fields of a kind; the first two are always site and date.
const std::vector<Field>& fields_of(RecordKind kind);

/// The field of that name ("-" and "_" are the same), null when the kind has none.
const Field* find_field(RecordKind kind, std::string_view name);

/// A cell as text that Field::write takes back unchanged with the kept unit; "" for "not noted". List items
/// are joined by "; ".
std::string cell_text(const Cell& cell);

/// The unit Field::write needs for text made by cell_text.
std::string_view own_unit(const Field& field);

/// Splits a list at ";" and "," and takes the blanks off; a comma between two digits belongs to the item,
/// because some common names have one ("2,4-D"). With `digits_too` such a comma splits as well, for lists of
/// numbers.
std::vector<std::string> split_list(std::string_view text, bool digits_too);

/// Whether a record may be kept: every field readable and in range, required ones there, fields at peace with
/// each other (watering-in not before the treatment, as many counts as plots, ...). Problem (request) names
/// the first field that is wrong.
Checked validate(const Record& record);

/// The same text for records that are equal in every field, whatever units they were noted in.
std::string key_of(const Record& record);

}  // namespace soilclock::records
