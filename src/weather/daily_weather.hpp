// SPDX-License-Identifier: MIT
// What the weather floor hands upward: daily series of one place with the origin of every value.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/depth.hpp"
#include "core/rain.hpp"
#include "core/series.hpp"
#include "core/temperature.hpp"

namespace soilclock::weather {

/// How days are cut by a fixed clock of the site all year.
inline constexpr const char* local_standard_days = "local standard time";

/// Daily weather of one place. Series may cover different ranges; a day absent from one is missing there.
struct DailyWeather {
  DailySeries<Temperature> air_min;
  DailySeries<Temperature> air_max;
  DailySeries<Rain> rain;
  /// Measured soil temperature by depth; daily means.
  std::map<Depth, DailySeries<Temperature>> soil;
  /// Which clock cuts the days: "local standard time", "UTC", "wall clock", "as printed".
  std::string day_definition = "as printed";
};

/// One sub-daily reading, for judging the hours of a spray day. Unknown quantities are empty.
struct HourlyObservation {
  Day day{};  ///< on the day definition of the series
  int minute_of_day = 0;
  std::optional<Temperature> air;
  std::optional<double> humidity_percent;
  std::optional<double> wind_m_per_s;
  std::optional<Rain> rain;  ///< of the interval that ends here
};

/// One soil temperature read at a clock time, which is not the mean of its day.
struct ProbeObservation {
  Day day{};
  int minute_of_day = 0;
  Depth depth = Depth::from_cm(5.0);
  Temperature temperature;
};

/// (maximum + minimum) / 2 of each day that has both; quality is the weaker of the two.
DailySeries<Temperature> air_mean(const DailyWeather& weather);

/// Every day any of minimum, maximum or rain is known for; empty range when there is none.
DayRange covered(const DailyWeather& weather);

}  // namespace soilclock::weather
