// SPDX-License-Identifier: MIT
// The one place where text becomes part of a page or picture.
#pragma once

#include <string>
#include <string_view>

namespace soilclock::report {

/// Text as it may stand between tags and between double quotes of an attribute: & < > " are written as
/// references, control characters and broken UTF-8 as '?'.
std::string escaped(std::string_view text);

}  // namespace soilclock::report
