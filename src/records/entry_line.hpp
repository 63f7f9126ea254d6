// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "records/store.hpp"

namespace soilclock::records {

/// "12  2026-10-14  copper-heron  application  group 3; active prodiamine; purpose pre+post": every noted
/// field with its name, in the unit it was noted in; line ends in notes shown as blanks. Celsius also in
/// Fahrenheit.
std::string one_line(const Entry& entry);

}  // namespace soilclock::records
