// SPDX-License-Identifier: MIT
#include "core/model_head.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/parameter.hpp"
#include "core/text.hpp"

namespace soilclock {

namespace {

GeographicBox read_box(const JsonObject& object) {
  GeographicBox box{read_words(object, "name"), object.number("south", -90.0, 90.0),
                    object.number("north", -90.0, 90.0), object.number("west", -180.0, 180.0),
                    object.number("east", -180.0, 180.0)};
  if (!(box.south < box.north))
    object.refuse("south", "the box ends south of where it begins", "south < north");
  if (!(box.west < box.east)) object.refuse("west", "the box ends west of where it begins", "west < east");
  object.finish();
  return box;
}

Validity read_validity(const JsonObject& top) {
  const JsonObject item = top.object("validity");
  Validity validity;
  for (const JsonObject& box : item.optional_objects("boxes")) validity.boxes.push_back(read_box(box));
  const std::string hemisphere = item.choice("hemisphere", {"both", "north", "south"});
  if (hemisphere == "north") validity.hemisphere = Hemisphere::north;
  if (hemisphere == "south") validity.hemisphere = Hemisphere::south;
  validity.condition = read_words(item, "condition");
  validity.weight_zero_outside = item.choice("outside", {"remark", "weight zero"}) == "weight zero";
  validity.fade_degrees = item.optional_number("fade_degrees", 0.0, 30.0).value_or(0.0);
  item.finish();
  return validity;
}

CheckPoint read_check_point(const JsonObject& item) {
  CheckPoint point;
  point.quantity = read_words(item, "quantity");
  if (const auto input = item.optional_object("input")) {
    for (const std::string& name : input->keys()) point.input.emplace(name, input->number(name));
  }
  point.expected = item.number("expected");
  point.tolerance = item.number("tolerance");
  if (!(point.tolerance > 0.0)) item.refuse("tolerance", "a tolerance must be above 0");
  point.origin = read_words(item, "origin");
  item.finish();
  return point;
}

void read_check_points(const JsonObject& top, ModelHead& head) {
  for (const JsonObject& item : top.objects("check_points"))
    head.check_points.push_back(read_check_point(item));
  head.no_check_points_because = top.optional_text("no_check_points_because").value_or("");
  const bool none = head.check_points.empty();
  if (none == trimmed(head.no_check_points_because).empty()) {
    top.refuse(none ? "check_points" : "no_check_points_because",
               none ? "no check point is given" : "check points are given all the same",
               "check points, or a text no_check_points_because instead");
  }
}

}  // namespace

std::string read_words(const JsonObject& object, std::string_view key) {
  std::string text = object.text(key);
  if (trimmed(text).empty()) object.refuse(key, "this text is empty", "words");
  return text;
}

FileHead read_head(const JsonObject& top, const std::string& file, const std::string& format) {
  (void)top.choice("format", {format});
  FileHead head;
  head.file = file;
  head.id = read_words(top, "id");
  const auto slash = file.find_last_of('/');
  const std::string name = slash == std::string::npos ? file : file.substr(slash + 1);
  if (name != head.id + ".json") {
    top.refuse("id", "this must be the file's name without .json",
               "'" + name.substr(0, name.rfind('.')) + "'", "rename one of the two");
  }
  head.title = read_words(top, "title");
  head.notes = top.optional_texts("notes");
  return head;
}

FileGrounds read_file_grounds(const JsonObject& object) {
  FileGrounds grounds;
  grounds.basis = read_basis(object);
  grounds.basis_note = read_words(object, "basis_note");
  for (const JsonObject& item : object.objects("sources")) {
    grounds.sources.push_back({read_words(item, "source"), read_words(item, "where")});
    item.finish();
  }
  const bool needed = grounds.basis == Basis::published || grounds.basis == Basis::derived;
  if (grounds.sources.empty() && needed) {
    object.refuse("sources", "no source is named", "at least one {source, where}",
                  "name one of sources.json, or say that the basis is common practice or memory");
  }
  return grounds;
}

bool GeographicBox::contains(const Place& place) const { return degrees_outside(place) <= 0.0; }

bool Validity::contains(const Place& place) const {
  if (hemisphere && *hemisphere != place.hemisphere()) return false;
  return boxes.empty() || std::any_of(boxes.begin(), boxes.end(),
                                      [&](const GeographicBox& box) { return box.contains(place); });
}

double GeographicBox::degrees_outside(const Place& place) const {
  return std::max({0.0, south - place.latitude_deg, place.latitude_deg - north, west - place.longitude_deg,
                   place.longitude_deg - east});
}

double Validity::share_at(const Place& place) const {
  if (hemisphere && *hemisphere != place.hemisphere()) return 0.0;
  double share = boxes.empty() ? 1.0 : 0.0;
  for (const GeographicBox& box : boxes) {
    const double outside = box.degrees_outside(place);
    share = std::max(share, outside <= 0.0 ? 1.0 : 1.0 - outside / fade_degrees);
  }
  return share;
}

void read_model_head(const JsonObject& top, const std::string& file, const std::string& format,
                     ModelHead& head) {
  static_cast<FileHead&>(head) = read_head(top, file, format);
  head.validity = read_validity(top);
  static_cast<FileGrounds&>(head) = read_file_grounds(top);
  read_check_points(top, head);
}

void demand_check_points(const JsonObject& top, const std::vector<CheckPoint>& points,
                         const std::function<std::optional<double>(const CheckPoint&)>& value_of) {
  for (std::size_t i = 0; i < points.size(); ++i) {
    const CheckPoint& point = points[i];
    const auto refuse = [&](std::string_view key, const std::string& what, const std::string& remedy) {
      const JsonObject item = top.objects("check_points")[i];
      item.refuse(key, what, {}, remedy);
    };
    const auto value = value_of(point);
    if (!value)
      refuse("quantity", "this form cannot compute this quantity from this input", "see models/README.md");
    if (!(std::abs(*value - point.expected) <= point.tolerance)) {
      refuse("expected",
             fmt::format("the numbers of this file give {:.6g} here (tolerance {})", *value, point.tolerance),
             "correct the numbers or the check point");
    }
  }
}

}  // namespace soilclock
