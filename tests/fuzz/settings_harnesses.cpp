// SPDX-License-Identifier: MIT
// The user's settings of services.
#include <fstream>
#include <iterator>
#include <string>

#include "core/text.hpp"
#include "fuzz/harnesses.hpp"
#include "net/user_settings.hpp"

namespace soilclock::fuzz {

namespace {

std::string shipped_services() {
  std::ifstream in{SOILCLOCK_SOURCE_DIR "/config/services.json"};
  return {std::istreambuf_iterator<char>{in}, {}};
}

}  // namespace

void settings(std::string_view bytes) {
  static const std::string shipped = shipped_services();
  const auto services = net::read_services(shipped, bytes, "services.json");
  if (!services) {
    demand_good(services.error());
    demand(services.error().found.empty(), "a problem quotes nothing of a file that may hold a key");
    return;
  }
  for (const auto& [id, service] : services->all) {
    for (const auto& [part, host] : service.hosts)
      demand(lowered(host).starts_with("https://") || lowered(host).starts_with("http://"),
             "hosts are addresses");
  }
}

}  // namespace soilclock::fuzz
