// SPDX-License-Identifier: MIT
// The soil estimate at a site that has read its soil for long, corrected by its own readings: the usual error
// through the year, and what is left of it.
#pragma once

#include <array>
#include <optional>

#include "advice/data/hindcast_rules.hpp"
#include "core/series.hpp"
#include "core/temperature.hpp"
#include "soil/soil_model.hpp"

namespace soilclock::advice {

struct SiteSoilFit {
  std::array<double, 367> usual_error_k{};  ///< estimate minus reading by day of year, smoothed
  soil::SoilErrorModel error;               ///< of the corrected estimate
  Temperature bias_corrected(Day day, Temperature estimate) const;
};

/// Fits on the years before `before`; nothing when too few of their days have both estimate and reading. The
/// slow and fast parts of the error come from the covariances of what is left at 0 and 1 days and at the slow
/// lag, the memory of the slow part and the seasonal factor stay those of `general`, and no constant part is
/// left. Derived: the form of the general model, by moments.
std::optional<SiteSoilFit> fit_site_soil(const DailySeries<Temperature>& estimate,
                                         const DailySeries<Temperature>& readings, Day before,
                                         Hemisphere hemisphere, const soil::SoilErrorModel& general,
                                         const SiteFitRules& rules);

}  // namespace soilclock::advice
