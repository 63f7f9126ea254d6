// SPDX-License-Identifier: MIT
// A listening socket on this machine's loopback, on a port the system chooses.
#pragma once

#include <arpa/inet.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

#include <stdexcept>
#include <string>

namespace soilclock::tests {

class LoopbackPort {
 public:
  LoopbackPort() : listener_{socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)} {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    socklen_t size = sizeof address;
    auto* any = reinterpret_cast<sockaddr*>(&address);
    if (listener_ < 0 || bind(listener_, any, size) != 0 || listen(listener_, 64) != 0 ||
        getsockname(listener_, any, &size) != 0)
      throw std::runtime_error("no port on the loopback");
    number_ = ntohs(address.sin_port);
  }
  LoopbackPort(const LoopbackPort&) = delete;
  LoopbackPort& operator=(const LoopbackPort&) = delete;
  ~LoopbackPort() { close(listener_); }

  int socket_of() const { return listener_; }
  int number() const { return number_; }
  /// "http://127.0.0.1:PORT".
  std::string url() const { return "http://127.0.0.1:" + std::to_string(number_); }
  /// The next guest, or below 0.
  int accept_one() const { return accept4(listener_, nullptr, nullptr, SOCK_CLOEXEC); }
  /// Wakes whoever waits for a guest.
  void wake() const { shutdown(listener_, SHUT_RDWR); }

 private:
  int listener_;
  int number_ = 0;
};

}  // namespace soilclock::tests
