// SPDX-License-Identifier: MIT
// The script of the portfolio page, compiled into the program (src/report/page/course_list.js).
#pragma once

#include <string_view>

namespace soilclock::report {

std::string_view course_list_script();

/// "sha256-...": how a content security policy names exactly these bytes.
std::string_view course_list_script_hash();

}  // namespace soilclock::report
