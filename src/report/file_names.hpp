// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

namespace soilclock::report {

/// A name for a file or a part of an identifier: small ASCII letters, digits and single dashes, at most 48
/// characters, never empty, a folder, hidden or reserved by an operating system. Words that had to be changed
/// end in eight hexadecimal digits of their own, so that two of them keep two names.
std::string safe_file_name(std::string_view word);

}  // namespace soilclock::report
