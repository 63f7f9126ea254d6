// SPDX-License-Identifier: MIT
// A grass the program answers for: its names, its season, and the ensemble of models behind its percent.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "emergence/emergence_model.hpp"

namespace soilclock::emergence {

/// How much a member counts at a site, before weights are scaled to a sum of 1.
struct WeightRule {
  enum class Kind {
    fixed,      ///< `share`
    rest,       ///< an even part of what the others leave
    warm_july,  ///< `share` where July is warm and the units come late, less where one of them is in between
    near_date   ///< share * max(0, 1 - |usual crossing - date| / half_width)
  };
  Kind kind = Kind::fixed;
  double share = 0.0;            ///< 0..1
  Temperature july_none;         ///< warm_july: normal mean air of July (January south) up to which it is 0
  Temperature july_full;         ///< and from which it is whole
  double units = 0.0;            ///< warm_july: cooling degree-days that must not come ...
  MonthDay units_none;           ///< ... by this date
  MonthDay units_full;           ///< and count whole from this one on
  MonthDay center;               ///< near_date
  double half_width_days = 0.0;  ///< near_date
};

struct EnsembleMember {
  std::string model;  ///< id of an emergence model
  WeightRule weight;
};

/// When no single window can be named (annual bluegrass): summers that never warm the soil, or winters that
/// hardly cool it.
struct SingleWindowRule {
  Temperature crossing;       ///< the temperature whose crossing is shown
  int crossing_run_days = 0;  ///< first day of the first run of so many days at or below it ...
  int crossing_from_day = 0;  ///< ... after this season day
  Temperature warmest_none;   ///< warmest 30-day soil mean at or below which no window can be named
  Temperature warmest_full;   ///< and from which one can; between, the weight rises evenly
  TemperatureDelta
      trusted_soil_error;  ///< standard deviation up to which estimated soil is taken at its word
  TemperatureDelta distrusted_soil_error;  ///< and from which it is taken low by all of its error
  int warmest_span_days = 0;
  int warmest_until_day = 0;   ///< season days 0 to this one
  Temperature seedlings_from;  ///< soil too cold for seedlings below this
  int least_cool_days =
      0;  ///< fewer days with a 7-day mean at or below the crossing: spread over the cool season
};

struct Target : FileHead, FileGrounds {
  std::string code;                ///< EPPO code, the id of the file
  std::vector<std::string> names;  ///< plain names accepted, lower case
  SeasonKind season = SeasonKind::fall;
  std::vector<EnsembleMember> members;  ///< empty: no curve published
  std::string no_members_because;
  std::vector<std::string> cross_checks;  ///< ids of models shown beside the answer, without weight
  std::string growth;                     ///< id of a growth model
  Depth soil_depth = Depth::from_cm(5.0);
  std::optional<SingleWindowRule> single_window;
  std::optional<double>
      spread_equatorward_of_deg;  ///< latitude below which emergence is spread over most months
};

/// Strict, as read_emergence_model; the ids are checked by the catalogue.
Result<Target> read_target(std::string_view text, const std::string& file);

}  // namespace soilclock::emergence
