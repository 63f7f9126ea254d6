// SPDX-License-Identifier: MIT
// First stage of the pipeline: from weather text to a site's weather ready for use.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "advice/futures/forecast_members.hpp"
#include "advice/futures/normal_filling.hpp"
#include "advice/site/probe_readings.hpp"
#include "core/number_text.hpp"
#include "pipeline.hpp"
#include "weather/series/biases.hpp"
#include "weather/series/gaps.hpp"
#include "weather/series/joining.hpp"

namespace soilclock {

namespace {

std::optional<Problem> place_conflict(const std::optional<Place>& site, const weather::ParsedFile& reading) {
  if (!site || !reading.place) return std::nullopt;
  if (lie_within(*site, *reading.place, farthest_station_deg)) return std::nullopt;
  return Problem{Family::request,
                 "the site and its weather file lie far apart",
                 {reading.file, {}, {}, {}},
                 fmt::format("site {} {}, file {} {}", number_text(site->latitude_deg, 2),
                             number_text(site->longitude_deg, 2), number_text(reading.place->latitude_deg, 2),
                             number_text(reading.place->longitude_deg, 2)),
                 fmt::format("within {} degrees of each other", number_text(farthest_station_deg, 0)),
                 "check the signs of latitude and longitude (west and south are negative)"};
}

/// A file's name as an answer says it: without its folders, for answers are mailed to others.
std::string name_alone(const std::string& file) { return std::filesystem::path{file}.filename().string(); }

/// Everything the site's files and stored series hold, not yet joined.
struct Gathered {
  std::vector<weather::WeatherPart> parts;
  std::vector<weather::ProbeObservation> spots;
  std::vector<weather::DailyWeather> members;
};

/// Reads the files into `gathered`; place, hours and doubts go into `prepared`.
std::optional<Problem> gather_files(const SiteRequest& request, const std::vector<WeatherText>& files,
                                    Gathered& gathered, PreparedWeather& prepared) {
  for (const WeatherText& file : files) {
    weather::ReadingOptions options = file.reading;
    options.us_units = request.us_units;
    options.place = request.place;
    weather::ParsedFile reading = request.read_text(file.bytes, file.file, options);
    if (reading.refusal) return reading.refusal;
    if (!prepared.place) prepared.place = reading.place;
    if (const auto problem = place_conflict(prepared.place, reading)) return problem;
    if (!reading.doubts.empty()) {
      prepared.remarks.push_back(
          {"file-doubts",
           fmt::format("{}: {} doubt{} while reading, the first: {}. Inspect the file to see them all.",
                       name_alone(file.file), reading.doubts.size(), reading.doubts.size() == 1 ? "" : "s",
                       reading.doubts.front().text)});
    }
    prepared.hours.reserve(prepared.hours.size() + reading.hours.size());
    for (const weather::HourlyObservation& hour : reading.hours) {
      if (file.forecast || hour.day < request.on) prepared.hours.push_back(hour);
    }
    gathered.spots.insert(gathered.spots.end(), reading.spots.begin(), reading.spots.end());
    gathered.parts.push_back(
        {name_alone(file.file), std::move(reading.daily), file.forecast, file.remove_bias, {}});
  }
  return std::nullopt;
}

void gather_stored(const SiteRequest& request, Gathered& gathered, PreparedWeather& prepared) {
  for (const StoredSeries& series : request.stored.series) {
    gathered.parts.push_back(
        {series.name, series.daily, series.forecast, series.remove_bias, series.service});
    if (!series.members.empty()) gathered.members = series.members;
    for (const weather::HourlyObservation& hour : series.hours) {
      if (series.forecast || hour.day < request.on) prepared.hours.push_back(hour);
    }
  }
  const auto& remarks = request.stored.remarks;
  prepared.remarks.insert(prepared.remarks.end(), remarks.begin(), remarks.end());
}

/// Everything of the site that was read or stored; hours in order of time.
Result<Gathered> gather(const SiteRequest& request, PreparedWeather& prepared) {
  Gathered gathered;
  for (const std::vector<WeatherText>* files : {&request.weather, &request.probe}) {
    if (const auto problem = gather_files(request, *files, gathered, prepared)) return fail(*problem);
  }
  gather_stored(request, gathered, prepared);
  const auto earlier = [](const weather::HourlyObservation& a, const weather::HourlyObservation& b) {
    return std::pair{a.day, a.minute_of_day} < std::pair{b.day, b.minute_of_day};
  };
  // One file is in order, and then sorting would only take its room once more.
  if (!std::is_sorted(prepared.hours.begin(), prepared.hours.end(), earlier))
    std::stable_sort(prepared.hours.begin(), prepared.hours.end(), earlier);
  return gathered;
}

/// One series of all parts, cut at the day of the answer; biases are reported, and taken out where asked.
weather::JoinedWeather join_parts(std::vector<weather::WeatherPart>& parts, const SiteRequest& request,
                                  std::vector<Remark>& remarks) {
  for (const weather::Bias& bias : weather::compare_sources(parts, request.on)) {
    if (auto remark = weather::remark_of(bias, request.us_units)) remarks.push_back(std::move(*remark));
  }
  weather::JoinedWeather joined = weather::join_weather(parts, request.on);
  remarks.insert(remarks.end(), joined.remarks.begin(), joined.remarks.end());
  return joined;
}

/// The joined weather with its short holes closed, at last by the usual course of the record.
weather::FilledWeather close_holes(const weather::DailyWeather& joined, const Place& place,
                                   const advice::FutureRules& rules, std::vector<Remark>& remarks) {
  const weather::GapOptions& gaps = rules.gaps;
  weather::FilledWeather filled = weather::fill_gaps(joined, gaps);
  const int from_normals = advice::fill_from_normals(filled.weather, place, gaps.longest_past_year, rules);
  if (from_normals == 0) return filled;
  filled.missing_days -= from_normals;
  filled.filled_days += from_normals;
  remarks.push_back(
      {"filled-from-normals",
       fmt::format("{} days in gaps of {} to {} days had no earlier year to be filled from; the usual course "
                   "of this record stands in, and the soil is less sure there.",
                   from_normals, gaps.longest_interpolated + 1, gaps.longest_past_year)});
  return filled;
}

Problem no_whole_day(const SiteRequest& request) {
  return {Family::data,
          fmt::format("no day before {} has both a minimum and a maximum", iso(request.on)),
          {request.weather.empty() ? "" : request.weather.front().file, {}, {}, {}},
          {},
          {},
          "check --on and the file with soilclock inspect"};
}

/// The day after the last one with both extremes; one must have them.
Day end_of_whole_days(const DailySeries<Temperature>& air) {
  Day end = air.days().end();
  while (!air.at(end - Days{1})) end -= Days{1};
  return end;
}

/// Lets an ensemble spread the forecast days at the end of the weather.
void take_members(const std::vector<weather::DailyWeather>& members, const advice::FutureRules& rules,
                  advice::SiteWeather& site) {
  Day first = site.outlook_start;
  while (site.daily.air_min.quality(first - Days{1}) == Quality::forecast) first -= Days{1};
  if (members.empty() || first == site.outlook_start) return;
  site.forecast_members = advice::spread_around(site.daily, members, {first, site.outlook_start}, rules);
  if (!site.forecast_members.empty()) site.first_forecast = first;
}

}  // namespace

Result<PreparedWeather> prepare_weather(const SiteRequest& request, const advice::Catalogue& catalogue) {
  PreparedWeather prepared;
  prepared.place = request.place;
  Result<Gathered> gathered = gather(request, prepared);
  if (!gathered) return fail(gathered.error());
  advice::SiteWeather& site = prepared.site;
  site.place = prepared.place.value_or(Place{});
  weather::JoinedWeather joined = join_parts(gathered->parts, request, prepared.remarks);
  advice::change_record(joined.weather, request.on, request.change);
  weather::FilledWeather filled =
      close_holes(joined.weather, site.place, catalogue.futures, prepared.remarks);
  const DailySeries<Temperature> air = weather::air_mean(filled.weather);
  if (air.count_missing() == air.size()) return fail(no_whole_day(request));
  site.on = request.on;
  site.us_units = request.us_units;
  site.outlook_start = end_of_whole_days(air);
  site.last_measured = joined.last_measured;
  site.last_forecast = joined.last_forecast;
  site.irrigation = request.irrigation.value_or(emergence::Irrigation{true, 0.0});
  site.texture = request.texture;
  site.soil_offset = request.soil_offset;
  site.daily = std::move(filled.weather);
  site.change = request.change;
  advice::change_days_ahead(site.daily, site.on, site.change);
  advice::ProbeEvidence taken =
      advice::take_readings(gathered->spots, request.log.readings, site, catalogue.probe, request.us_units);
  site.spots = std::move(taken.spots);
  prepared.remarks.insert(prepared.remarks.end(), taken.remarks.begin(), taken.remarks.end());
  prepared.summary.first = air.first();
  prepared.summary.last_measured = joined.last_measured;
  prepared.summary.last_forecast = joined.last_forecast;
  prepared.summary.missing_days = filled.missing_days;
  prepared.summary.filled_days = filled.filled_days;
  prepared.summary.origins = request.stored.origins;
  for (const weather::WeatherOrigin& origin : request.stored.origins)
    prepared.summary.fetched_at = std::max(prepared.summary.fetched_at, std::optional{origin.fetched});
  if (joined.last_measured)
    prepared.summary.age_days = static_cast<int>((request.on - *joined.last_measured).count());
  take_members(gathered->members, catalogue.futures, site);
  return prepared;
}

}  // namespace soilclock
