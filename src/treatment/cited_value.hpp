// SPDX-License-Identifier: MIT
// A number of a model file together with where it comes from. A number without that does not load.
#pragma once

#include <string>
#include <string_view>

#include "core/json_reader.hpp"
#include "core/source.hpp"

namespace soilclock::treatment {

/// Why a number is what it is.
struct Grounds {
  Basis basis = Basis::derived;
  std::string source;  ///< id in models/sources.json; never empty for published numbers
  std::string note;    ///< how it was derived; never empty for derived numbers
};

/// One number with its unit and grounds.
struct CitedValue {
  double value = 0.0;
  std::string unit;
  Grounds grounds;
};

/// Reads the keys basis, source and note of an object. A published number without source and a derived one
/// without note are problems at the object's place.
Grounds read_grounds(const JsonObject& object);

/// Reads the object {"value", "unit", "basis", "source", "note"} under a key of `parent`. A unit other than
/// the one asked for, a value outside [least, most] and missing grounds are problems at their place.
CitedValue read_cited(const JsonObject& parent, std::string_view key, std::string_view unit, double least,
                      double most);

/// Refuses a file whose "format" is not the one asked for, and one without id or title.
void read_file_head(const JsonObject& top, const std::string& format);

}  // namespace soilclock::treatment
