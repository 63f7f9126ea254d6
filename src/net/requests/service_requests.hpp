// SPDX-License-Identifier: MIT
// What is asked of each service, as requests ready to be sent. Pure: nothing is sent here.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/dates.hpp"
#include "core/place.hpp"
#include "net/requests/http_request.hpp"
#include "net/requests/services.hpp"

namespace soilclock::net {

/// Years of history before this one that are asked for unless a user says otherwise. Judgment: five whole
/// past seasons are needed to draw the days to come from them, and each past season is judged by those before
/// it.
inline constexpr int usual_history_years = 12;

/// Hours of past days of a grid: minimum, maximum and rain can be cut from them by local standard days. Days
/// of UTC, at least one; ask for one more on either side of the local days wanted. This and the two below: at
/// least one place; heights (rounded to meters) are sent only when all places have one, so split places with
/// and without a height into two requests, or the grid's own heights are used for all. The cell is the
/// service's choice: a land cell of similar height, not always the nearest. More than an address holds (2000
/// characters) becomes a form. The service must have the host asked ("history", "forecast", "members").
/// Names and meanings of parameters: documentation and source of the public server, August 2026.
HttpRequest open_meteo_history(const Service& service, const std::vector<Place>& places, DayRange days);

/// Hours of the last `past_days` (at most 92) and of the days to come (at most 16, today is the first), with
/// what a spray day needs (humidity; wind in m/s).
HttpRequest open_meteo_forecast(const Service& service, const std::vector<Place>& places, int past_days,
                                int days_to_come);

/// Hours of all members of an ensemble forecast: that of the US global model, which the service takes when
/// none is named (a control run and 30 others, up to 35 days). Naming one would tie us to a spelling.
HttpRequest open_meteo_members(const Service& service, const std::vector<Place>& places, int days_to_come);

/// The address of the grid cell of a place; its answer names the URL of the grid (see nws_grid_url).
HttpRequest nws_point(const Service& service, const Place& place);
/// The grid URL in the answer to nws_point. Problem (data): there is none, or it is on another host than the
/// service's "forecast".
Result<std::string> nws_grid_url(const Service& service, const std::string& body);
/// The grid at a URL that nws_grid_url gave.
HttpRequest nws_grid(const std::string& grid_url);

/// Daily summaries (highest, lowest, rain) of a station ("USW00014821"), metric, with quality flags and the
/// station's place, as CSV. Days: at least one.
inline constexpr const char* ncei_units = "C,mm";  ///< of that answer, which does not name them
HttpRequest ncei_days(const Service& service, const std::string& station, DayRange days);

/// Daily values (highest, lowest, rain) of a grid cell in local solar time. Days: at least one.
HttpRequest power_days(const Service& service, const Place& place, DayRange days);

/// How many calls a request counts with a service that weighs them: max(1, v/10, v/10 x days/14) for each
/// point, v variables x models x members. Source: code of the public server of Open-Meteo, read there.
double call_weight(int points, int variables, int days);

/// Variables of each Open-Meteo request, for call_weight.
inline constexpr int history_variables = 2;
inline constexpr int forecast_variables = 4;
int member_variables(int members);

}  // namespace soilclock::net
