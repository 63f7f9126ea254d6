// SPDX-License-Identifier: MIT
// Keeps a user's key out of what people read: services repeat what they were sent.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/problem.hpp"

namespace soilclock::net {

struct Service;

/// The text with *** wherever the value of one of the headers stands in it: as it is, in other case (names of
/// hosts are lowered), or with characters escaped as JSON, addresses, forms or HTML do. Texts are cut, so the
/// first eight characters of a value are taken for it. Values are plain ASCII; empty ones hide nothing.
std::string redact(std::string text, const std::vector<std::pair<std::string, std::string>>& secret_headers);

/// The problem with the above done to each of its texts.
Problem redact(Problem problem, const std::vector<std::pair<std::string, std::string>>& secret_headers);

/// The problem without the key of a service: for what is wrong with an answer the service gave.
Problem redact(Problem problem, const Service& service);

}  // namespace soilclock::net
