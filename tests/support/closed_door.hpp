// SPDX-License-Identifier: MIT
// A door on the loopback that turns everybody away and counts them, and the way to lead a program's requests
// to it.
#pragma once

#include <poll.h>
#include <unistd.h>

#include <atomic>
#include <cstdlib>
#include <optional>
#include <string>
#include <thread>

#include "support/loopback_port.hpp"

namespace soilclock::tests {

/// Accepts connections on the loopback, closes them at once and counts them.
class ClosedDoor {
 public:
  ClosedDoor() : keeper_{[this] { turn_away(); }} {}
  ClosedDoor(const ClosedDoor&) = delete;
  ClosedDoor& operator=(const ClosedDoor&) = delete;
  ~ClosedDoor() {
    stop_ = true;
    port_.wake();
    keeper_.join();
  }

  std::string url() const { return port_.url(); }

  /// Knocks so far; those still in the queue are counted, too.
  int knocks() const {
    pollfd queue{port_.socket_of(), POLLIN, 0};
    while (poll(&queue, 1, 0) > 0) std::this_thread::yield();
    return knocks_;
  }

 private:
  void turn_away() {
    while (!stop_) {
      pollfd queue{port_.socket_of(), POLLIN, 0};
      if (poll(&queue, 1, -1) <= 0 || stop_) continue;
      ++knocks_;  // before it leaves the queue, so that no knock is missed
      const int connection = port_.accept_one();
      if (connection >= 0) close(connection);
    }
  }

  LoopbackPort port_;
  std::atomic<bool> stop_{false};
  std::atomic<int> knocks_{0};
  std::thread keeper_;  // last: it uses the others
};

/// Sends everything but the loopback to `door` from here on.
inline void lead_to(const ClosedDoor& door) {
  for (const char* name :
       {"http_proxy", "https_proxy", "all_proxy", "HTTP_PROXY", "HTTPS_PROXY", "ALL_PROXY"})
    setenv(name, door.url().c_str(), 1);
  for (const char* name : {"no_proxy", "NO_PROXY"}) setenv(name, "127.0.0.1,localhost,::1", 1);
}

/// The door of this program, while its tests run.
inline std::optional<ClosedDoor>& door_of_program() {
  static std::optional<ClosedDoor> door;
  return door;
}

}  // namespace soilclock::tests
