// SPDX-License-Identifier: MIT
#include "net/retry_policy.hpp"

#include <algorithm>

namespace soilclock::net {

using std::chrono::milliseconds;

namespace {

constexpr int pause_growth = 4;

}  // namespace

milliseconds RetryPolicy::attempt_limit() const {
  // No less than what the network library takes for a limit: nothing would be none.
  return std::clamp(settings_.total_limit - spent_, milliseconds{1}, settings_.attempt_limit);
}

std::optional<milliseconds> RetryPolicy::pause_after(const Transfer& failed, milliseconds taken) {
  ++attempts_;
  spent_ += taken;
  if (!may_pass(failed) || attempts_ >= settings_.attempts) return std::nullopt;
  milliseconds pause = std::min(next_pause_, settings_.longest_pause);
  if (const auto wanted = wanted_pause(failed)) {
    if (*wanted > settings_.longest_pause) return std::nullopt;
    pause = std::max<milliseconds>(pause, *wanted);
  }
  used_up_ = spent_ + pause >= settings_.total_limit;
  if (used_up_) return std::nullopt;
  spent_ += pause;
  next_pause_ = std::min(next_pause_ * pause_growth, settings_.longest_pause);
  return pause;
}

}  // namespace soilclock::net
