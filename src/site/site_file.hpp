// SPDX-License-Identifier: MIT
// The site file: what the user says about each course.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "advice/answer/answer.hpp"
#include "core/depth.hpp"
#include "core/place.hpp"
#include "core/problem.hpp"
#include "core/temperature.hpp"
#include "core/time_zone.hpp"
#include "emergence/season_drivers.hpp"
#include "records/entries/record.hpp"
#include "site/site_plan.hpp"
#include "soil/surface_water.hpp"
#include "weather/parsed_file.hpp"

namespace soilclock {

enum class Units { metric, us };

/// Largest shift of the soil estimate that a user may ask for, either way; more is a slip. Judgment.
inline constexpr double most_soil_offset_c = 10.0;

/// Most areas of a course: greens, tees and fairways of 18 holes with some to spare; more is a slip.
/// Judgment.
inline constexpr std::size_t most_areas = 60;

/// A weather or probe file of a site, with what the user says about its columns.
struct SiteDataFile {
  std::string path;  ///< as to be opened: already joined with the site file's folder
  bool forecast = false;
  weather::ReadingOptions reading;
  bool remove_bias = false;  ///< against the weather named before it
};

/// An open service a site's weather is fetched from.
struct SiteService {
  std::string id;       ///< "open-meteo", "nws", "ncei", "power"
  std::string station;  ///< of services of named stations
  bool remove_bias = false;
  bool shift_morning_observations = false;  ///< of a station read in the morning; see weather::ReadingOptions
};

/// A place answered for: a whole course, or one area of it. An area has the id "COURSE/AREA" and the name
/// "Course, area", the weather, place, clock and log of its course, and its own ground and turf.
struct Site {
  std::string id;
  std::string name;
  std::optional<advice::AreaFacts> area;  ///< empty: a whole course
  bool own_soil = false;                  ///< an area with a soil offset or a probe of its own
  std::string group;                      ///< the user's own word to sort courses by; empty: none
  Place place;
  bool place_known = true;  ///< false for a single weather file without a place: the file itself may say it
  std::optional<TimeZone> time_zone;
  std::optional<Units> units;
  std::string turf_species;
  std::optional<emergence::Irrigation> irrigation;  ///< empty: not said
  std::optional<Day> overseed_on;
  bool slope_to_green = false;                  ///< treated ground falls toward a green
  soil::Texture texture = soil::Texture::loam;  ///< of the topsoil
  Depth soil_depth = Depth::from_cm(5.0);
  TemperatureDelta soil_offset;            ///< site against estimate, the user's own finding
  std::vector<std::string> targets;        ///< codes or plain names; empty: the program's default
  SitePlan plan;                           ///< what the site means to put down; empty: not said
  std::vector<SiteResistance> resistance;  ///< each group once
  std::vector<SiteDataFile> weather;
  std::vector<SiteService> services;  ///< behind the files: where both know a day, the files are believed
  std::vector<SiteDataFile> probe;
  std::vector<records::Record> log;  ///< notes of the course in the site file; the records file may hold more

  /// The clock on the site's walls; null where the zone was not said.
  const TimeZone* clock() const { return time_zone ? &*time_zone : nullptr; }
  /// The zone that cuts the days of fetched hours: the site's, else the whole hours that belong to its
  /// longitude.
  TimeZone cutting_zone() const;
};

/// Reads "open-meteo" or "ncei:STATION"; a request problem when it has another form.
Result<SiteService> parse_service(std::string_view text);

/// Reads a JSON list of sites (or one site object). A course with areas becomes a site an area, in their
/// order and without one of its own. Relative paths are joined with `folder`. Unknown keys, wrong types and
/// values out of range are request problems with file and JSON place; ids must differ.
Result<std::vector<Site>> read_sites(std::string_view text, const std::string& file,
                                     const std::string& folder);

/// Reads the words of --dates: "day-first", "month-first", "year-first".
Result<weather::DateOrder> parse_date_order(std::string_view text);

/// Reads a depth such as "5cm" or "2in"; 2.5 to 15 cm.
Result<Depth> parse_depth(std::string_view text);

/// Reads a temperature such as "10C" or "50F"; -60 to 60 C, the range of weather.
Result<Temperature> parse_temperature(std::string_view text);

}  // namespace soilclock
