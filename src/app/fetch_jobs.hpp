// SPDX-License-Identifier: MIT
// Which requests bring a service's weather for many sites: what is lacking, cut into pieces, sites that lack
// the same put together.
#pragma once

#include <string>
#include <vector>

#include "net/requests/service_requests.hpp"
#include "net/requests/services.hpp"
#include "records/weather_store.hpp"
#include "site/site_file.hpp"

namespace soilclock::app {

struct FetchOptions {
  int years = net::usual_history_years;  ///< of history before this one
  bool members = true;                   ///< the members of an ensemble forecast too, where one is offered
};

/// A site that names a service.
struct ServedSite {
  std::size_t index = 0;  ///< position among all sites
  const Site* site = nullptr;
  SiteService wanted;
};

/// One request, with the sites it is for. They share time zone, days, and whether their height is known.
struct FetchJob {
  records::WeatherPart part = records::WeatherPart::history;
  std::vector<ServedSite> sites;
  DayRange days;  ///< of history; of days around today the whole answer
  double weight = 1.0;
};

/// Past days asked for with every forecast: a month in common with stations and history, to compare them,
/// also where those are two weeks behind.
inline constexpr int forecast_past_days = 45;
/// Days to come asked for; the longest horizon of the forecast models used.
inline constexpr int forecast_days = 16;

/// The requests for one service, history first, oldest pieces first. History reaches back to 1 January so
/// many years ago and to yesterday by the site's clock.
Result<std::vector<FetchJob>> plan_jobs(const net::Service& service, const std::vector<ServedSite>& sites,
                                        records::WeatherStore& store, const FetchOptions& options,
                                        Instant now);

}  // namespace soilclock::app
