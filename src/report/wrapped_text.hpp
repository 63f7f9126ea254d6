// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

namespace soilclock::report {

/// The text broken at blanks into lines of at most 100 characters, each indented; lines after the first hang
/// two more blanks to the right. Ends with a line feed.
std::string wrapped(std::string_view text, std::size_t indent);

}  // namespace soilclock::report
