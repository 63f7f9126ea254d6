// SPDX-License-Identifier: MIT
// What is asked of each service, as requests ready to be sent. Pure: nothing is sent here.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/dates.hpp"
#include "core/place.hpp"
#include "net/http_client.hpp"
#include "net/services.hpp"

namespace soilclock::net {

/// Hours of past days of a grid: minimum, maximum and rain can be cut from them by local standard days. Days
/// of UTC; ask for one more on either side of the local days wanted.
HttpRequest open_meteo_history(const Service& service, const std::vector<Place>& places, DayRange days);

/// Hours of the last `past_days` and of the days to come (at most 16), with what a spray day needs (humidity,
/// wind).
HttpRequest open_meteo_forecast(const Service& service, const std::vector<Place>& places, int past_days,
                                int days_to_come);

/// Hours of all members of an ensemble forecast.
HttpRequest open_meteo_members(const Service& service, const std::vector<Place>& places, int days_to_come);

/// The address of the grid cell of a place; its answer names the URL of the grid (see nws_grid_url).
HttpRequest nws_point(const Service& service, const Place& place);
/// The grid URL in the answer to nws_point. Problem (data): there is none, or it is on another host.
Result<std::string> nws_grid_url(const Service& service, const std::string& body);
HttpRequest nws_grid(const Service& service, const std::string& grid_url);

/// Daily summaries of a station, metric, with quality flags, as CSV.
HttpRequest ncei_days(const Service& service, const std::string& station, DayRange days);

/// Daily values of a grid cell in local solar time.
HttpRequest power_days(const Service& service, const Place& place, DayRange days);

/// How many calls a request counts with a service that weighs them: max(1, v/10, v/10 x days/14) for each
/// point, v variables x models x members. Source: code of the public server of Open-Meteo, read there.
double call_weight(int points, int variables, int days);

/// Variables of each Open-Meteo request, for call_weight.
inline constexpr int history_variables = 2;
inline constexpr int forecast_variables = 4;
int member_variables(int members);

}  // namespace soilclock::net
