// SPDX-License-Identifier: MIT
#include "weather/services/open_meteo_point.hpp"

#include <fmt/format.h>

#include <vector>

#include "core/number_text.hpp"
#include "core/text.hpp"
#include "weather/columns/preamble.hpp"
#include "weather/services/answer_clock.hpp"

namespace soilclock::weather {

namespace {

void refuse_incomplete(const JsonObject& point) {
  std::vector<std::string> lacking;
  for (const char* key : {"latitude", "longitude", "utc_offset_seconds"}) {
    if (!point.has(key)) lacking.emplace_back(key);
  }
  bool sections = false;
  for (const std::string section : {"hourly", "daily"}) {
    if (!point.has(section)) continue;
    sections = true;
    if (!point.has(section + "_units")) lacking.push_back(section + "_units");
  }
  if (!lacking.empty()) {
    point.refuse({}, "the answer lacks " + listed(lacking),
                 "the answer as the service sent it, with place, clock and units",
                 "it was rewritten by a program in between; fetch it again");
  }
  if (!sections) {
    point.refuse({}, "the answer holds no block of hours or days", "an 'hourly' or 'daily' block",
                 "the weather of one moment makes no series");
  }
}

void refuse_disagreeing_zone(const JsonObject& json, const AnswerPoint& point) {
  std::optional<Day> first;
  if (point.hourly && !point.hourly->stamps.empty()) first = date::floor<Days>(point.hourly->stamps.front());
  if (point.daily && !point.daily->days.empty()) first = point.daily->days.front();
  if (!point.zone || !first || zone_keeps_offset(*point.zone, point.offset, *first)) return;
  json.refuse("utc_offset_seconds",
              fmt::format("the offset {} is none that the zone {} keeps: stamps and zone disagree",
                          TimeZone::fixed(point.offset).name(), point.zone_name),
              "an offset of the zone named in the answer", "ask for the data again");
}

}  // namespace

std::optional<TimeZone> AnswerPoint::zone_of_place() const {
  const bool plain = zone_name == "GMT" || zone_name == "UTC" || zone_name == "Etc/UTC";
  return plain ? std::nullopt : zone;
}

AnswerPoint read_answer_point(const JsonObject& json) {
  refuse_incomplete(json);
  AnswerPoint point;
  point.offset = std::chrono::seconds{json.integer("utc_offset_seconds", -14 * 3600, 14 * 3600)};
  point.place = checked_place(json.number("latitude", -90.0, 90.0), json.number("longitude", -180.0, 180.0),
                              json.optional_number("elevation"));
  const std::string kind = json.kind("location_id");
  if (kind == "string") point.location = json.text("location_id");
  if (kind == "number") point.location = number_text(json.number("location_id"), 0);
  point.zone_name = json.optional_text("timezone").value_or("");
  // A zone newer than the system's rules is no reason to refuse the data.
  if (!point.zone_name.empty()) {
    if (auto zone = TimeZone::named(point.zone_name)) point.zone = std::move(*zone);
  }
  if (json.has("hourly")) point.hourly = read_answer_block(json, "hourly", point.offset);
  if (json.has("daily")) point.daily = read_answer_block(json, "daily", point.offset);
  refuse_disagreeing_zone(json, point);
  return point;
}

}  // namespace soilclock::weather
