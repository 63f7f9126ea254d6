// SPDX-License-Identifier: MIT
#include "net/call_budget.hpp"

#include <algorithm>

namespace soilclock::net {

namespace {

using std::chrono::seconds;

constexpr seconds day_length{86'400};

/// The last full UTC minute, hour or midnight. UTC as counted here has no leap seconds.
Instant counter_start(Instant now, seconds period) { return now - now.time_since_epoch() % period; }

/// A call stamped later than now (the clock was set back) counts, too: the service has seen it.
double used_since(const std::vector<PastCall>& past, Instant start) {
  double used = 0.0;
  for (const PastCall& call : past) used += call.at >= start ? call.weight : 0.0;
  return used;
}

/// What is left of the least pause after the latest call. One stamped later than now (the clock was set back)
/// says nothing of how long ago it was.
seconds pause_after(const std::vector<PastCall>& past, seconds least, Instant now) {
  seconds left{0};
  for (const PastCall& call : past) {
    if (call.at <= now) left = std::max(left, call.at + least - now);
  }
  return left;
}

}  // namespace

Waiting CallBudget::before(double weight, Instant now) const {
  Waiting waiting;
  waiting.pause = pause_after(past_, limits_.least_pause, now);
  const auto look = [&](const std::optional<double>& limit, seconds period) {
    if (!limit) return;
    const Instant start = counter_start(now, period);
    const double used = used_since(past_, start);
    if (used == 0.0 || used + weight <= *limit) return;
    waiting.pause = std::max(waiting.pause, start + period - now);
    waiting.used_up = true;
    waiting.tomorrow = waiting.tomorrow || period == day_length;
  };
  look(limits_.a_minute, seconds{60});
  look(limits_.an_hour, seconds{3600});
  look(limits_.a_day, day_length);
  return waiting;
}

double CallBudget::used_today(Instant now) const { return used_since(past_, counter_start(now, day_length)); }

}  // namespace soilclock::net
