// SPDX-License-Identifier: MIT
#include "site/us_places.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include "advice/data/embedded_files.hpp"
#include "core/json_reader.hpp"

namespace soilclock {

namespace {

constexpr const char* file_name = "config/us_places.json";

struct Box {
  double south = 0.0;
  double north = 0.0;
  double west = 0.0;
  double east = 0.0;
  bool holds(const Place& place) const {
    return place.latitude_deg >= south && place.latitude_deg <= north && place.longitude_deg >= west &&
           place.longitude_deg <= east;
  }
};

struct UsPlaces {
  std::vector<Box> boxes;
  std::vector<std::string> other_zones;
};

Box read_box(const JsonObject& item) {
  (void)item.text("name");
  Box box;
  box.south = item.number("south", -90.0, 90.0);
  box.north = item.number("north", box.south, 90.0);
  box.west = item.number("west", -180.0, 180.0);
  box.east = item.number("east", box.west, 180.0);
  item.finish();
  return box;
}

UsPlaces read_us_places(const JsonObject& object) {
  (void)object.choice("format", {"soilclock-us-places/1"});
  (void)object.choice("boxes_unit", {"degrees north and east"});
  for (const char* key :
       {"title", "boxes_basis", "boxes_note", "other_time_zones_basis", "other_time_zones_note"})
    (void)object.text(key);
  UsPlaces places;
  for (const JsonObject& item : object.objects("boxes")) places.boxes.push_back(read_box(item));
  places.other_zones = object.texts("other_time_zones");
  object.finish();
  return places;
}

Result<UsPlaces> built_in_places() {
  return read_json(advice::embedded_text(file_name), file_name, Family::fault, read_us_places);
}

}  // namespace

Result<bool> in_united_states(const Place& place, const std::optional<TimeZone>& zone) {
  static const Result<UsPlaces> places = built_in_places();
  if (!places) return fail(places.error());
  const std::vector<std::string>& others = places->other_zones;
  if (zone && std::find(others.begin(), others.end(), zone->name()) != others.end()) return false;
  return std::any_of(places->boxes.begin(), places->boxes.end(),
                     [&](const Box& box) { return box.holds(place); });
}

}  // namespace soilclock
