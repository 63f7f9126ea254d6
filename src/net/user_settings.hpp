// SPDX-License-Identifier: MIT
// What users add to the services the program ships: a contact, keys, other hosts.
#pragma once

#include <string>
#include <string_view>

#include "core/problem.hpp"
#include "net/requests/services.hpp"

namespace soilclock::net {

/// The built-in text and, laid over it, the user's (empty: none): {"contact": ..., "ca_file": ...,
/// "services": {ID: {"key": ..., "hosts": {NAME: URL}, "provisional_days": 0 to 365}}}. Hosts must be https,
/// or http on the loopback of this machine; a key is only taken together with all hosts of its service, since
/// services keep others for those who pay and no free one is shown a key. Problems (request): unknown keys,
/// services or hosts, wrong types, other schemes, control characters; a key is never repeated in a problem. A
/// mistake in the built-in text is a fault.
Result<Services> read_services(std::string_view built_in, std::string_view users,
                               const std::string& users_file);

}  // namespace soilclock::net
