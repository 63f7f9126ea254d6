// SPDX-License-Identifier: MIT
#include "app/site_options.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "app/day_option.hpp"
#include "app/local_files.hpp"
#include "app/site_table.hpp"
#include "core/number_text.hpp"
#include "core/text.hpp"
#include "site/site_areas.hpp"
#include "site/site_place.hpp"
#include "soil/surface_water.hpp"

namespace soilclock::app {

namespace {

Problem request(std::string what, std::string found = {}, std::string expected = {},
                std::string remedy = {}) {
  return {Family::request, std::move(what), {}, std::move(found), std::move(expected), std::move(remedy)};
}

Result<std::optional<emergence::Irrigation>> parse_irrigation(const std::string& text) {
  if (text.empty()) return std::optional<emergence::Irrigation>{};
  const std::string word = lowered(text);
  if (word == "yes") return std::optional{emergence::Irrigation{true, 0.0}};
  if (word == "no") return std::optional{emergence::Irrigation{false, 0.0}};
  const auto mm = parse_number(word);
  if (mm && *mm >= 0.0 && *mm <= 200.0) return std::optional{emergence::Irrigation{false, *mm}};
  return fail(request("--irrigated is not understood", text, "yes, no or millimeters a week (0 to 200)"));
}

/// The name of the first option that is given, or nothing.
std::string first_given(const std::vector<std::pair<const char*, bool>>& options) {
  const auto found =
      std::find_if(options.begin(), options.end(), [](const auto& option) { return option.second; });
  return found == options.end() ? "" : found->first;
}

std::string file_stem(const std::string& path) { return std::filesystem::path{path}.stem().string(); }

}  // namespace

void FileOptionWords::declare(Options& options) {
  options.under(Heading::weather_file);
  options.text(
      "--columns LIST", columns,
      "what the columns hold, in order (\"date,tmin,tmax,rain\") or by heading (\"High=tmax,Low=tmin\")");
  options.text("--dates ORDER", dates,
               "order of day and month in the file: day-first, month-first or year-first");
  options.text("--units-in UNITS", units_in,
               "units of the file where it does not say: C, F or K and mm or in (\"F,in\")");
  options.text("--station NAME", station, "which station, where a file holds several");
  options.text("--time-zone ZONE", time_zone, time_zone_help);
  options.flag("--swap-reversed", swap_reversed,
               "exchange a minimum above its maximum instead of taking it as missing");
  options.flag("--shift-morning", shift_morning, shift_morning_help);
}

Result<weather::ReadingOptions> FileOptionWords::reading() const {
  weather::ReadingOptions options;
  options.columns = columns;
  options.units_in = units_in;
  options.station = station;
  options.swap_reversed_extremes = swap_reversed;
  options.shift_morning_observations = shift_morning;
  if (!dates.empty()) {
    const auto order = parse_date_order(dates);
    if (!order) return fail(order.error());
    options.dates = *order;
  }
  if (!time_zone.empty()) {
    const auto zone = TimeZone::named(time_zone);
    if (!zone) return fail(zone.error());
    options.time_zone = *zone;
  }
  return options;
}

std::string FileOptionWords::of_files() const {
  return first_given({{"--columns", !columns.empty()},
                      {"--dates", !dates.empty()},
                      {"--units-in", !units_in.empty()},
                      {"--station", !station.empty()},
                      {"--swap-reversed", swap_reversed}});
}

std::string FileOptionWords::given() const {
  const std::string of_file = of_files();
  return of_file.empty()
             ? first_given({{"--time-zone", !time_zone.empty()}, {"--shift-morning", shift_morning}})
             : of_file;
}

void SiteOptions::declare_sites(Options& options) {
  options.under(Heading::site);
  options.text("--sites FILE", sites,
               "site file (JSON) or table of sites (.csv), or - for one site a line on standard input");
  options.texts("--only ID", only, "a site of the site file; COURSE/AREA for one area of a course");
  options.number("--latitude DEGREES", latitude, "north of the equator, for a single site (south negative)");
  options.number("--longitude DEGREES", longitude, "east of Greenwich, for a single site (west negative)");
  options.number("--elevation METERS", elevation, "above the sea, for a single site");
  options.text("--name NAME", name, "name of a single site");
  options.texts("--service NAME", services,
                "open service whose fetched weather is used for a single site: open-meteo, nws, power or "
                "ncei:STATION");
  options.under(Heading::advanced);
  options.text("--service-settings FILE", service_settings,
               "your contact, keys and hosts for the services (else soilclock/services.json in your "
               "configuration folder, where it is there)");
  options.text("--records FILE", records, records_help);
}

void SiteOptions::declare(Options& options) {
  declare_sites(options);
  options.under(Heading::site);
  options.texts("--probe FILE", probe, "soil probe file of a single site");
  options.text("--irrigated WATER", irrigated, "yes, no or millimeters a week, for a single site");
  options.choice("--texture SOIL", texture, soil::texture_words(),
                 "texture of the topsoil (default loam), for a single site");
  options.under(Heading::weather_file);
  options.texts("--weather FILE", weather, "weather file of a single site");
  options.text("--forecast FILE", forecast, "forecast file of a single site");
  words.declare(options);
  options.under(Heading::answer);
  options.text(
      "--on DAY", on,
      "the day the answer is for, YYYY-MM-DD (default today); nothing measured from then on is used");
  options.texts("--target GRASS", targets, "POAAN, DIGIS, DIGSA, ELEIN, SETPU, SETVI or a plain name");
  options.choice("--units SYSTEM", units, {"us", "metric"}, units_help);
  declare_models(options, models, practice);
  options.under(Heading::answer);
}

void declare_models(Options& options, std::string& models, std::string& practice) {
  options.under(Heading::advanced);
  options.text("--models FOLDER", models, "model files that replace or add to the built-in ones");
  options.text("--practice FILE", practice, "practice thresholds instead of the built-in ones");
}

void declare_format(Options& options, std::string& format, const std::vector<std::string>& offered) {
  options.under(Heading::answer);
  options.choice("--format FORM", format, offered, "form of the answer");
}

void SiteOptions::declare_plan(Options& options) {
  options.under(Heading::answer);
  options.text("--plan PLAN", plan,
               "what is to be put down, for all sites of the call: actives or groups (\"prodiamine + "
               "simazine\", \"3, 5\"), or weeks of residual and the kind of post (\"16 weeks, contact\", \"8 "
               "weeks, none\")");
}

Result<Day> SiteOptions::day(const std::vector<Site>& sites, const Streams& streams) const {
  if (!on.empty()) return read_day("--on", on);
  std::optional<Day> latest;
  for (const Site& site : sites) {
    const bool own = site.time_zone || site.place_known;
    const Day today = own ? site.cutting_zone().wall_day(streams.now()) : streams.today;
    latest = std::max(latest.value_or(today), today);
  }
  return latest.value_or(streams.today);
}

std::optional<Problem> SiteOptions::misuse() const {
  if (!sites.empty()) {
    std::string stray = first_given({{"--weather", !weather.empty()},
                                     {"--forecast", !forecast.empty()},
                                     {"--probe", !probe.empty()},
                                     {"--latitude", latitude.has_value()},
                                     {"--longitude", longitude.has_value()},
                                     {"--elevation", elevation.has_value()},
                                     {"--service", !services.empty()},
                                     {"--name", !name.empty()},
                                     {"--irrigated", !irrigated.empty()},
                                     {"--texture", !texture.empty()}});
    if (stray.empty()) stray = words.given();
    if (!stray.empty()) {
      return request("--sites and " + stray + " cannot be used together", {}, {},
                     "say it in the site file, for the site it is meant for");
    }
    if (sites == "-" && !only.empty())
      return request("--only chooses from a site file", {}, {}, "leave it out with --sites -");
    return std::nullopt;
  }
  if (weather.empty() && services.empty())
    return request("no site is named", {},
                   "--sites FILE, or --weather FILE or --service NAME with --latitude D --longitude D");
  if (weather.empty() && forecast.empty() && probe.empty() && !words.of_files().empty())
    return request(words.of_files() + " is about a weather file, and none is named", {}, "--weather FILE");
  if (elevation && (*elevation < -450.0 || *elevation > 6000.0))
    return request("--elevation is out of range", {}, "-450 to 6000 meters");
  if (!only.empty()) return request("--only chooses from a site file", {}, "--sites FILE");
  if (latitude.has_value() != longitude.has_value()) {
    return request(latitude ? "--longitude is missing" : "--latitude is missing", {},
                   "--latitude D --longitude D");
  }
  if (!latitude && !services.empty())
    return request("a service needs the place of the site", {}, "--latitude D --longitude D");
  if (!latitude) return std::nullopt;
  if (*latitude < -90.0 || *latitude > 90.0)
    return request("--latitude is out of range", {}, "-90 to 90", "are latitude and longitude exchanged?");
  if (*longitude < -180.0 || *longitude > 180.0)
    return request("--longitude is out of range", {}, "-180 to 180");
  return place_problem({*latitude, *longitude, {}}, std::nullopt);
}

Result<std::vector<Site>> SiteOptions::read_sites_named() const {
  if (const auto problem = misuse()) return fail(*problem);
  if (sites == "-") {
    return fail(request("only advise takes sites on standard input", {}, "--sites FILE",
                        "write the sites into a file"));
  }
  if (!sites.empty()) return sites_of_file();
  auto site = single_site();
  if (!site) return fail(site.error());
  return std::vector{std::move(*site)};
}

Result<std::vector<Site>> SiteOptions::sites_of_file() const {
  const auto text = read_file(sites);
  if (!text) return fail(text.error());
  const std::filesystem::path path{sites};
  const auto read = lowered(path.extension().string()) == ".csv" ? read_site_table : read_sites;
  auto all = read(*text, sites, path.parent_path().string());
  if (!all) return all;
  return chosen_sites(std::move(*all), only);
}

std::string SiteOptions::single_name() const {
  if (!name.empty()) return name;
  if (!weather.empty()) return file_stem(weather.front());
  return fmt::format("site at {} {}", number_text(*latitude, 4), number_text(*longitude, 4));
}

Result<std::vector<SiteService>> SiteOptions::single_services() const {
  std::vector<SiteService> result;
  for (const std::string& service : services) {
    auto parsed = parse_service(service);
    if (!parsed) return fail(parsed.error());
    if (std::count(services.begin(), services.end(), service) > 1)
      return fail(request("--service names this one twice", service));
    parsed->shift_morning_observations = words.shift_morning;
    result.push_back(std::move(*parsed));
  }
  return result;
}

Result<Site> SiteOptions::single_site() const {
  Site site;
  site.id = site.name = single_name();
  site.place_known = latitude && longitude;
  site.place = {latitude.value_or(0.0), longitude.value_or(0.0), elevation};
  auto served = single_services();
  if (!served) return fail(served.error());
  site.services = std::move(*served);
  const auto reading = words.reading();
  if (!reading) return fail(reading.error());
  site.time_zone = reading->time_zone;
  if (site.place_known) {
    if (const auto problem = place_problem(site.place, site.time_zone)) return fail(*problem);
  }
  const auto water = parse_irrigation(irrigated);
  if (!water) return fail(water.error());
  site.irrigation = *water;
  if (const auto known = soil::texture_of(texture)) site.texture = *known;
  for (const std::string& path : weather) site.weather.push_back({path, false, *reading});
  if (!forecast.empty()) site.weather.push_back({forecast, true, *reading});
  for (const std::string& path : probe) site.probe.push_back({path, false, *reading});
  return site;
}

Result<std::vector<Site>> read_site_line(std::string_view line, int line_number) {
  const std::string source = "standard input line " + std::to_string(line_number);
  auto sites = read_sites(line, source, "");
  if (sites && courses_of(*sites).size() != 1)
    return fail({Family::request, "a line holds one site", {source, {}, {}, {}}, {}, "{...}", {}});
  return sites;
}

}  // namespace soilclock::app
