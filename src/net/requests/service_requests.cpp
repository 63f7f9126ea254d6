// SPDX-License-Identifier: MIT
#include "net/requests/service_requests.hpp"

#include <algorithm>

#include "core/json_reader.hpp"
#include "net/requests/query.hpp"

namespace soilclock::net {

namespace {

/// The US forecast service has given stale answers to callers that do not name this type.
HttpRequest geo_json(std::string url) {
  HttpRequest request;
  request.url = std::move(url);
  request.headers.emplace_back("Accept", "application/geo+json");
  return request;
}

/// "20240131".
std::string compact(Day day) {
  std::string text = iso(day);
  std::erase(text, '-');
  return text;
}

}  // namespace

HttpRequest nws_point(const Service& service, const Place& place) {
  const int decimals = service.coordinate_decimals.at("forecast");
  return geo_json(service.hosts.at("forecast") + "/points/" + degrees_text(place.latitude_deg, decimals) +
                  "," + degrees_text(place.longitude_deg, decimals));
}

Result<std::string> nws_grid_url(const Service& service, const std::string& body) {
  return read_json(body, service.title, Family::data, [&](const JsonObject& top) {
    const std::string host = service.hosts.at("forecast") + "/";
    const JsonObject properties = top.object("properties");
    const std::string url = properties.text("forecastGridData");
    if (!url.starts_with(host))
      properties.refuse("forecastGridData", "the grid lies on another host", host + "...",
                        "nothing is asked of hosts that are not in the service settings");
    return url;
  });
}

HttpRequest nws_grid(const std::string& grid_url) { return geo_json(grid_url); }

HttpRequest ncei_days(const Service& service, const std::string& station, DayRange days) {
  HttpRequest request;
  request.url = service.hosts.at("history") + "/access/services/data/v1?" +
                query_text({{"dataset", "daily-summaries"},
                            {"stations", station},
                            {"startDate", iso(days.begin())},
                            {"endDate", iso(days.end() - Days{1})},
                            {"dataTypes", "TMAX,TMIN,PRCP"},
                            {"units", "metric"},
                            {"includeAttributes", "true"},
                            {"includeStationLocation", "1"},
                            {"format", "csv"}});
  request.headers.emplace_back("Accept", "text/csv, text/plain, */*");
  request.expects = BodyKind::text;
  return request;
}

HttpRequest power_days(const Service& service, const Place& place, DayRange days) {
  const int decimals = service.coordinate_decimals.at("history");
  HttpRequest request;
  request.url = service.hosts.at("history") + "/api/temporal/daily/point?" +
                query_text({{"parameters", "T2M_MAX,T2M_MIN,PRECTOTCORR"},
                            {"community", "ag"},
                            {"longitude", degrees_text(place.longitude_deg, decimals)},
                            {"latitude", degrees_text(place.latitude_deg, decimals)},
                            {"start", compact(days.begin())},
                            {"end", compact(days.end() - Days{1})},
                            {"format", "json"},
                            {"time-standard", "lst"}});
  request.headers.emplace_back("Accept", "application/json");
  return request;
}

}  // namespace soilclock::net
