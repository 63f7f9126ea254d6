// SPDX-License-Identifier: MIT
#pragma once

#include <span>

#include "thermal/accumulation.hpp"
#include "weather/daily_weather.hpp"

namespace soilclock::thermal {

/// Degree-days of each day of a range from sub-daily readings in order of time (Method::hourly). A day
/// without any temperature is missing and counted. Readings the rule cannot sum are the problem
/// degree_days_of_readings names.
Result<Accumulation> accumulate_readings(std::span<const weather::HourlyObservation> readings,
                                         const DegreeDayRule& rule, DayRange days);

}  // namespace soilclock::thermal
