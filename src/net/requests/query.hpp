// SPDX-License-Identifier: MIT
// The text of a query: names and values of parameters, percent-encoded.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace soilclock::net {

using Parameters = std::vector<std::pair<std::string, std::string>>;

/// "name=value&name=value". Values are percent-encoded (RFC 3986); the comma of lists stays, as the services
/// write it. Good for an address as well as for a form.
std::string query_text(const Parameters& parameters);

/// Degrees with at most so many decimals and no zeros at the end: the US service redirects other spellings.
/// Never "-0".
std::string degrees_text(double degrees, int decimals);

}  // namespace soilclock::net
