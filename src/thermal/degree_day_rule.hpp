// SPDX-License-Identifier: MIT
// The named ways to turn one day's temperatures into degree-days, and which of them go together.
#pragma once

#include <optional>
#include <string_view>

#include "core/degree_days.hpp"
#include "core/problem.hpp"

namespace soilclock::thermal {

/// How a day's course of temperature is reconstructed. A threshold taken from a paper must be run with that
/// paper's method: on one real spring the average and the clamped method differ by a third (316 against 427 C
/// d).
enum class Method {
  average,          ///< mean of the extremes, then minus the lower threshold and floored at zero
  clamped,          ///< each extreme clamped to the thresholds first, then averaged
  triangle,         ///< straight lines between the extremes (Sevacherian et al. 1977)
  sine,             ///< one sine wave a day (Baskerville & Emin 1969, Ecology 50:514-517)
  double_triangle,  ///< two half days, the second one falls to the next day's minimum
  double_sine,      ///< the same with sine waves (Allen 1976, Environ. Entomol. 5:388-396)
  hourly,           ///< readings within the day
  four_case         ///< four-case rule of European weather services, no arcsine needed
};

/// What happens above the upper threshold (Zalom et al. 1983, UC leaflet 21373, from memory; Snyder 1985,
/// Agric. For. Meteorol. 35:353-358; Roltsch et al. 1999, Int. J. Biometeorol. 42:169-176).
enum class Cutoff {
  none,          ///< the upper threshold is not used
  horizontal,    ///< the rate stays at upper - lower
  intermediate,  ///< the rate falls as fast as it rose
  vertical       ///< no development above the upper threshold
};

/// The word of an option or a model file: "double-sine", "four-case", "horizontal", ...
std::string_view name(Method method);
std::string_view name(Cutoff cutoff);
/// The other way round; an unknown word is a request problem that lists the words and names the nearest.
Result<Method> parse_method(std::string_view word);
Result<Cutoff> parse_cutoff(std::string_view word);

/// Everything that decides a day's value.
struct DegreeDayRule {
  Method method = Method::sine;
  Temperature lower;
  std::optional<Temperature> upper;
  Cutoff cutoff = Cutoff::none;
  /// Intermediate cutoff only: the rate is not allowed below zero, which it would be above 2 upper - lower.
  bool floor_at_zero = true;
};

/// The rule itself when its parts go together, a request problem otherwise:
/// - a lower threshold is always needed; an upper one must lie above it; a cutoff other than none needs an
/// upper one;
/// - average takes none or horizontal (which caps the mean, a third thing beside average and clamped);
/// - clamped takes none or horizontal: it clamps at the upper threshold whenever there is one, that is its
/// cutoff;
/// - four-case takes none only.
Result<DegreeDayRule> checked(const DegreeDayRule& rule);

}  // namespace soilclock::thermal
