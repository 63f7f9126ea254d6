// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "advice/site/seen_stage.hpp"
#include "core/depth.hpp"
#include "core/fraction.hpp"
#include "core/temperature.hpp"
#include "treatment/actives.hpp"
#include "treatment/expected_control.hpp"
#include "treatment/observed_control.hpp"
#include "treatment/turf_state.hpp"

namespace soilclock::advice {

/// A soil temperature somebody read off a probe.
struct LoggedReading {
  Day day{};
  std::optional<int> minute_of_day;  ///< on the site's clock; empty: not noted
  int minutes_ahead = 0;             ///< of that clock before standard time; 60 in summer time
  Depth depth = Depth::from_cm(5.0);
  Temperature temperature;
};

/// An application somebody noted.
struct SiteApplication {
  Day day{};
  treatment::Kind kind = treatment::Kind::pre;
  std::vector<treatment::PlanEntry>
      entries;                 ///< its actives and bare groups; may be empty where nobody noted them
  double share_of_dose = 1.0;  ///< one half for each part of a split application
  /// Days until it was watered in, where that was noted; else rain decides when it became active.
  std::optional<int> watered_in_after_days;
};

/// Plants of a target counted in plots, or the share of the ground they cover judged by eye.
struct LoggedCount {
  Day day{};
  std::string target;                    ///< EPPO code
  std::string area;                      ///< in the user's words; each area has a total of its own
  bool fresh = false;                    ///< new plants only; else all that stand
  std::vector<int> counts;               ///< by plot; an empty plot is 0
  std::optional<double> plot_area_m2;    ///< of one plot; empty: not noted
  std::optional<Fraction> ground_share;  ///< judged by eye
  std::optional<SeenStage> stage;        ///< most of the plants were in
};

/// The day somebody first saw seedlings of a target in a season.
struct LoggedFirstSeen {
  Day day{};
  std::string target;  ///< EPPO code
};

/// Treated turf held against an untreated strip.
struct LoggedStrip {
  Day day{};
  std::string target;  ///< EPPO code
  std::string area;    ///< in the user's words
  treatment::ObservedControl observed;
};

/// What the user noted about a site, as plain values; entries dated on or after the day of the answer are not
/// used, but for a probe reading of that day whose hour is known.
struct SiteLog {
  std::vector<SiteApplication> applications;
  std::optional<treatment::EyeCheck> seen;  ///< the latest look at the turf
  std::vector<LoggedReading> readings;
  std::vector<LoggedCount> counts;
  std::vector<LoggedFirstSeen> first_seen;
  std::vector<LoggedStrip> strips;
};

}  // namespace soilclock::advice
