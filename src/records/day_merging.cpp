// SPDX-License-Identifier: MIT
#include "records/day_merging.hpp"

#include <algorithm>

namespace soilclock::records {

namespace {

/// Whether a value was taken.
template <class Value>
bool take(std::optional<Value>& stored, const std::optional<Value>& given, bool older, MergedDay& result) {
  if (older && stored) return false;
  if (!given) {
    result.spared = result.spared || stored.has_value();
    return false;
  }
  // Kept numbers come back as they were written, so any difference is one of the service's.
  result.changed = result.changed || (stored && !(*stored == *given));
  stored = given;
  return true;
}

bool upside_down(const StoredDay& day) { return day.minimum && day.maximum && *day.minimum > *day.maximum; }

}  // namespace

MergedDay merged(const std::optional<StoredDay>& before, const GivenDay& given, Instant at) {
  MergedDay result;
  const StoredDay empty{given.day, {}, {}, {}, at, at};
  const StoredDay& was = before ? *before : empty;
  const bool older = before && (was.minimum || was.maximum || was.rain) && at < was.known_since;
  result.day = was;
  const bool minimum = take(result.day.minimum, given.minimum, older, result);
  const bool maximum = take(result.day.maximum, given.maximum, older, result);
  if (minimum != maximum && upside_down(result.day)) {
    result = {};
    result.day = was;
    result.spared = true;
  }
  take(result.day.rain, given.rain, older, result);
  result.day.asked = std::max(was.asked, at);
  const bool knew_temperatures = was.minimum || was.maximum;
  const bool whole = minimum && maximum;
  result.renewed = whole || (!knew_temperatures && (minimum || maximum || !older));
  if (result.renewed) result.day.known_since = at;
  return result;
}

}  // namespace soilclock::records
