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

/// The species named in words ("hybrid bermudagrass", "zoysiagrass fairways"); nothing when it is neither of
/// the two and no known cool-season grass.
std::optional<TurfSpecies> turf_species(std::string_view words);

enum class TurfState { unknown, green, slowing, semi_dormant, likely_dormant, breaking, greening };

/// "green", "slowing", "semi-dormant", "likely dormant", "breaking", "greening", "not known".
std::string_view name(TurfState state);

/// Whether foliar treatments are advised in a state; look_first and stopped ask for a look by eye.
enum class PostGate { open, look_first, stopped };

/// models/treatment/turf_state.json; the defaults are the same numbers.
struct TurfRules {
  Temperature green_soil = Temperature::from_fahrenheit(65.0);
  Temperature slowing_soil = Temperature::from_fahrenheit(55.0);
  Temperature dormant_soil = Temperature::from_fahrenheit(52.0);
  Temperature frost = Temperature::from_fahrenheit(32.0);
  Temperature hard_frost = Temperature::from_fahrenheit(28.0);
  int hard_nights = 2;
  Temperature breaking_soil = Temperature::from_fahrenheit(55.0);
  Temperature breaking_air = Temperature::from_fahrenheit(55.0);
  Temperature greening_soil = Temperature::from_fahrenheit(60.0);
  int run_days = 5;
  Temperature heat_base = Temperature::from_celsius(5.0);
  DegreeDays zoysia_heat = DegreeDays::from_celsius_days(200.0);
  int look_valid_days = 14;
};

/// Reads models/treatment/turf_state.json; a request problem names the place of what is wrong.
Result<TurfRules> read_turf_rules(std::string_view json, const std::string& file);

/// Daily temperatures of the site; days before the cold season began need not be there.
struct TurfWeather {
  DailySeries<Temperature> soil;  ///< daily mean near the surface, 5 or 10 cm
  DailySeries<Temperature> air_min;
  DailySeries<Temperature> air_max;
};

/// What somebody saw by parting the canopy.
struct EyeCheck {
  Day day{};
  bool fully_dormant = false;  ///< no green leaf, stolon or node
};

struct TurfReading {
  TurfState state = TurfState::unknown;
  PostGate post = PostGate::look_first;
  bool seen_dormant =
      false;  ///< an eye check of the last two weeks says so, and nothing since speaks against it
  std::optional<Temperature> soil_week;  ///< mean of the last seven days
  int hard_nights = 0;                   ///< this cold season
  std::optional<DegreeDays> heat_units;  ///< zoysiagrass: above 5 C since 1 January (north), 1 July (south)
  std::string ask;                       ///< what to look for by eye; empty only in full growth
  std::vector<Remark> remarks;
};

/// The state on the morning of a day: days from `today` on are not used. States follow each other: what has
/// broken dormancy stays broken until two more hard nights. Five of the last seven soil days must be known,
/// else the state is unknown. The southern year is mirrored. Cool-season turf is always green. Source of the
/// limits: common practice and judgement, models/treatment/turf_state.json.
TurfReading read_turf(const TurfWeather& weather, Day today, TurfSpecies species, Hemisphere hemisphere,
                      const std::optional<EyeCheck>& seen, const TurfRules& rules = {});

}  // namespace soilclock::treatment
