// SPDX-License-Identifier: MIT
// A number of a model file: its value, unit and spread, and where it comes from. Every number of models/ and
// config/practice.json is read here; one without unit or grounds does not load.
#pragma once

#include <limits>
#include <optional>
#include <string>
#include <string_view>

#include "core/json_reader.hpp"
#include "core/source.hpp"

namespace soilclock {

/// Why a number is what it is.
struct Grounds {
  Basis basis = Basis::derived;
  std::string source;  ///< id in models/sources.json; never empty for a number with the basis published
  std::string note;    ///< how it was derived; never empty for a number with the basis derived
};

/// How a member of an ensemble draws a parameter.
struct Spread {
  enum class Kind {
    none,          ///< always the central value
    normal,        ///< central value and standard deviation
    uniform,       ///< even between low and high; the central value is only the middle run's
    split_uniform  ///< half of the draws even between low and center, half between center and high
  };
  Kind kind = Kind::none;
  double sd = 0.0;                ///< normal
  double low = 0.0, high = 0.0;   ///< uniform and split-uniform
  std::optional<double> least{};  ///< draws are held at or above this
  std::optional<double> most{};   ///< and at or below this
  /// Drawn with the mirrored number (1 - u) of this parameter of the same model; empty: drawn by itself.
  std::string opposite_to{};
};

/// One number.
struct Parameter {
  double value = 0.0;
  std::string unit;
  Spread spread;
  Grounds grounds;
  /// The value at a probability in (0, 1) of its spread; 0.5 gives the median.
  double drawn(double probability) const;
};

/// Two ends of a number that is not known better.
struct ParameterSpan {
  double least = 0.0;
  double most = 0.0;
  std::string unit{};
  Grounds grounds{};
};

/// What a value may be; both ends inside.
struct Limits {
  double least = std::numeric_limits<double>::lowest();
  double most = std::numeric_limits<double>::max();
};

/// The word of a basis in the files.
std::string_view basis_name(Basis basis);

/// The key "basis", one of the words above.
Basis read_basis(const JsonObject& object);

/// The keys basis, source and note of an object. Where the file as a whole has a basis, `of_file`, an object
/// without one of its own stands on that. A published number without source and a derived one without note
/// are problems at the object's place.
Grounds read_grounds(const JsonObject& object, std::optional<Basis> of_file = {});

/// The object {value, unit, basis, source, note} under a key of `parent`. A unit other than the one asked
/// for, a value outside the limits, missing grounds and a spread are problems at their place.
Parameter read_parameter(const JsonObject& parent, std::string_view key, std::string_view unit,
                         Limits limits = {}, std::optional<Basis> of_file = {});

/// The same for a number that must be whole.
int read_whole(const JsonObject& parent, std::string_view key, std::string_view unit, Limits limits);

/// The same for a number that members draw: it may have a spread.
Parameter read_drawn_parameter(const JsonObject& parent, std::string_view key, std::string_view unit,
                               std::optional<Basis> of_file = {});

/// The object {least, most, unit, basis, source, note} under a key of `parent`.
ParameterSpan read_span(const JsonObject& parent, std::string_view key, std::string_view unit, Limits limits);

}  // namespace soilclock
