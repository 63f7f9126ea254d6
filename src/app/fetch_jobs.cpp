// SPDX-License-Identifier: MIT
#include "app/fetch_jobs.hpp"

#include <algorithm>
#include <map>
#include <tuple>

#include "app/fetch_plan.hpp"
#include "app/stored_weather.hpp"
#include "net/requests/service_requests.hpp"

namespace soilclock::app {

namespace {

using records::WeatherPart;

/// Sites that can share a request: the reader cuts all days of an answer by one clock, and a request sends
/// the heights of all its places or of none.
using Sharing = std::tuple<Day, Day, std::string, bool>;

/// Hours of a year of a hundred places are 10 MB of answer; twenty are comfortable on a slow line.
constexpr int most_places_of_hours = 20;

/// Of the ensemble that is asked for: the control run and 30 others.
constexpr int ensemble_members = 31;

int places_a_request(const net::Service& service, WeatherPart part) {
  return part == WeatherPart::forecast ? service.points_a_call
                                       : std::min(service.points_a_call, most_places_of_hours);
}

/// Only services whose answers are hours come in pieces of a year; days of ten years are a small answer.
int years_a_piece(const net::Service& service) { return service.cuts_days ? 10 : 1; }

double weight_of(const net::Service& service, WeatherPart part, std::size_t places, DayRange days) {
  if (service.api != net::ServiceApi::open_meteo) return 1.0;  // the others count calls
  const int points = static_cast<int>(places);
  if (part == WeatherPart::history) return net::call_weight(points, net::history_variables, days.size() + 2);
  if (part == WeatherPart::forecast)
    return net::call_weight(points, net::forecast_variables, forecast_past_days + forecast_days);
  return net::call_weight(points, net::member_variables(ensemble_members), forecast_days);
}

void add_jobs(const net::Service& service, WeatherPart part,
              const std::map<Sharing, std::vector<ServedSite>>& groups, std::vector<FetchJob>& jobs) {
  const auto most = static_cast<std::size_t>(std::max(1, places_a_request(service, part)));
  for (const auto& [shared, sites] : groups) {
    const DayRange days{std::get<0>(shared), std::get<1>(shared)};
    for (std::size_t begin = 0; begin < sites.size(); begin += most) {
      const std::size_t end = std::min(sites.size(), begin + most);
      FetchJob job{part,
                   {sites.begin() + static_cast<std::ptrdiff_t>(begin),
                    sites.begin() + static_cast<std::ptrdiff_t>(end)},
                   days,
                   1.0};
      job.weight = weight_of(service, part, job.sites.size(), days);
      jobs.push_back(std::move(job));
    }
  }
}

Sharing sharing(const ServedSite& served, DayRange days) {
  return {days.begin(), days.end(), served.site->cutting_zone().name(),
          served.site->place.elevation_m.has_value()};
}

Checked plan_history(const net::Service& service, const std::vector<ServedSite>& sites,
                     records::WeatherStore& store, const FetchOptions& options, Instant now,
                     std::vector<FetchJob>& jobs) {
  std::map<Sharing, std::vector<ServedSite>> groups;
  for (const ServedSite& served : sites) {
    const TimeZone zone = served.site->cutting_zone();
    const Day today = zone.standard_day(now);
    const Day first = std::max(service.history_from, make_day(civil(today).year - options.years, 1, 1));
    const auto stored = store.days(series_key(*served.site, service, served.wanted, WeatherPart::history));
    if (!stored) return fail(stored.error());
    const PlanRules rules{service.provisional_days, years_a_piece(service)};
    for (const DayRange& piece : days_to_ask(*stored, {first, today}, zone, rules))
      groups[sharing(served, piece)].push_back(served);
  }
  add_jobs(service, WeatherPart::history, groups, jobs);
  return {};
}

void plan_coming(const net::Service& service, WeatherPart part, const std::vector<ServedSite>& sites,
                 Instant now, std::vector<FetchJob>& jobs) {
  std::map<Sharing, std::vector<ServedSite>> groups;
  for (const ServedSite& served : sites) {
    const Day today = served.site->cutting_zone().standard_day(now);
    groups[sharing(served, {today, today + Days{forecast_days}})].push_back(served);
  }
  add_jobs(service, part, groups, jobs);
}

}  // namespace

Result<std::vector<FetchJob>> plan_jobs(const net::Service& service, const std::vector<ServedSite>& sites,
                                        records::WeatherStore& store, const FetchOptions& options,
                                        Instant now) {
  std::vector<FetchJob> jobs;
  if (service.hosts.contains("history")) {
    if (const auto planned = plan_history(service, sites, store, options, now, jobs); !planned)
      return fail(planned.error());
  }
  if (service.hosts.contains("forecast")) plan_coming(service, WeatherPart::forecast, sites, now, jobs);
  if (service.hosts.contains("members") && options.members)
    plan_coming(service, WeatherPart::members, sites, now, jobs);
  return jobs;
}

}  // namespace soilclock::app
