// SPDX-License-Identifier: MIT
#pragma once

#include <csignal>

namespace soilclock::net {

/// While it lives, writing to a connection the other side has closed is an error and not the end of the
/// program.
class IgnoredPipeSignal {
 public:
  IgnoredPipeSignal() {
    struct sigaction ignore {};
    ignore.sa_handler = SIG_IGN;
    sigaction(SIGPIPE, &ignore, &before_);
  }
  IgnoredPipeSignal(const IgnoredPipeSignal&) = delete;
  IgnoredPipeSignal& operator=(const IgnoredPipeSignal&) = delete;
  ~IgnoredPipeSignal() { sigaction(SIGPIPE, &before_, nullptr); }

 private:
  struct sigaction before_ {};
};

}  // namespace soilclock::net
