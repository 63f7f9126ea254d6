// SPDX-License-Identifier: MIT
// The whole way for one site, stage after stage: weather text -> checked weather -> soil -> thermal time and
// emergence -> windows -> answer. The page to read first. Pure: what it needs comes in, nothing is read or
// printed.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "advice/answer/answer.hpp"
#include "advice/answer/site_state.hpp"
#include "advice/data/catalogue.hpp"
#include "advice/site/site_log.hpp"
#include "advice/site/site_weather.hpp"
#include "weather/parsed_file.hpp"
#include "weather/read_weather.hpp"
#include "weather/weather_origin.hpp"

namespace soilclock {

/// The bytes of a weather file with what the user says about it.
struct WeatherText {
  std::string file;
  std::string bytes;
  bool forecast = false;
  weather::ReadingOptions reading;
  bool remove_bias = false;  ///< against the weather named before it
};

/// How the text of a weather file becomes a parsed file; see weather::read_weather_text.
using TextReader = std::function<weather::ParsedFile(std::string_view bytes, const std::string& file,
                                                     const weather::ReadingOptions& options)>;

/// A stored series of an open service: past days, or forecast days that follow them.
struct StoredSeries {
  std::string name;     ///< for remarks; the past and the coming days of one source share it
  std::string service;  ///< "open-meteo", with the station where there is one; its parts share a bias
  weather::DailyWeather daily;
  bool forecast = false;
  bool remove_bias = false;
  std::vector<weather::HourlyObservation> hours;
  std::vector<weather::DailyWeather> members;  ///< of an ensemble, for the same days to come
};

/// What is stored of a site's weather, and whose it is.
struct StoredSources {
  std::vector<StoredSeries> series;
  std::vector<weather::WeatherOrigin> origins;
  std::vector<Remark> remarks;  ///< about the keeping: sites in one cell, a forecast too new, a similar id
};

/// A site and the question asked about it.
struct SiteRequest {
  std::string id;
  std::string name;
  std::string group;                      ///< to sort courses by; empty: none
  std::optional<advice::AreaFacts> area;  ///< of a course; empty: the site is a whole one
  std::string time_zone;                  ///< as the site has it; empty: not said
  std::optional<Place> place;             ///< empty: taken from the weather file, where that says it
  std::optional<emergence::Irrigation> irrigation;  ///< empty: not said
  soil::Texture texture = soil::Texture::loam;
  TemperatureDelta soil_offset;
  Depth soil_depth = Depth::from_cm(5.0);
  std::vector<WeatherText> weather;
  TextReader read_text = weather::read_weather_text;  ///< one that is asked again may remember what it read
  StoredSources stored;  ///< follows the files: where both know a day, the files are believed
  std::vector<WeatherText> probe;
  advice::TurfFacts turf;
  treatment::TankPlan plan;                         ///< what the site means to put down
  std::vector<treatment::TankPlan> compared_plans;  ///< decided for as well, from the same members
  bool plan_tables = false;              ///< the compared plans come with their weeks, passed ones too
  treatment::ResistantShares resistant;  ///< known at the site
  advice::SiteLog log;
  std::vector<advice::TargetSeasons> neighbors;  ///< earlier seasons noted at sites of the same group
  advice::WeatherChange change;                  ///< of the weather, for a what-if
  Day on{};
  std::vector<std::string> targets;  ///< EPPO codes
  bool us_units = false;             ///< of the sentences
  bool season_tables = false;
  bool past_seasons = false;  ///< the seasons of the record that are over, with the usual one
  int members = 400;
  std::uint64_t seed = 1;
};

/// A site's weather ready for use.
struct PreparedWeather {
  advice::SiteWeather site;
  std::optional<Place> place;  ///< as the request or a file says it; empty where neither does
  advice::WeatherSummary summary;
  std::vector<weather::HourlyObservation> hours;
  std::vector<Remark> remarks;
};

/// Reads, joins, cuts at the day of the answer and fills the weather of a site. A file that cannot be used or
/// no usable day is a problem.
Result<PreparedWeather> prepare_weather(const SiteRequest& request, const advice::Catalogue& catalogue);

/// What the log of a site holds of earlier seasons, by target, for its neighbors; none where its weather
/// cannot be used.
std::vector<advice::TargetSeasons> noted_seasons(const SiteRequest& request,
                                                 const advice::Catalogue& catalogue);

/// The answer for a site. What keeps the whole site or one target from being answered is in it as a problem.
advice::SiteAnswer answer_site(const SiteRequest& request, const advice::Catalogue& catalogue);

}  // namespace soilclock
