// SPDX-License-Identifier: MIT
#include "app/stored_weather.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "app/records_file.hpp"
#include "app/service_settings.hpp"
#include "core/number_text.hpp"
#include "core/text.hpp"

namespace soilclock::app {

namespace {

using records::StoredDay;
using records::StoredWeather;
using records::WeatherPart;

/// Days of one series, split at the day their answer was given.
struct SplitDays {
  weather::DailyWeather past;
  weather::DailyWeather coming;
  int too_new = 0;  ///< days to come that nobody could know on the morning of the question
};

void set_day(weather::DailyWeather& daily, const StoredDay& day, Quality quality) {
  if (day.minimum) daily.air_min.set(day.day, *day.minimum, quality);
  if (day.maximum) daily.air_max.set(day.day, *day.maximum, quality);
  if (day.rain) daily.rain.set(day.day, *day.rain, quality);
}

SplitDays split(const std::vector<StoredDay>& days, const TimeZone& zone, Quality of_past, Day on) {
  SplitDays result;
  for (const StoredDay& day : days) {
    const Day given_on = zone.standard_day(day.known_since);
    if (day.day < given_on)
      set_day(result.past, day, of_past);
    else if (given_on <= on)
      set_day(result.coming, day, Quality::forecast);
    else
      result.too_new += day.minimum ? 1 : 0;
  }
  return result;
}

/// One service of one site, being read into `sources`.
struct Reading {
  const Site& site;
  const SiteService& wanted;
  const net::Service& service;
  records::WeatherStore& store;
  Day on;
  std::size_t members_least;  ///< of an ensemble that says how far the days to come may spread
  StoredSources& sources;
};

/// The first day gone by that is still asked for again, as a service may yet change it.
std::optional<Day> provisional_from(const Reading& reading, WeatherPart part, const StoredWeather& stored,
                                    const TimeZone& zone) {
  if (part != WeatherPart::history) return std::nullopt;
  const Days lasting{reading.service.provisional_days};
  for (const StoredDay& day : stored.members.front()) {
    if (day.minimum && day.maximum && zone.standard_day(day.asked) - day.day <= lasting) return day.day;
  }
  return std::nullopt;
}

void add_origin(const Reading& reading, WeatherPart part, const StoredWeather& stored, DayRange days) {
  const TimeZone zone = reading.site.cutting_zone();
  reading.sources.origins.push_back({reading.service.id, series_name(reading.service, reading.wanted, part),
                                     stored.facts.model, reading.service.attribution, reading.service.license,
                                     stored.origin, stored.last_answer, zone.wall_day(stored.last_answer),
                                     days, provisional_from(reading, part, stored, zone)});
}

DayRange whole_range(const weather::DailyWeather& a, const weather::DailyWeather& b) {
  const DayRange first = weather::covered(a);
  const DayRange second = weather::covered(b);
  if (first.empty()) return second;
  if (second.empty()) return first;
  return {std::min(first.begin(), second.begin()), std::max(first.end(), second.end())};
}

/// The members' days to come, all of the latest ensemble.
Result<std::vector<weather::DailyWeather>> members_to_come(const Reading& reading, const TimeZone& zone) {
  const auto key =
      series_in_use(reading.site, reading.service, reading.wanted, WeatherPart::members, reading.store);
  if (!key) return fail(key.error());
  const auto stored = reading.store.read(*key);
  if (!stored) return fail(stored.error());
  std::vector<weather::DailyWeather> members;
  if (!*stored) return members;
  for (const std::vector<StoredDay>& days : (*stored)->members)
    members.push_back(split(days, zone, Quality::modelled, reading.on).coming);
  const DayRange covered = weather::covered(members.front());
  if (covered.empty()) return std::vector<weather::DailyWeather>{};
  if (members.size() < reading.members_least) {
    reading.sources.remarks.push_back(
        {"members-too-few",
         fmt::format("The latest ensemble of {} has {} member{}: too few to say how far the "
                     "days to come may spread.",
                     reading.service.title, members.size(), members.size() == 1 ? "" : "s")});
    return std::vector<weather::DailyWeather>{};
  }
  add_origin(reading, WeatherPart::members, **stored, covered);
  return members;
}

void add_once(std::vector<Remark>& remarks, Remark remark) {
  if (std::find(remarks.begin(), remarks.end(), remark) == remarks.end())
    remarks.push_back(std::move(remark));
}

Checked add_cell_remark(const Reading& reading, const records::SeriesKey& key, const StoredWeather& stored) {
  if (!stored.facts.cell || !key.station.empty()) return {};
  const auto others = reading.store.sites_in_cell(key, *stored.facts.cell);
  if (!others) return fail(others.error());
  if (others->empty()) return {};
  add_once(reading.sources.remarks,
           {"shared-cell",
            fmt::format(
                "{} has the same numbers here and at {}: one cell of its grid holds them all. What differs "
                "between them (height, water, shade) is not in the weather.",
                reading.service.title, printable(listed(*others), 200))});
  return {};
}

/// Doubts of the readers about the values that are used.
void add_doubts(const Reading& reading, const std::string& name, const StoredWeather& stored) {
  constexpr std::size_t most_shown = 3;
  for (std::size_t i = 0; i < std::min(most_shown, stored.doubts.size()); ++i)
    reading.sources.remarks.push_back({"answer-doubt", fmt::format("{}: {}.", name, stored.doubts[i])});
  if (stored.doubts.size() > most_shown) {
    reading.sources.remarks.push_back(
        {"answer-doubt", fmt::format("{}: {} more such doubts; soilclock fetch shows those of each answer.",
                                     name, stored.doubts.size() - most_shown)});
  }
}

/// Adds one part of a service; false when nothing of it is stored.
Result<bool> add_part(const Reading& reading, WeatherPart part) {
  const auto key = series_in_use(reading.site, reading.service, reading.wanted, part, reading.store);
  if (!key) return fail(key.error());
  const auto read = reading.store.read(*key);
  if (!read) return fail(read.error());
  const std::optional<StoredWeather>& stored = *read;
  if (!stored) return false;
  const TimeZone zone = reading.site.cutting_zone();
  const Quality of_past = reading.service.keeps_stations ? Quality::measured : Quality::modelled;
  SplitDays days = split(stored->members.front(), zone, of_past, reading.on);
  days.past.day_definition = days.coming.day_definition = stored->facts.day_definition;
  const std::string name = series_name(reading.service, reading.wanted, part);
  if (days.too_new > 0) {
    reading.sources.remarks.push_back(
        {"forecast-too-new", fmt::format("{}: {} {} to come were fetched after {} and are not used.", name,
                                         days.too_new, days.too_new == 1 ? "day" : "days", iso(reading.on))});
  }
  const DayRange range = whole_range(days.past, days.coming);
  // A forecast fetched since for days after the question has no part in the answer.
  if (!range.empty() &&
      range.begin() < std::max(reading.on, range.end() - Days{weather::covered(days.coming).size()}))
    add_origin(reading, part, *stored, range);
  if (const Checked added = add_cell_remark(reading, *key, *stored); !added) return fail(added.error());
  add_doubts(reading, name, *stored);
  const std::string source = reading.service.id + " " + reading.wanted.station;
  StoredSeries coming{name, source, std::move(days.coming), true, reading.wanted.remove_bias, {}, {}};
  if (zone.standard_day(stored->last_answer) <= reading.on) coming.hours = stored->hours;
  if (part == WeatherPart::forecast) {
    auto members = members_to_come(reading, zone);
    if (!members) return fail(members.error());
    coming.members = *std::move(members);
  }
  reading.sources.series.push_back(
      {name, source, std::move(days.past), false, reading.wanted.remove_bias, {}, {}});
  if (!weather::covered(coming.daily).empty()) reading.sources.series.push_back(std::move(coming));
  return true;
}

Remark fetched_otherwise(const net::Service& service, const records::SeriesKey& other) {
  std::string place = fmt::format("{} {}", number_text(other.place.latitude_deg, 4),
                                  number_text(other.place.longitude_deg, 4));
  if (service.takes_height) {
    place += other.place.elevation_m ? fmt::format(", {} m", number_text(*other.place.elevation_m, 0))
                                     : std::string{", no height"};
  }
  return {"fetched-otherwise",
          fmt::format("what is stored from {} was fetched for {}{} and is not used; fetch again for the site "
                      "as it is named now",
                      service.title, other.station.empty() ? place : other.station,
                      other.clock.empty() ? "" : ", days of " + other.clock)};
}

Checked add_service(const Reading& reading) {
  bool any = false;
  for (const WeatherPart part : {WeatherPart::history, WeatherPart::forecast}) {
    const auto added = add_part(reading, part);
    if (!added) return fail(added.error());
    any |= *added;
  }
  if (any) return {};
  for (const WeatherPart part : {WeatherPart::history, WeatherPart::forecast}) {
    const auto others = reading.store.others(series_key(reading.site, reading.service, reading.wanted, part));
    if (!others) return fail(others.error());
    if (others->empty()) continue;
    reading.sources.remarks.push_back(fetched_otherwise(reading.service, others->front()));
    return {};
  }
  reading.sources.remarks.push_back(
      {"nothing-fetched", fmt::format("Nothing is stored from {} for this site yet: run soilclock fetch.",
                                      reading.service.title)});
  return {};
}

Problem nothing_stored(const Site& site, const std::vector<Remark>& remarks) {
  const auto otherwise = std::find_if(remarks.begin(), remarks.end(), [](const Remark& remark) {
    return remark.code == "fetched-otherwise";
  });
  return {Family::data,
          fmt::format("no weather is stored for '{}' as it is named now", printable(site.id, 80)),
          {},
          {},
          {},
          otherwise != remarks.end()
              ? otherwise->text
              : "run soilclock fetch for it first, under the same name, place and time zone"};
}

}  // namespace

namespace {

/// The clock of a zone without its summer time, so that names for one and the same clock share a series.
/// Zones seldom move; where one does, the days before are not cut anew.
std::string standard_clock(const TimeZone& zone) {
  return TimeZone::fixed(zone.standard_offset(Instant{make_day(2024, 1, 1)})).name();
}

}  // namespace

records::SeriesKey series_key(const Site& site, const net::Service& service, const SiteService& wanted,
                              WeatherPart part) {
  const bool grid = wanted.station.empty();
  const char* moved = wanted.shift_morning_observations ? "morning observations moved back" : "";
  Place place = grid ? site.place : Place{};
  if (!service.takes_height) place.elevation_m.reset();
  return {site.id,
          service.id,
          part,
          wanted.station,
          place,
          service.cuts_days ? "" : standard_clock(site.cutting_zone()),
          service.cuts_days ? moved : weather::local_standard_days};
}

namespace {

/// Whether a stored series can stand for the one of the site as it is named now: its days may be cut
/// otherwise (a saved answer of whole days), and a height that is not said may be the one it was fetched for.
bool stands_for(const records::SeriesKey& other, const records::SeriesKey& key) {
  const auto same = [](double a, double b) { return std::abs(a - b) < 5e-5; };
  const bool height_fits =
      !key.place.elevation_m ||
      (other.place.elevation_m && std::round(*key.place.elevation_m) == *other.place.elevation_m);
  return other.clock == key.clock && same(other.place.latitude_deg, key.place.latitude_deg) &&
         same(other.place.longitude_deg, key.place.longitude_deg) && height_fits;
}

}  // namespace

Result<records::SeriesKey> series_in_use(const Site& site, const net::Service& service,
                                         const SiteService& wanted, WeatherPart part,
                                         records::WeatherStore& store) {
  const records::SeriesKey key = series_key(site, service, wanted, part);
  const auto days = store.days(key);
  if (!days) return fail(days.error());
  if (!days->empty() || service.cuts_days) return key;
  const auto others = store.others(key);
  if (!others) return fail(others.error());
  const records::SeriesKey* best = &key;
  for (const records::SeriesKey& other : *others) {
    if (stands_for(other, key) && (best == &key || other.cut == key.cut)) best = &other;
  }
  return *best;
}

std::string series_name(const net::Service& service, const SiteService& wanted, WeatherPart part) {
  return fmt::format("{}{} {}", service.title, wanted.station.empty() ? "" : " " + wanted.station,
                     records::name(part));
}

Result<StoredSources> stored_sources(const Site& site, const std::string& records_file,
                                     const std::string& settings_file, Day on, int members_least) {
  StoredSources sources;
  const auto least = static_cast<std::size_t>(members_least);
  if (site.services.empty()) return sources;
  const auto services = load_services(settings_file);
  if (!services) return fail(services.error());
  const auto path = records_path(records_file);
  if (!path) return fail(path.error());
  std::error_code error;
  const bool absent = records_file.empty() && !std::filesystem::exists(*path, error);
  std::optional<records::Store> store;
  if (!absent) {
    auto opened = open_records(records_file, records::Access::reading);
    if (!opened) return fail(opened.error());
    store.emplace(std::move(*opened));
  }
  for (const SiteService& wanted : site.services) {
    const auto service = find_service(*services, wanted);
    if (!service) return fail(service.error());
    if (!store) continue;
    records::WeatherStore stored{*store};
    const Checked added = add_service({site, wanted, **service, stored, on, least, sources});
    if (!added) return fail(added.error());
  }
  if (site.weather.empty() && sources.series.empty()) return fail(nothing_stored(site, sources.remarks));
  return sources;
}

}  // namespace soilclock::app
