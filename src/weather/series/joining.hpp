// SPDX-License-Identifier: MIT
// Several files of one site to one series: stations before forecasts, the first named before the next.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/remark.hpp"
#include "weather/daily_weather.hpp"

namespace soilclock::weather {

/// The reading of one file and the role it plays.
struct WeatherPart {
  std::string name;  ///< of the file or the service, for remarks
  DailyWeather weather;
  bool forecast = false;
  bool remove_bias = false;  ///< against the parts before it; see biases.hpp
  std::string service = {};  ///< grid or station of a service ("open-meteo"): differs everywhere a little,
                             ///< and its parts belong together; see biases.hpp. Empty: a file of the user's
};

struct JoinedWeather {
  DailyWeather weather;
  std::vector<Remark> remarks;
  std::optional<Day> last_measured;  ///< last day with minimum and maximum of a station
  std::optional<Day> last_forecast;  ///< last day with minimum and maximum of a forecast
  int ignored_days = 0;              ///< station days on or after `on` that were left out
};

/// Takes away everything but forecasts on and after a day and returns the number of days that lost a value.
int cut_before(DailyWeather& weather, Day on);

/// Joins the files of a site. A station's value wins over a forecast; of two stations the one named first
/// wins and, between a user's own files, a remark ("stations-differ") tells on how many days they differ by
/// more than 0.05 C or 0.05 mm (half of the last digit usually printed). Forecast values get
/// Quality::forecast and count only after the last day a station measured, and only when they continue it
/// (else remark "forecast-detached"). With `on`, station values on and after that day are ignored (remark
/// "later-rows-ignored"), so that the answer is the one that could have been given that morning. Days cut by
/// different clocks are joined with a remark
/// ("day-definitions-differ"). A day whose minimum of one part would lie above the maximum of another gets
/// both from the later part where that knows both, else only the value of the earlier one; a remark
/// ("extremes-reversed") counts such days and names the two. Where a service takes part, a remark
/// ("joined-from") names each source with the days it gave.
JoinedWeather join_weather(const std::vector<WeatherPart>& parts, std::optional<Day> on = {});

}  // namespace soilclock::weather
