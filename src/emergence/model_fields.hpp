// SPDX-License-Identifier: MIT
// Reading of the parts that files of models, growth and targets have in common. Every function throws
// JsonProblem at the place of the fault, as JsonObject does.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/json_reader.hpp"
#include "emergence/emergence_model.hpp"

namespace soilclock::emergence {

/// "published", "derived", "common practice", "memory" or "invented", with the obligatory note beside it.
struct BasisField {
  Basis basis;
  std::string note;
};
BasisField read_basis(const JsonObject& object);

/// The list "sources" of {source, where}; empty is only allowed for common practice, memory and invented
/// numbers.
std::vector<Citation> read_citations(const JsonObject& object, Basis basis);

/// A text that says something: empty is refused.
std::string read_words(const JsonObject& object, std::string_view key);

/// The id, which must be the file's name without folder and ending, so that a file is found by the id of its
/// problem.
std::string read_id(const JsonObject& object, std::string_view key, const std::string& file);

/// {value, unit, spread?, note?}; the unit must be the one expected.
Parameter read_parameter(const JsonObject& object, std::string_view key, const std::string& unit);

/// {value, unit} without spread, in an expected unit ("C", "cm").
double read_quantity(const JsonObject& object, std::string_view key, const std::string& unit);

/// "MM-DD", days up to 28.
MonthDay read_month_day(const JsonObject& object, std::string_view key);

Validity read_validity(const JsonObject& object);
ThermalScale read_scale(const JsonObject& object, std::string_view key);

/// The list "check_points"; when it is empty the text "no_check_points_because" must say why.
struct CheckPointsField {
  std::vector<CheckPoint> points;
  std::string none_because;
};
CheckPointsField read_check_points(const JsonObject& object);

/// What every model of emergence or growth rests on: where it holds, basis, sources, check points, notes.
template <class Model>
void read_grounds(const JsonObject& object, Model& model) {
  model.validity = read_validity(object);
  BasisField basis = read_basis(object);
  model.basis = basis.basis;
  model.basis_note = std::move(basis.note);
  model.sources = read_citations(object, basis.basis);
  CheckPointsField checks = read_check_points(object);
  model.check_points = std::move(checks.points);
  model.no_check_points_because = std::move(checks.none_because);
  model.notes = object.optional_texts("notes");
}

/// Refuses the file at the first check point whose value is missing or too far from what is expected.
/// `value_of` gives the computed value of a point, or nothing when the quantity or an input is unknown.
void demand_check_points(const JsonObject& object, const std::vector<CheckPoint>& points,
                         const std::function<std::optional<double>(const CheckPoint&)>& value_of);

/// Upper-case letters and digits, five of them, as EPPO codes of plants are.
std::string read_eppo_code(const JsonObject& object, std::string_view key);

}  // namespace soilclock::emergence
