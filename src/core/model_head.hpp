// SPDX-License-Identifier: MIT
// What model files have in common beside their numbers: name and title, where they hold, what they rest on
// and what must come out of them. Every function throws JsonProblem at the place of the fault, as JsonObject
// does.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/json_reader.hpp"
#include "core/place.hpp"
#include "core/source.hpp"

namespace soilclock {

/// A text that says something: empty is refused.
std::string read_words(const JsonObject& object, std::string_view key);

/// How every file begins.
struct FileHead {
  std::string file;
  std::string id;  ///< the file's name without folder and ending
  std::string title;
  std::vector<std::string> notes;
};

/// Refuses a file whose format is not the one asked for, one without title, and one whose id is not its name.
FileHead read_head(const JsonObject& top, const std::string& file, const std::string& format);

/// A source and where in it.
struct Citation {
  std::string source;
  std::string where;
};

/// What a file or a rule as a whole rests on; its numbers may say otherwise one by one.
struct FileGrounds {
  Basis basis = Basis::derived;
  std::string basis_note;         ///< what was published, what is ours
  std::vector<Citation> sources;  ///< never empty for published and derived
};
/// The keys basis, basis_note and sources.
FileGrounds read_file_grounds(const JsonObject& object);

/// A box of places: degrees north and east, edges inside.
struct GeographicBox {
  std::string name;
  double south = -90.0, north = 90.0, west = -180.0, east = 180.0;
  bool contains(const Place& place) const;
  /// Degrees of latitude or longitude to the nearest edge, 0 inside.
  double degrees_outside(const Place& place) const;
};

/// Where a model holds. Outside is a remark; the weight falls to zero only where the file says so, evenly
/// over the degrees beyond the edge, so that no line on a map makes a date jump.
struct Validity {
  std::vector<GeographicBox> boxes;  ///< empty: not limited by place
  std::optional<Hemisphere> hemisphere;
  std::string condition;  ///< in words
  bool weight_zero_outside = false;
  double fade_degrees = 0.0;  ///< beyond the boxes
  bool contains(const Place& place) const;
  /// 1 where it holds, falling to 0 over fade_degrees beyond the boxes; 0 in the other hemisphere.
  double share_at(const Place& place) const;
};

/// What must come out of the numbers of a file; a miss refuses the file.
struct CheckPoint {
  std::string quantity;  ///< "percent", "ceiling", "onset days", ... see models/README.md
  std::map<std::string, double> input;
  double expected = 0.0;
  double tolerance = 0.0;
  std::string origin;  ///< who says so
};

/// What every model of soil, emergence or growth has.
struct ModelHead : FileHead, FileGrounds {
  Validity validity;
  std::vector<CheckPoint> check_points;
  std::string no_check_points_because;  ///< set when there are none
};
void read_model_head(const JsonObject& top, const std::string& file, const std::string& format,
                     ModelHead& head);

/// Refuses the file at the first check point whose value is missing or too far from what is expected.
/// `value_of` gives the computed value of a point, or nothing when the quantity or an input is unknown.
void demand_check_points(const JsonObject& top, const std::vector<CheckPoint>& points,
                         const std::function<std::optional<double>(const CheckPoint&)>& value_of);

}  // namespace soilclock
