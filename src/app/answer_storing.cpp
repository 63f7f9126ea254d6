// SPDX-License-Identifier: MIT
#include "app/answer_storing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "app/answer_points.hpp"
#include "app/stored_weather.hpp"
#include "core/number_text.hpp"
#include "core/text.hpp"
#include "site/us_places.hpp"
#include "weather/read_weather.hpp"
#include "weather/series/joining.hpp"
#include "weather/services/service_answer.hpp"

namespace soilclock::app {

namespace {

using records::AnswerToStore;
using records::FetchedWeather;
using records::WeatherPart;
using weather::ServiceAnswer;

Problem useless(const net::Service& service, const std::string& what, const std::string& found = {},
                const std::string& expected = {}) {
  return useless_answer(service, what, found, expected);
}

/// Whether a table can be of a service, by its own words: a station's is known by the station, that of the
/// coarse grid by its head, and the others send no tables.
bool is_table_of(const net::Service& service, const std::string& station, std::string_view text) {
  if (service.keeps_stations) {
    const std::string begin = lowered(text.substr(0, text.find('\n', text.find('\n') + 1)));
    return begin.find("station") != std::string::npos || begin.find(lowered(station)) != std::string::npos;
  }
  constexpr std::size_t head = 500;
  return service.api == net::ServiceApi::power &&
         text.substr(0, head).find("NASA/POWER") != std::string_view::npos;
}

/// A station without a report in the days asked for: an empty list, or a heading and nothing else.
bool holds_no_rows(std::string_view text, bool json) {
  return text.empty() || (json ? text == "[]" : text.find('\n') == std::string_view::npos);
}

Result<ServiceAnswer> read_table(const net::Service& service, const AnswerText& answer,
                                 const weather::ReadingOptions& options) {
  if (!is_table_of(service, options.station, answer.body)) {
    // A file named by mistake may be anything: nothing of it is shown.
    Problem problem = useless(service, "is none of its answers");
    problem.where.file = answer.origin;
    problem.remedy += "; a table of your own stands among the weather of a site: {\"file\": \"own.csv\"}";
    return fail(problem);
  }
  ServiceAnswer read{service.id, {}, {}};
  read.series.emplace_back();
  read.series.front().location = options.station;  // the reader has looked
  read.series.front().reading = weather::read_weather_text(answer.body, answer.origin, options);
  auto refusal = read.series.front().reading.refusal;
  if (!refusal) return read;
  // Nobody who fetches can say how the service's columns are to be read.
  if (!options.asked_in.empty()) refusal->remedy = "nothing of it was stored; the service may have changed";
  return fail(*refusal);
}

/// The days of UTC around those wanted make other days whole that belong to the next piece.
void keep_only(DayRange days, weather::DailyWeather& daily) {
  daily.air_min = daily.air_min.slice(days);
  daily.air_max = daily.air_max.slice(days);
  daily.rain = daily.rain.slice(days);
}

/// When an answer was made: a grid may stand still for days while it is handed out as if it were new.
Instant given_at(const ServiceAnswer& answer, const AnswerText& text) {
  return answer.issued ? std::min(*answer.issued, text.given) : text.given;
}

/// Where the numbers are from: some services repeat the place they were asked for, whatever cell it lies in.
std::optional<Place> cell_of(const net::Service& service, const std::optional<Place>& answered) {
  if (!answered || !service.cells) return answered;
  const auto nearest_multiple = [](double degrees, double step) { return std::round(degrees / step) * step; };
  return Place{nearest_multiple(answered->latitude_deg, service.cells->latitude_deg),
               nearest_multiple(answered->longitude_deg, service.cells->longitude_deg),
               answered->elevation_m};
}

FetchedWeather fetched_of(const net::Service& service, const ServiceAnswer& answer, int point,
                          const FetchJob& job, const AnswerText& text) {
  const TimeZone zone = job.sites.front().site->cutting_zone();
  FetchedWeather fetched;
  fetched.at = given_at(answer, text);
  fetched.origin = text.origin;
  if (job.part == WeatherPart::history) fetched.asked = job.days;
  const std::string* model = nullptr;
  for (const weather::AnswerSeries& series : answer.series) {
    if (series.point != point || (model != nullptr && series.model != *model)) continue;
    if (model == nullptr) {
      model = &series.model;
      fetched.facts = {cell_of(service, series.reading.place), series.model,
                       series.reading.daily.day_definition};
      for (const weather::Doubt& doubt : series.reading.doubts) fetched.doubts.push_back(doubt.text);
      if (job.part == WeatherPart::forecast) fetched.hours = series.reading.hours;
    }
    fetched.members.push_back(series.reading.daily);
    if (job.part == WeatherPart::history && !job.days.empty()) keep_only(job.days, fetched.members.back());
    // What a history says of the rest of the day it was given on is a forecast.
    if (job.part == WeatherPart::history)
      weather::cut_before(fetched.members.back(), zone.standard_day(fetched.at));
    if (job.part != WeatherPart::members) break;
  }
  return fetched;
}

/// An answer that was made for another place: a saved file taken for the wrong site, a station mistyped.
std::optional<Problem> elsewhere(const net::Service& service, const Site& site,
                                 const std::optional<Place>& place) {
  if (!place) return std::nullopt;
  const double limit = farthest_answer_deg(service);
  if (lie_within(*place, site.place, limit)) return std::nullopt;
  Problem problem =
      useless(service, "is for another place",
              fmt::format("{} {}", number_text(place->latitude_deg, 2), number_text(place->longitude_deg, 2)),
              fmt::format("within {} degrees of {} {}", number_text(limit, 1),
                          number_text(site.place.latitude_deg, 2), number_text(site.place.longitude_deg, 2)));
  const Place mirrored{site.place.latitude_deg, -site.place.longitude_deg, {}};
  if (lie_within(*place, mirrored, limit))
    problem.remedy += "; west of Greenwich is negative: is the sign of the site's longitude right?";
  return problem;
}

bool knows_a_day(const FetchedWeather& fetched) {
  return std::any_of(fetched.members.begin(), fetched.members.end(), [](const auto& daily) {
    return daily.air_min.count_missing() < daily.air_min.size() &&
           daily.air_max.count_missing() < daily.air_max.size();
  });
}

/// Past this age a forecast is called old; offices renew theirs every few hours. Judgment.
constexpr std::chrono::hours stale_after{12};

std::optional<Remark> stale(const ServiceAnswer& answer, const AnswerText& text,
                            const net::Service& service) {
  const Instant made = given_at(answer, text);
  if (text.given - made <= stale_after) return std::nullopt;
  return Remark{"stale-answer",
                fmt::format("{} handed out what it made on {}, {} hours before.", service.title, iso(made),
                            std::chrono::duration_cast<std::chrono::hours>(text.given - made).count())};
}

std::optional<Remark> other_models(const ServiceAnswer& answer, int point, const net::Service& service) {
  std::vector<std::string> models;
  for (const weather::AnswerSeries& series : answer.series) {
    if (series.point != point || std::find(models.begin(), models.end(), series.model) != models.end())
      continue;
    models.push_back(series.model);
  }
  if (models.size() < 2) return std::nullopt;
  return Remark{"first-model", fmt::format("The answer of {} holds several models ({}); {} is used.",
                                           service.title, listed(models), models.front())};
}

std::vector<Remark> remarks_on(const ServiceAnswer& answer, int point, const AnswerToStore& storing,
                               const records::StoringResult& stored, const AnswerText& text,
                               const net::Service& service) {
  std::vector<Remark> remarks;
  const std::string name = fmt::format("{} {}", service.title, records::name(storing.key.part));
  for (const std::string& doubt : storing.fetched.doubts)
    remarks.push_back({"answer-doubt", fmt::format("{}: {}.", name, doubt)});
  if (const auto remark = stale(answer, text, service)) remarks.push_back(*remark);
  if (const auto remark = other_models(answer, point, service)) remarks.push_back(*remark);
  if (!storing.key.clock.empty() && storing.key.cut != weather::local_standard_days) {
    remarks.push_back({"cut-otherwise",
                       fmt::format("The days of this answer are cut by {}, not by the site's clock; they are "
                                   "used as long as nothing else is fetched.",
                                   storing.key.cut)});
  }
  if (stored.spared_days > 0) {
    remarks.push_back(
        {"days-spared",
         fmt::format("{} no longer knows all it knew of {} {}; what was stored of them stays.", service.title,
                     stored.spared_days, stored.spared_days == 1 ? "day" : "days")});
  }
  return remarks;
}

/// What an answer says for one site of its job.
Result<AnswerToStore> answer_to_store(const net::Service& service, const ServiceAnswer& answer,
                                      const FetchJob& job, std::size_t site, int point,
                                      const AnswerText& text) {
  const ServedSite& served = job.sites[site];
  AnswerToStore storing{series_key(*served.site, service, served.wanted, job.part),
                        fetched_of(service, answer, point, job, text)};
  const FetchedWeather& fetched = storing.fetched;
  if (const auto problem = elsewhere(service, *served.site, fetched.facts.cell)) return fail(*problem);
  // A station may be silent for the days asked for; a grid never is.
  if (!service.keeps_stations && !knows_a_day(fetched))
    return fail(useless(service, "holds no whole day", fetched.doubts.empty() ? "" : fetched.doubts.front()));
  if (!storing.key.clock.empty()) storing.key.cut = fetched.facts.day_definition;
  return storing;
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
                    : "the saved answer may be of more than one of the site's services",
               {saved.origin, {}, {}, {}},
               read ? read->service : "",
               listed(ids),
               "name the site by its place, with --service"});
}

Result<ServiceAnswer> read_job_answer(const net::Service& service, const FetchJob& job,
                                      const AnswerText& answer) {
  const Site& site = *job.sites.front().site;
  weather::ReadingOptions options;
  options.us_units =
      site.units ? *site.units == Units::us : in_united_states(site.place, site.time_zone).value_or(false);
  options.time_zone = site.cutting_zone();
  // The clocks are shared by all sites of a job, the climates are not.
  if (job.sites.size() == 1) options.place = site.place;
  options.station = job.sites.front().wanted.station;
  options.shift_morning_observations = job.sites.front().wanted.shift_morning_observations;
  options.asked_in = answer.asked_in;
  options.units_in = answer.units_in;
  const std::string_view body = trimmed(answer.body);
  const bool json = !body.empty() && (body.front() == '{' || body.front() == '[');
  if (service.keeps_stations && holds_no_rows(body, json)) {
    ServiceAnswer silent{service.id, {}, {}};
    silent.series.emplace_back();
    return silent;
  }
  if (!json) return read_table(service, answer, options);
  auto read = weather::read_service_answer(answer.body, answer.origin, options);
  if (!read) return read;
  if (read->service != service.id) return fail(useless(service, "is one of another service", read->service));
  return read;
}

std::optional<Problem> issue_time_conflict(const ServedSite& site, const AnswerText& saved,
                                           const ServiceAnswer& answer) {
  constexpr Days longest_forecast{46};  // extended range of the seasonal service; its documentation, 2026
  const DayRange days = weather::covered(answer.series.front().reading.daily);
  const Day given_on = site.site->cutting_zone().standard_day(given_at(answer, saved));
  if (days.empty() || (days.begin() <= given_on + Days{1} && days.end() <= given_on + longest_forecast))
    return std::nullopt;
  return Problem{Family::request,
                 "the saved answer cannot have been given on " + iso(given_on),
                 {saved.origin, {}, {}, {}},
                 fmt::format("days from {} to {}", iso(days.begin()), iso(days.end() - Days{1})),
                 {},
                 "say with --saved-on when it was given"};
}

std::optional<Remark> given_assumed(const AnswerText& saved, const ServiceAnswer& answer) {
  if (!saved.given_unsaid || answer.issued) return std::nullopt;
  return Remark{
      "given-assumed",
      fmt::format("The answer is taken as given on {}, when its file was last written; days from then "
                  "on are forecast. If it is older, say so with --saved-on.",
                  iso(saved.given).substr(0, 10))};
}

WeatherPart part_of_saved(const ServedSite& site, const AnswerText& saved, const ServiceAnswer& answer) {
  const bool ensemble = std::any_of(answer.series.begin(), answer.series.end(),
                                    [](const weather::AnswerSeries& series) { return series.member > 0; });
  if (ensemble) return WeatherPart::members;
  const DayRange days = weather::covered(answer.series.front().reading.daily);
  const Day given_on = site.site->cutting_zone().standard_day(given_at(answer, saved));
  return days.end() > given_on + Days{1} ? WeatherPart::forecast : WeatherPart::history;
}

Result<std::vector<StoredAnswer>> store_answer(const net::Service& service, const FetchJob& job,
                                               const AnswerText& text, const ServiceAnswer& answer,
                                               records::WeatherStore& store) {
  const auto points = points_of_sites(service, answer, job);
  if (!points) return fail(points.error());
  std::vector<AnswerToStore> weather;
  weather.reserve(job.sites.size());
  for (std::size_t i = 0; i < job.sites.size(); ++i) {
    auto storing = answer_to_store(service, answer, job, i, (*points)[i], text);
    if (!storing) return fail(storing.error());
    weather.push_back(std::move(*storing));
  }
  const auto stored = store.put(weather);
  if (!stored) return fail(stored.error());
  std::vector<StoredAnswer> result;
  for (std::size_t i = 0; i < job.sites.size(); ++i) {
    result.push_back({job.sites[i], weather[i].fetched.at, (*stored)[i],
                      static_cast<int>(weather[i].fetched.members.size()),
                      remarks_on(answer, (*points)[i], weather[i], (*stored)[i], text, service)});
  }
  return result;
}

}  // namespace soilclock::app
