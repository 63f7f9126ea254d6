// SPDX-License-Identifier: MIT
// How often and when a request is tried again.
#pragma once

#include <chrono>
#include <optional>

#include "net/http_client.hpp"
#include "net/requests/transfer.hpp"

namespace soilclock::net {

/// The time of one answer with all its requests, attempts and pauses. Pauses are counted as asked for, so
/// that tests need not wait.
class RetryPolicy {
 public:
  /// `spent`: by earlier requests for the same answer.
  RetryPolicy(const ClientSettings& settings, std::chrono::milliseconds spent)
      : settings_{settings}, next_pause_{settings.first_pause}, spent_{spent} {}

  /// How long the next attempt may take.
  std::chrono::milliseconds attempt_limit() const;
  /// The pause before the next attempt after one that failed and took so long. Nothing when asking again is
  /// of no use, all attempts or all time are used up, or the service wants a longer pause than we keep.
  std::optional<std::chrono::milliseconds> pause_after(const Transfer& failed,
                                                       std::chrono::milliseconds taken);
  std::chrono::milliseconds spent() const { return spent_; }
  /// Whether no pause was given because the total limit leaves no room for it.
  bool used_up() const { return used_up_; }

 private:
  const ClientSettings& settings_;
  std::chrono::milliseconds next_pause_;
  std::chrono::milliseconds spent_;
  int attempts_ = 0;
  bool used_up_ = false;
};

}  // namespace soilclock::net
