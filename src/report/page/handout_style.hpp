// SPDX-License-Identifier: MIT
// What teaching sheets add to the style sheet, compiled into the program (src/report/page/handout.css).
#pragma once

#include <string_view>

namespace soilclock::report {

std::string_view handout_style();

/// "sha256-...": how a content security policy names exactly these bytes.
std::string_view handout_style_hash();

}  // namespace soilclock::report
