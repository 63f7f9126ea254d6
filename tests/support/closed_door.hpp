// SPDX-License-Identifier: MIT
// A door on the loopback that turns everybody away and counts them, and the way to lead a program's requests
// to it.
#pragma once

#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <atomic>
#include <cstdlib>
#include <optional>
#include <stdexcept>
#include <string>
#include <thread>

namespace soilclock::tests {

/// Accepts connections on the loopback, closes them at once and counts them.
class ClosedDoor {
 public:
  ClosedDoor() {
    listener_ = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    socklen_t size = sizeof address;
    auto* any = reinterpret_cast<sockaddr*>(&address);
    if (listener_ < 0 || bind(listener_, any, size) != 0 || listen(listener_, 16) != 0 ||
        getsockname(listener_, any, &size) != 0)
      throw std::runtime_error("no closed door on the loopback");
    port_ = ntohs(address.sin_port);
    keeper_ = std::thread{[this] { turn_away(); }};
  }
  ClosedDoor(const ClosedDoor&) = delete;
  ClosedDoor& operator=(const ClosedDoor&) = delete;
  ~ClosedDoor() {
    stop_ = true;
    shutdown(listener_, SHUT_RDWR);
    keeper_.join();
    close(listener_);
  }

  std::string url() const { return "http://127.0.0.1:" + std::to_string(port_); }

  /// Knocks so far; those still in the queue are counted, too.
  int knocks() const {
    pollfd queue{listener_, POLLIN, 0};
    while (poll(&queue, 1, 0) > 0) std::this_thread::yield();
    return knocks_;
  }

 private:
  void turn_away() {
    while (!stop_) {
      pollfd queue{listener_, POLLIN, 0};
      if (poll(&queue, 1, -1) <= 0 || stop_) continue;
      ++knocks_;  // before it leaves the queue, so that no knock is missed
      const int connection = accept4(listener_, nullptr, nullptr, SOCK_CLOEXEC);
      if (connection >= 0) close(connection);
    }
  }

  int listener_ = -1;
  int port_ = 0;
  std::atomic<bool> stop_{false};
  std::atomic<int> knocks_{0};
  std::thread keeper_;
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
