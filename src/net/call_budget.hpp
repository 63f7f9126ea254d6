// SPDX-License-Identifier: MIT
// Keeps the calls to a service within what it allows in a minute, an hour and a day, and apart.
#pragma once

#include <chrono>
#include <optional>
#include <vector>

#include "core/time_zone.hpp"
#include "net/requests/services.hpp"

namespace soilclock::net {

struct PastCall {
  Instant at{};
  double weight = 0.0;
};

/// What must be waited for before a call may be sent.
struct Waiting {
  std::chrono::seconds pause{0};  ///< zero: send now
  bool tomorrow = false;          ///< the day's calls are used up; `pause` lasts to the next UTC midnight
  bool used_up = false;           ///< a counter is full; otherwise `pause` only keeps calls apart
};

class CallBudget {
 public:
  CallBudget(CallLimits limits, std::vector<PastCall> past) : limits_{limits}, past_{std::move(past)} {}
  /// Counters fall to zero at each full UTC minute, hour and day, as the service keeps them. A call heavier
  /// than a limit waits until the counter is zero, and is then let through. Calls also keep the least pause,
  /// by whole seconds of the clock: a pause of one second lets one call through in each of them.
  Waiting before(double weight, Instant now) const;
  void sent(double weight, Instant at) { past_.push_back({at, weight}); }
  /// Weight counted since the last UTC midnight.
  double used_today(Instant now) const;

 private:
  CallLimits limits_;
  std::vector<PastCall> past_;
};

}  // namespace soilclock::net
