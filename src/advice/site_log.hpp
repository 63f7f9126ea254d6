// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "core/depth.hpp"
#include "core/temperature.hpp"
#include "treatment/logged.hpp"
#include "treatment/turf_state.hpp"

namespace soilclock::advice {

/// A soil temperature somebody read off a probe.
struct LoggedReading {
  Day day{};
  std::optional<double> hour;  ///< local standard time; empty: taken as the day's mean
  Depth depth = Depth::from_cm(5.0);
  Temperature temperature;
};

/// An application somebody noted.
struct SiteApplication {
  treatment::LoggedApplication application;
  std::vector<treatment::PlanEntry> entries;  ///< its actives and bare groups
  bool watered_in = false;  ///< noted as watered in; else rain decides when it became active
};

/// What the user noted about a site, as plain values; entries dated on or after the day of the answer are not
/// used.
struct SiteLog {
  std::vector<SiteApplication> applications;
  std::optional<treatment::EyeCheck> seen;  ///< the latest look at the turf
  std::vector<LoggedReading> readings;
};

}  // namespace soilclock::advice
