// SPDX-License-Identifier: MIT
// Two days have no sum; a day and a number of days have.
#include "core/dates.hpp"
using namespace soilclock;
#ifdef MUST_FAIL
Day later(Day a, Day b) { return a + b; }
#else
Day later(Day a, Days b) { return a + b; }
#endif
