// SPDX-License-Identifier: MIT
// How a day of an answer meets the day that is stored. Pure.
#pragma once

#include <optional>

#include "core/dates.hpp"
#include "core/rain.hpp"
#include "core/temperature.hpp"
#include "core/time_zone.hpp"

namespace soilclock::records {

/// A day as it is stored. Without values it was asked for in vain.
struct StoredDay {
  Day day{};
  std::optional<Temperature> minimum;
  std::optional<Temperature> maximum;
  std::optional<Rain> rain;
  Instant known_since{};  ///< when the answer its temperatures come from was given; the last attempt without
                          ///< any value
  Instant asked{};        ///< when it was last asked for
};

/// What an answer says of a day.
struct GivenDay {
  Day day{};
  std::optional<Temperature> minimum;
  std::optional<Temperature> maximum;
  std::optional<Rain> rain;
};

struct MergedDay {
  StoredDay day;
  bool renewed = false;  ///< `known_since` is now this answer's
  bool changed = false;  ///< a known value has another one now
  bool spared = false;   ///< a known value would have been replaced by nothing, or by half of another day
};

/// The day after an answer given at `at`. An unknown value leaves a known one in its place; an answer given
/// before what is stored only fills what is unknown; a minimum never ends above the maximum of another
/// answer.
MergedDay merged(const std::optional<StoredDay>& before, const GivenDay& given, Instant at);

}  // namespace soilclock::records
