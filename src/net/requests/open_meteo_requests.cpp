// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "core/number_text.hpp"
#include "net/requests/query.hpp"
#include "net/requests/service_requests.hpp"

namespace soilclock::net {

namespace {

/// Longer addresses have been cut or refused on the way; the same text then goes as a form.
constexpr std::size_t longest_address = 2000;

template <class Text>
std::string list_of(const std::vector<Place>& places, Text&& text) {
  std::string list;
  for (const Place& place : places) list += (list.empty() ? "" : ",") + text(place);
  return list;
}

/// Places and units. Times are UTC: the service would cut days by one offset for the whole answer.
Parameters shared_parameters(const Service& service, const std::string& part,
                             const std::vector<Place>& places) {
  const int decimals = service.coordinate_decimals.at(part);
  Parameters parameters{
      {"latitude", list_of(places, [&](const Place& p) { return degrees_text(p.latitude_deg, decimals); })},
      {"longitude",
       list_of(places, [&](const Place& p) { return degrees_text(p.longitude_deg, decimals); })}};
  const auto has_height = [](const Place& place) { return place.elevation_m.has_value(); };
  if (std::all_of(places.begin(), places.end(), has_height)) {
    parameters.emplace_back("elevation",
                            list_of(places, [](const Place& p) { return number_text(*p.elevation_m, 0); }));
  }
  parameters.insert(parameters.end(),
                    {{"timezone", "GMT"}, {"temperature_unit", "celsius"}, {"precipitation_unit", "mm"}});
  return parameters;
}

HttpRequest request_for(const Service& service, const std::string& address, const Parameters& parameters) {
  HttpRequest request;
  const std::string text = query_text(parameters);
  request.url = address;
  if (address.size() + 1 + text.size() > longest_address)
    request.form = text;
  else
    request.url += "?" + text;
  request.headers.emplace_back("Accept", "application/json");
  if (!service.key.empty()) request.secret_headers.emplace_back("X-Api-Key", service.key);
  return request;
}

}  // namespace

HttpRequest open_meteo_history(const Service& service, const std::vector<Place>& places, DayRange days) {
  Parameters parameters = shared_parameters(service, "history", places);
  parameters.insert(parameters.end(), {{"start_date", iso(days.begin())},
                                       {"end_date", iso(days.end() - Days{1})},
                                       {"hourly", "temperature_2m,precipitation"}});
  return request_for(service, service.hosts.at("history") + "/v1/archive", parameters);
}

HttpRequest open_meteo_forecast(const Service& service, const std::vector<Place>& places, int past_days,
                                int days_to_come) {
  Parameters parameters = shared_parameters(service, "forecast", places);
  parameters.insert(parameters.end(),
                    {{"wind_speed_unit", "ms"},
                     {"past_days", fmt::format("{}", past_days)},
                     {"forecast_days", fmt::format("{}", days_to_come)},
                     {"hourly", "temperature_2m,precipitation,relative_humidity_2m,wind_speed_10m"}});
  return request_for(service, service.hosts.at("forecast") + "/v1/forecast", parameters);
}

HttpRequest open_meteo_members(const Service& service, const std::vector<Place>& places, int days_to_come) {
  Parameters parameters = shared_parameters(service, "members", places);
  parameters.insert(parameters.end(), {{"forecast_days", fmt::format("{}", days_to_come)},
                                       {"hourly", "temperature_2m,precipitation"}});
  return request_for(service, service.hosts.at("members") + "/v1/ensemble", parameters);
}

double call_weight(int points, int variables, int days) {
  const double tenths = variables / 10.0;
  return points * std::max({1.0, tenths, tenths * days / 14.0});
}

int member_variables(int members) { return 2 * members; }

}  // namespace soilclock::net
