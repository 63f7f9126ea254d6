// SPDX-License-Identifier: MIT
// The open services as the program ships them with what the user adds: a contact, keys, other hosts.
#pragma once

#include <optional>
#include <string>

#include "net/requests/services.hpp"
#include "site/site_file.hpp"

namespace soilclock::app {

/// The built-in services under the user's file: the one named, else services.json in folder soilclock of
/// $XDG_CONFIG_HOME, else of ~/.config (XDG Base Directory Specification 0.8), where it is there. Problems
/// (request): a named file that is not there, or see net::read_services.
Result<net::Services> load_services(const std::string& named);

/// A warning for a user whose settings file holds a service's key and can be read by others on the machine;
/// nothing when all is well.
std::optional<std::string> key_seen_by_others(const net::Services& services, const std::string& named);

/// A problem with one site among many, named.
Problem of_site(const Site& site, Problem problem);

/// The service a site names. Problem (request): unknown, with the nearest name; a station where none is kept,
/// or none where one is needed.
Result<const net::Service*> find_service(const net::Services& services, const SiteService& wanted);

}  // namespace soilclock::app
