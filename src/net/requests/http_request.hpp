// SPDX-License-Identifier: MIT
// One request, ready to be sent by whoever can.
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace soilclock::net {

enum class BodyKind { json, text };

struct HttpRequest {
  std::string url;
  std::string form;  ///< sent as a POST form when not empty
  std::vector<std::pair<std::string, std::string>> headers;
  /// Sent to the host of `url` only (as the contact is), never to one a redirect leads to, and never shown:
  /// "X-Api-Key: ...".
  std::vector<std::pair<std::string, std::string>> secret_headers;
  BodyKind expects = BodyKind::json;
};

}  // namespace soilclock::net
