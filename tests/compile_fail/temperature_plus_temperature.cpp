// SPDX-License-Identifier: MIT
// Two points on a scale have no sum; a point and a difference have.
#include "core/temperature.hpp"
using namespace soilclock;
#ifdef MUST_FAIL
Temperature sum(Temperature a, Temperature b) { return a + b; }
#else
Temperature sum(Temperature a, TemperatureDelta b) { return a + b; }
#endif
