// SPDX-License-Identifier: MIT
// A bare number is no thermal sum.
#include "core/degree_days.hpp"
using namespace soilclock;
#ifdef MUST_FAIL
DegreeDays sum(DegreeDays a, double b) { return a + b; }
#else
DegreeDays sum(DegreeDays a, double b) { return a + DegreeDays::from_celsius_days(b); }
#endif
