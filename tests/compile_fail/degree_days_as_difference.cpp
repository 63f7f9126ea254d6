// SPDX-License-Identifier: MIT
// A sum over days is not a difference of temperatures.
#include "core/degree_days.hpp"
using namespace soilclock;
#ifdef MUST_FAIL
DegreeDays sum(DegreeDays a, TemperatureDelta b) { return a + b; }
#else
DegreeDays sum(DegreeDays a, DegreeDays b) { return a + b; }
#endif
