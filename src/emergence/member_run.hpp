// SPDX-License-Identifier: MIT
// Runs a model of the ensemble over one possible season: from a model file's numbers to a course.
#pragma once

#include "core/place.hpp"
#include "emergence/emergence_curve.hpp"
#include "emergence/emergence_model.hpp"
#include "emergence/season_drivers.hpp"

namespace soilclock::emergence {

/// A model with one set of drawn values.
struct DrawnModel {
  const EmergenceModel* model = nullptr;
  ParameterValues values;
};

/// The course of a season under a drawn model. `followed` is the model it builds on (onset-lag and
/// offset-rule), itself drawn; null for other forms. Forms without a curve (onset-threshold, base-only) give
/// a course of zeros.
EmergenceCurve run_member(const DrawnModel& drawn, const DrawnModel* followed, const SeasonDrivers& drivers,
                          const Place& place);

/// The running sum a model's scale asks for over the season days: warmth or, for a cooling curve, coolness.
std::vector<DegreeDays> model_sum(const EmergenceModel& model, const SeasonDrivers& drivers);

/// The season day on which a month-day falls.
int season_day(const MonthDay& date, const Season& season);

}  // namespace soilclock::emergence
