// SPDX-License-Identifier: MIT
// The style sheet of all pages, compiled into the program (src/report/page/course.css).
#pragma once

#include <string_view>

namespace soilclock::report {

std::string_view style_sheet();

/// "sha256-...": how a content security policy names exactly these bytes.
std::string_view style_sheet_hash();

}  // namespace soilclock::report
