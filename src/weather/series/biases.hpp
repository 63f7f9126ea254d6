// SPDX-License-Identifier: MIT
// How far one source of weather lies from another at the same place. Stations, analyses and forecasts differ
// by one to three degrees; gluing them without a word would move dates.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/temperature.hpp"
#include "weather/series/joining.hpp"

namespace soilclock::weather {

/// Fewest common days that say something about a difference (common practice: a month).
inline constexpr int fewest_common_days = 30;
/// Only the latest common days count: instruments and models change, and a whole year of seasons suffices.
inline constexpr int most_common_days = 365;

/// Mean difference of a source from the weather named before it, over their latest common days.
struct Bias {
  std::string name;  ///< of the source
  int common_days = 0;
  TemperatureDelta minimum;  ///< source minus the ones before it; zero with fewer than fewest_common_days
  TemperatureDelta maximum;
  bool asked = false;  ///< the part wanted it taken away
  bool removed = false;
};

/// Compares each source of a service, and each part that asks for it, with those before it and takes its bias
/// away where the part asks for it (remove_bias), before the next is compared: corrections chain. Parts of
/// one name are one source: what is found on its past days is taken from its forecast days too.
/// The reference is of one level, never a mixture: the user's own files with every source that was moved to
/// them are one; a source left as it is, with those moved to it, is another. Earlier parts of the same
/// service count first, so that its history and its forecast are moved alike; then the first level named that
/// shares fewest_common_days; where none does, nothing is taken away. A day's reference is the first part of
/// the level that knows it. Sources without any common day are left out of the result, unless their bias was
/// to be taken away. A day narrower than its two extremes are moved toward each other keeps its range, and
/// its mean is moved. Days from `before` on are not compared: nobody knows them on that morning.
std::vector<Bias> compare_sources(std::vector<WeatherPart>& parts, Day before);

/// Differences below this are within what two good thermometers differ by, and not worth a word (judgment).
inline constexpr double worth_saying_k = 0.3;

/// One sentence: "Over 200 common days Open-Meteo history is 0.8 C warmer in the minimum and ...". Nothing
/// when both differences are small, or when the days are too few and nobody asked for the bias to be removed.
std::optional<Remark> remark_of(const Bias& bias, bool us_units);

}  // namespace soilclock::weather
