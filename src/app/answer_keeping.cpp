// SPDX-License-Identifier: MIT
#include "app/answer_keeping.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "app/kept_weather.hpp"
#include "core/text.hpp"
#include "weather/joining.hpp"
#include "weather/services/service_answer.hpp"

namespace soilclock::app {

namespace {

using records::FetchedWeather;
using records::WeatherPart;
using weather::ServiceAnswer;

Problem useless(const net::Service& service, const std::string& what, const std::string& found = {},
                const std::string& expected = {}) {
  return {Family::data, fmt::format("the answer of {} {}", service.title, what),
          {},           found,
          expected,     "nothing of it was kept; try again later"};
}

/// A station without a report in the days asked for: an empty list, or a heading and nothing else.
bool holds_no_rows(std::string_view text, bool json) {
  return text.empty() || (json ? text == "[]" : text.find('\n') == std::string_view::npos);
}

Result<ServiceAnswer> read_table(const net::Service& service, const FetchJob& job, const AnswerText& answer,
                                 const weather::ReadingOptions& options) {
  ServiceAnswer read{service.id, {}, {}};
  read.series.emplace_back();
  weather::ReadingOptions of_station = options;
  of_station.station = job.sites.front().wanted.station;
  read.series.front().reading = weather::read_weather_text(answer.body, answer.origin, of_station);
  if (const auto& refusal = read.series.front().reading.refusal) return fail(*refusal);
  return read;
}

Result<ServiceAnswer> read_answer(const net::Service& service, const FetchJob& job,
                                  const AnswerText& answer) {
  weather::ReadingOptions options;
  options.time_zone = job.sites.front().site->cutting_zone();
  const std::string_view body = trimmed(answer.body);
  const bool json = !body.empty() && (body.front() == '{' || body.front() == '[');
  if (service.keeps_stations && holds_no_rows(body, json)) {
    ServiceAnswer silent{service.id, {}, {}};
    silent.series.emplace_back();
    return silent;
  }
  if (!json) return read_table(service, job, answer, options);
  auto read = weather::read_service_answer(answer.body, answer.origin, options);
  if (!read) return read;
  if (read->service != service.id) return fail(useless(service, "is one of another service", read->service));
  return read;
}

/// The days of UTC around those wanted make other days whole that belong to the next piece.
void keep_only(DayRange days, weather::DailyWeather& daily) {
  daily.air_min = daily.air_min.slice(days);
  daily.air_max = daily.air_max.slice(days);
  daily.rain = daily.rain.slice(days);
}

FetchedWeather fetched_of(const ServiceAnswer& answer, int point, const FetchJob& job,
                          const AnswerText& text) {
  const TimeZone zone = job.sites.front().site->cutting_zone();
  FetchedWeather fetched;
  fetched.at = text.given;
  fetched.origin = text.origin;
  fetched.weight = job.weight / static_cast<double>(job.sites.size());
  if (job.part == WeatherPart::history) fetched.asked = job.days;
  const std::string* model = nullptr;
  for (const weather::AnswerSeries& series : answer.series) {
    if (series.point != point || (model != nullptr && series.model != *model)) continue;
    if (model == nullptr) {
      model = &series.model;
      fetched.facts = {series.reading.place, series.model, series.reading.daily.day_definition};
      if (job.part == WeatherPart::forecast) fetched.hours = series.reading.hours;
    }
    fetched.members.push_back(series.reading.daily);
    if (job.part == WeatherPart::history && !job.days.empty()) keep_only(job.days, fetched.members.back());
    // What a history says of the rest of the day it was given on is a forecast.
    if (job.part == WeatherPart::history)
      weather::cut_before(fetched.members.back(), zone.standard_day(text.given));
    if (job.part != WeatherPart::members) break;
  }
  return fetched;
}

/// A cell of the coarsest grid is 0.6 degrees wide; a station farther than 3 degrees (about 300 km) is not
/// the weather of the site. Judgement.
constexpr double farthest_cell_deg = 1.0;
constexpr double farthest_station_deg = 3.0;

/// An answer that was made for another place: a saved file taken for the wrong site, a station mistyped.
std::optional<Problem> elsewhere(const net::Service& service, const Site& site,
                                 const std::optional<Place>& place) {
  if (!place) return std::nullopt;
  const double limit = service.keeps_stations ? farthest_station_deg : farthest_cell_deg;
  const double north = std::abs(place->latitude_deg - site.place.latitude_deg);
  const double east = std::abs(std::remainder(place->longitude_deg - site.place.longitude_deg, 360.0));
  if (north <= limit && east <= limit) return std::nullopt;
  return useless(service, "is for another place",
                 fmt::format("{:.2f} {:.2f}", place->latitude_deg, place->longitude_deg),
                 fmt::format("within {:.0f} degrees of {:.2f} {:.2f}", limit, site.place.latitude_deg,
                             site.place.longitude_deg));
}

bool knows_a_day(const FetchedWeather& fetched) {
  return std::any_of(fetched.members.begin(), fetched.members.end(), [](const auto& daily) {
    return daily.air_min.count_missing() < daily.air_min.size() &&
           daily.air_max.count_missing() < daily.air_max.size();
  });
}

std::string first_doubt(const ServiceAnswer& answer, int point) {
  for (const weather::AnswerSeries& series : answer.series) {
    if (series.point == point && !series.reading.doubts.empty()) return series.reading.doubts.front().text;
  }
  return {};
}

std::vector<Remark> remarks_on(const ServiceAnswer& answer, int point, const records::KeepingResult& kept,
                               const net::Service& service) {
  std::vector<Remark> remarks;
  for (const weather::AnswerSeries& series : answer.series) {
    if (series.point != point || series.member != 0) continue;
    for (const weather::Doubt& doubt : series.reading.doubts)
      remarks.push_back({"answer-doubt", fmt::format("{}: {}.", service.title, doubt.text)});
    break;
  }
  if (kept.spared_days > 0) {
    remarks.push_back({"days-spared",
                       fmt::format("{} no longer knows {} {} that it knew before; what was kept "
                                   "of them stays.",
                                   service.title, kept.spared_days, kept.spared_days == 1 ? "day" : "days")});
  }
  return remarks;
}

}  // namespace

Result<SiteService> service_of_saved(const Site& site, const AnswerText& saved) {
  const auto read = weather::read_service_answer(saved.body, saved.origin, {});
  for (const SiteService& service : site.services) {
    if (read && service.id == read->service) return service;
  }
  if (!read && site.services.size() == 1) return site.services.front();
  std::vector<std::string> ids;
  for (const SiteService& service : site.services) ids.push_back(service.id);
  return fail({Family::request,
               read ? "the saved answer is of a service that the site does not name"
                    : "it cannot be told which of the site's services the saved answer is of",
               {saved.origin, {}, {}, {}},
               read ? read->service : "",
               listed(ids),
               "name the site by its place, with --service"});
}

Result<WeatherPart> part_of_saved(const net::Service& service, const ServedSite& site,
                                  const AnswerText& saved) {
  const auto read = read_answer(service, {WeatherPart::history, {site}, {}, 0.0}, saved);
  if (!read) return fail(read.error());
  const bool ensemble = std::any_of(read->series.begin(), read->series.end(),
                                    [](const weather::AnswerSeries& series) { return series.member > 0; });
  if (ensemble) return WeatherPart::members;
  const DayRange days = weather::covered(read->series.front().reading.daily);
  const Day given_on = site.site->cutting_zone().standard_day(saved.given);
  return days.end() > given_on + Days{1} ? WeatherPart::forecast : WeatherPart::history;
}

Result<std::vector<KeptAnswer>> keep_answer(const net::Service& service, const FetchJob& job,
                                            const AnswerText& answer, records::WeatherStore& store) {
  const auto read = read_answer(service, job, answer);
  if (!read) return fail(read.error());
  std::vector<FetchedWeather> weather;
  for (std::size_t i = 0; i < job.sites.size(); ++i) {
    weather.push_back(fetched_of(*read, static_cast<int>(i), job, answer));
    if (weather.back().members.empty())
      return fail(useless(service, "holds fewer places than were asked for", fmt::format("{}", i),
                          fmt::format("{}", job.sites.size())));
    if (const auto problem = elsewhere(service, *job.sites[i].site, weather.back().facts.cell))
      return fail(*problem);
    // A station may be silent for the days asked for; a grid never is.
    if (!service.keeps_stations && !knows_a_day(weather.back()))
      return fail(useless(service, "holds no whole day", first_doubt(*read, static_cast<int>(i))));
  }
  std::vector<KeptAnswer> result;
  for (std::size_t i = 0; i < job.sites.size(); ++i) {
    const ServedSite& served = job.sites[i];
    const auto kept = store.keep(series_key(*served.site, served.wanted, job.part), weather[i]);
    if (!kept) return fail(kept.error());
    result.push_back({served, *kept, static_cast<int>(weather[i].members.size()),
                      remarks_on(*read, static_cast<int>(i), *kept, service)});
  }
  return result;
}

}  // namespace soilclock::app
