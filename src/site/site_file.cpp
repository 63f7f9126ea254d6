// SPDX-License-Identifier: MIT
#include "site/site_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <set>
#include <span>

#include "core/json_reader.hpp"
#include "core/text.hpp"
#include "site/site_log_entries.hpp"
#include "site/site_place.hpp"
#include "soil/soil_estimate.hpp"

namespace soilclock {

namespace {

/// A number followed by one of two unit words; blanks between are fine.
std::optional<std::pair<double, std::string>> number_with_unit(std::string_view text) {
  text = trimmed(text);
  const auto unit_at = text.find_first_not_of("0123456789.+-");
  if (unit_at == std::string_view::npos || unit_at == 0) return std::nullopt;
  const auto number = parse_number(trimmed(text.substr(0, unit_at)));
  if (!number) return std::nullopt;
  return std::pair{*number, lowered(trimmed(text.substr(unit_at)))};
}

template <class Value>
Value accepted(const JsonObject& object, std::string_view key, const Result<Value>& value) {
  if (!value) object.refuse(key, value.error().what, value.error().expected, value.error().remedy);
  return *value;
}

Day read_day(const JsonObject& object, std::string_view key) {
  const auto day = parse_iso_day(object.text(key));
  if (!day) object.refuse(key, "this is not a date", "YYYY-MM-DD");
  return *day;
}

SiteDataFile read_data_file(const JsonObject& object, const std::string& folder,
                            const std::optional<TimeZone>& zone) {
  SiteDataFile file;
  const std::filesystem::path path{object.text("file")};
  // The system would cut the name there and open another file.
  if (path.string().find('\0') != std::string::npos) object.refuse("file", "this is no name of a file");
  file.path =
      path.is_absolute() ? path.string() : (std::filesystem::path{folder} / path).lexically_normal().string();
  if (object.has("role")) file.forecast = object.choice("role", {"station", "forecast"}) == "forecast";
  file.reading.columns = object.optional_text("columns").value_or("");
  file.reading.units_in = object.optional_text("units_in").value_or("");
  file.reading.station = object.optional_text("station").value_or("");
  if (const auto order = object.optional_text("dates")) {
    file.reading.dates = accepted(object, "dates", parse_date_order(*order));
  }
  file.reading.swap_reversed_extremes = object.optional_boolean("swap_reversed_extremes").value_or(false);
  file.reading.shift_morning_observations =
      object.optional_boolean("shift_morning_observations").value_or(false);
  file.remove_bias = object.optional_boolean("remove_bias").value_or(false);
  file.reading.time_zone = zone;
  object.finish();
  return file;
}

SiteService read_service(const JsonObject& object) {
  SiteService service;
  service.id = object.text("service");
  service.station = object.optional_text("station").value_or("");
  service.remove_bias = object.optional_boolean("remove_bias").value_or(false);
  service.shift_morning_observations = object.optional_boolean("shift_morning_observations").value_or(false);
  object.finish();
  return service;
}

/// A mistyped "file" or "service" is reported as such, not as the other one missing.
void demand_source(const JsonObject& entry) {
  if (entry.has("file") || entry.has("service")) return;
  for (const std::string& key : entry.keys()) {
    if (const auto meant = nearest(key, {"file", "service"}))
      entry.refuse(key, "this key is not known here", "\"file\" or \"service\"",
                   "did you mean '" + *meant + "'?");
  }
  entry.refuse({}, "no weather is named", "{\"file\": ...} or {\"service\": ...}");
}

std::optional<emergence::Irrigation> read_irrigation(const JsonObject& turf) {
  const std::string kind = turf.kind("irrigated");
  if (kind == "absent" || kind == "null") return std::nullopt;
  if (kind == "boolean") return emergence::Irrigation{turf.boolean("irrigated"), 0.0};
  if (kind == "number") return emergence::Irrigation{false, turf.number("irrigated", 0.0, 200.0)};
  turf.refuse("irrigated", "this value has the wrong type", "true, false or millimeters a week");
}

/// What the object leaves out stays as the site has it; null takes it back.
void read_turf(const JsonObject& object, Site& site) {
  const auto turf = object.optional_object("turf");
  if (!turf) return;
  site.turf_species = turf->optional_text("species").value_or(site.turf_species);
  if (turf->kind("irrigated") != "absent") site.irrigation = read_irrigation(*turf);
  if (turf->kind("overseed_on") == "null") site.overseed_on.reset();
  if (turf->has("overseed_on")) site.overseed_on = read_day(*turf, "overseed_on");
  site.slope_to_green = turf->optional_boolean("slope_to_green").value_or(site.slope_to_green);
  turf->finish();
}

void read_soil(const JsonObject& object, Site& site) {
  const auto soil = object.optional_object("soil");
  if (!soil) return;
  if (const auto depth = soil->optional_text("depth"))
    site.soil_depth = accepted(*soil, "depth", parse_depth(*depth));
  if (soil->has("texture")) site.texture = *soil::texture_of(soil->choice("texture", soil::texture_words()));
  if (const auto offset = soil->optional_number("offset_c", -most_soil_offset_c, most_soil_offset_c)) {
    site.soil_offset = TemperatureDelta::from_kelvin(*offset);
    site.own_soil = site.area.has_value();
  }
  static constexpr const char* in_celsius = "an offset is in degrees C";
  static constexpr const char* converted = "write \"offset_c\" and F degrees times 5/9: 5 F are 2.8 C";
  static constexpr std::array strays{StrayKey{"offset_f", in_celsius, converted},
                                     StrayKey{"offset", in_celsius, converted}};
  soil->finish(strays);
}

void read_probes(const JsonObject& object, const std::string& folder, Site& site) {
  if (!object.has("probe")) return;
  site.probe.clear();
  for (const JsonObject& file : object.objects("probe"))
    site.probe.push_back(read_data_file(file, folder, site.time_zone));
  site.own_soil = site.area.has_value();
}

/// Keys of a course where an area is described, and such that stand deeper.
std::span<const StrayKey> strays_of_area() {
  static constexpr const char* shared = "the areas of a course share its weather, place and clock";
  static constexpr const char* own_course = "make it a course of its own where these differ";
  static constexpr const char* deeper = "this key does not stand here";
  static constexpr const char* in_soil = "write \"soil\": {\"offset_c\": DEGREES C}";
  static constexpr const char* in_turf = "write it under \"turf\": {...}";
  static constexpr std::array strays{
      StrayKey{"weather", shared, own_course},
      StrayKey{"forecast", shared, own_course},
      StrayKey{"latitude", shared, own_course},
      StrayKey{"longitude", shared, own_course},
      StrayKey{"time_zone", shared, own_course},
      StrayKey{"id", "an area is known by its name", "leave the id out"},
      StrayKey{"areas", "an area has no areas", "list all areas of the course one after another"},
      StrayKey{"log", "notes stand in the log of the course", "say \"area\": NAME in a note there"},
      StrayKey{"offset", deeper, in_soil},
      StrayKey{"offset_c", deeper, in_soil},
      StrayKey{"offset_f", deeper, in_soil},
      StrayKey{"soil_offset", deeper, in_soil},
      StrayKey{"species", deeper, in_turf},
      StrayKey{"irrigated", deeper, in_turf},
      StrayKey{"overseed_on", deeper, in_turf}};
  return strays;
}

/// The course with what one of its areas says otherwise.
Site read_area(const JsonObject& area, const Site& course, const std::string& file,
               const std::string& folder) {
  Site site = course;
  const std::string name{trimmed(area.text("name"))};
  if (records::bare_name(name).empty())
    area.refuse("name", "the name is empty", "a name of your own, such as \"north tee\"");
  site.area = advice::AreaFacts{course.id, course.name, name, {}};
  site.id = course.id + "/" + name;
  site.name = course.name + ", " + name;
  read_turf(area, site);
  read_soil(area, site);
  // A probe of the course measures another spot.
  if (site.own_soil) site.probe.clear();
  read_probes(area, folder, site);
  if (area.has("targets")) site.targets = area.texts("targets");
  if (area.has("plan")) site.plan = read_site_plan(area, file);
  if (area.has("resistance")) site.resistance = read_site_resistance(area);
  area.finish(strays_of_area());
  return site;
}

/// A course as the sites it is answered for.
std::vector<Site> read_areas(const JsonObject& object, Site course, const std::string& file,
                             const std::string& folder) {
  if (!object.has("areas")) return {std::move(course)};
  const std::vector<JsonObject> areas = object.objects("areas");
  if (areas.empty())
    object.refuse("areas", "the list holds no area", "at least one area",
                  "leave \"areas\" out where the course is one place");
  if (areas.size() > most_areas)
    object.refuse("areas", fmt::format("the list holds {} areas", areas.size()),
                  fmt::format("at most {}", most_areas), "make one area of places that are alike");
  std::vector<Site> sites;
  std::vector<std::string> names;
  for (const JsonObject& area : areas) {
    sites.push_back(read_area(area, course, file, folder));
    names.push_back(sites.back().area->name);
    const bool known = std::any_of(names.begin(), names.end() - 1, [&](const std::string& name) {
      return records::bare_name(name) == records::bare_name(names.back());
    });
    if (known)
      area.refuse("name", "two areas of the course have this name", {},
                  "give each a name of its own; case, blanks, '-' and '_' make no difference");
  }
  for (Site& site : sites) site.area->among = names;
  return sites;
}

bool names(const std::vector<SiteService>& services, const SiteService& service) {
  return std::any_of(services.begin(), services.end(), [&](const SiteService& known) {
    return known.id == service.id && known.station == service.station;
  });
}

std::vector<Site> read_site(const JsonObject& object, const std::string& file, const std::string& folder) {
  Site site;
  site.id = object.text("id");
  if (trimmed(site.id).empty()) object.refuse("id", "the id is empty", "a short word of your own");
  site.name = object.optional_text("name").value_or(site.id);
  site.group = trimmed(object.optional_text("group").value_or(""));
  if (object.has("group") && site.group.empty())
    object.refuse("group", "the group is empty", "a word of your own to sort courses by, or no group at all");
  site.place.latitude_deg = object.number("latitude", -90.0, 90.0);
  site.place.longitude_deg = object.number("longitude", -180.0, 180.0);
  site.place.elevation_m = object.optional_number("elevation_m", -450.0, 6000.0);
  if (const auto zone = object.optional_text("time_zone")) {
    site.time_zone = accepted(object, "time_zone", TimeZone::named(*zone));
  }
  if (const auto problem = place_problem(site.place, site.time_zone)) {
    object.refuse("", problem->what + " (" + problem->found + ")", problem->expected, problem->remedy);
  }
  if (object.has("units"))
    site.units = object.choice("units", {"us", "metric"}) == "us" ? Units::us : Units::metric;
  read_turf(object, site);
  read_soil(object, site);
  site.targets = object.optional_texts("targets");
  site.plan = read_site_plan(object, file);
  site.resistance = read_site_resistance(object);
  for (const JsonObject& entry : object.objects("weather")) {
    demand_source(entry);
    if (entry.has("service")) {
      const SiteService service = read_service(entry);
      if (names(site.services, service)) entry.refuse("service", "this service is named twice");
      site.services.push_back(service);
    } else {
      site.weather.push_back(read_data_file(entry, folder, site.time_zone));
    }
  }
  if (site.weather.empty() && site.services.empty())
    object.refuse("weather", "no weather is named", "at least one {\"file\": ...} or {\"service\": ...}");
  read_probes(object, folder, site);
  site.log = read_log_entries(object, site.id);
  std::vector<Site> sites = read_areas(object, std::move(site), file, folder);
  object.finish();
  return sites;
}

/// Sites of a file being read, none with the id of another.
struct SiteList {
  std::vector<Site> sites;
  std::set<std::string> ids;

  void add(const JsonObject& object, const std::string& file, const std::string& folder) {
    std::vector<Site> read = read_site(object, file, folder);
    if (!ids.insert(object.text("id")).second) object.refuse("id", "two sites have the same id");
    for (Site& site : read) {
      if (site.area && !ids.insert(site.id).second)
        object.refuse("areas", "an area has the id of another site ('" + site.id + "')", {},
                      "rename one of the two");
      sites.push_back(std::move(site));
    }
  }
};

}  // namespace

Result<std::vector<Site>> read_sites(std::string_view text, const std::string& file,
                                     const std::string& folder) {
  SiteList list;
  const auto read = read_json_objects(text, file, Family::request,
                                      [&](const JsonObject& object) { list.add(object, file, folder); });
  if (!read) return fail(read.error());
  if (list.sites.empty())
    return fail(
        Problem{Family::request, "the list holds no site", {file, {}, {}, "/"}, {}, "at least one site", {}});
  return std::move(list.sites);
}

TimeZone Site::cutting_zone() const {
  return time_zone ? *time_zone : TimeZone::of_longitude(place.longitude_deg);
}

Result<SiteService> parse_service(std::string_view text) {
  const auto colon = text.find(':');
  SiteService service{std::string{trimmed(text.substr(0, colon))}, "", false, false};
  if (colon != std::string_view::npos) service.station = std::string{trimmed(text.substr(colon + 1))};
  if (!service.id.empty() && (colon == std::string_view::npos || !service.station.empty())) return service;
  return fail({Family::request,
               "this service is not understood",
               {},
               std::string{text},
               "the name of a service, such as open-meteo, or with a station, ncei:USW00014821",
               {}});
}

Result<weather::DateOrder> parse_date_order(std::string_view text) {
  const std::string word = lowered(trimmed(text));
  if (word == "day-first") return weather::DateOrder::day_first;
  if (word == "month-first") return weather::DateOrder::month_first;
  if (word == "year-first") return weather::DateOrder::year_first;
  return fail({Family::request,
               "this order of dates is not known",
               {},
               std::string{text},
               "day-first, month-first or year-first",
               {}});
}

Result<Depth> parse_depth(std::string_view text) {
  const Problem problem{Family::request,
                        "this depth cannot be used",
                        {},
                        std::string{text},
                        "a depth from 2.5cm to 15cm (1in to 6in), with its unit",
                        {}};
  const auto parts = number_with_unit(text);
  if (!parts) return fail(problem);
  std::optional<Depth> depth;
  if (parts->second == "cm") depth = Depth::from_cm(parts->first);
  if (parts->second == "in") depth = Depth::from_inches(parts->first);
  const Depth deepest =
      Depth::from_inches(6.0);  // a hair deeper than the soil model goes, and taken as its end
  if (!depth || *depth < soil::shallowest || *depth > deepest) return fail(problem);
  return *depth;
}

Result<Temperature> parse_temperature(std::string_view text) {
  const auto parts = number_with_unit(text);
  std::optional<Temperature> temperature;
  if (parts && parts->second == "c") temperature = Temperature::from_celsius(parts->first);
  if (parts && parts->second == "f") temperature = Temperature::from_fahrenheit(parts->first);
  if (temperature && std::abs(temperature->celsius()) <= 60.0) return *temperature;
  return fail({Family::request,
               "this temperature cannot be used",
               {},
               std::string{text},
               "a number with its unit, such as 10C or 50F, from -60C to 60C",
               {}});
}

}  // namespace soilclock
