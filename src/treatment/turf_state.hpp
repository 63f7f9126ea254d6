// SPDX-License-Identifier: MIT
// What bermudagrass or zoysiagrass probably looks like, from temperatures alone. Never a permission: the
// answer is always a reason to go and look, and what is seen there counts.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/dates.hpp"
#include "core/degree_days.hpp"
#include "core/place.hpp"
#include "core/problem.hpp"
#include "core/rain.hpp"
#include "core/remark.hpp"
#include "core/series.hpp"
#include "core/temperature.hpp"

namespace soilclock::treatment {

enum class TurfSpecies { bermudagrass, zoysiagrass, cool_season };

/// "bermudagrass", "zoysiagrass", "cool-season".
std::string_view name(TurfSpecies species);

/// The species named in words ("hybrid bermudagrass", "zoysiagrass fairways"); nothing when it is neither of
/// the two and no known cool-season grass.
std::optional<TurfSpecies> turf_species(std::string_view words);

/// likely_dormant is only ever estimated, dormant only ever seen.
enum class TurfState { unknown, green, slowing, semi_dormant, likely_dormant, dormant, breaking, greening };

/// "green", "slowing", "semi-dormant", "likely dormant", "dormant", "breaking", "greening", "not known".
std::string_view name(TurfState state);

/// How long a state somebody saw stands before the estimate takes over again; zeros: never used.
struct LookRules {
  int valid_days = 0;
  int ended_by_hard_nights = 0;  ///< nights at or below TurfRules::hard_frost after the look
};

/// The days of the year (northern hemisphere, both ends included) in which turf goes one way, toward green.
struct TurfSpring {
  int from = 0;
  int to = 0;
};

/// models/treatment/turf_state.json; `look` comes from the practice file.
struct TurfRules {
  Temperature green_soil;
  Temperature slowing_soil;
  Temperature dormant_soil;
  int dormant_mean_days = 0;  ///< over which it is averaged
  double days_known = 0.0;    ///< share of the days of a mean that must be known, 0..1
  Temperature frost;
  Temperature hard_frost;
  int hard_nights = 0;
  Temperature breaking_soil;
  Temperature breaking_air;
  Temperature greening_soil;
  int run_days = 0;
  TurfSpring spring;
  int frost_counts_from = 0;  ///< day of the year, northern hemisphere
  Days freeze_shows{0};       ///< how long a freeze can show in the soil
  Temperature heat_base;
  DegreeDays zoysia_heat;
  LookRules look;
};

/// Reads models/treatment/turf_state.json, all but `look`; a request problem names the place of what is
/// wrong.
Result<TurfRules> read_turf_rules(std::string_view json, const std::string& file);

/// Daily temperatures of the site; days before the cold season began need not be there.
struct TurfWeather {
  DailySeries<Temperature> soil;  ///< daily mean near the surface, 5 or 10 cm
  DailySeries<Temperature> air_min;
  DailySeries<Temperature> air_max;
  bool us_units = false;  ///< of the sentences
};

/// What somebody saw by parting the canopy.
struct EyeCheck {
  Day day{};
  TurfState state = TurfState::unknown;  ///< dormant: no green leaf, stolon or node
};

struct TurfAssessment {
  TurfState state = TurfState::unknown;
  bool noted = false;                    ///< the state was seen; else it is estimated from temperatures
  std::optional<Day> since;              ///< the day of the look, or the first morning of the estimated state
  std::optional<Temperature> soil_week;  ///< mean of the last seven days
  int hard_nights = 0;                   ///< this cold season
  std::optional<DegreeDays> heat_units;  ///< zoysiagrass: above 5 C since 1 January (north), 1 July (south)
  std::string ask;                       ///< what to look for by eye; empty only in full growth
  std::vector<Remark> remarks;
};

/// Mid-January to the end of June (south: mid-July to the end of December): when warm-season turf wakes.
bool in_turf_spring(Day day, Hemisphere hemisphere, const TurfSpring& spring);

/// The state on the morning of a day: days from `today` on are not used. From mid-January to the end of June
/// the turf moves one way, from dormant over breaking and greening to green; it falls back only in the two
/// weeks after a freeze (`hard_nights` nights at or below `hard_frost` since it reached its state). Turf that
/// was still growing in mid-January, with the whole fall on record, does not green up: it stays as it is
/// until a freeze. A state that was seen stands for `look.valid_days` days, and the estimate goes on from it;
/// a freeze ends it before that time, a warm spell when it was dormancy. With too few known soil days in the
/// last week the estimate is unknown. The southern year is mirrored. Cool-season turf is always
/// green. Source of the limits: common practice and judgment, models/treatment/turf_state.json.
TurfAssessment read_turf(const TurfWeather& weather, Day today, TurfSpecies species, Hemisphere hemisphere,
                         const std::optional<EyeCheck>& seen, const TurfRules& rules);

}  // namespace soilclock::treatment
