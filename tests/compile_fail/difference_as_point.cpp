// SPDX-License-Identifier: MIT
// A difference of temperatures is not a temperature.
#include "core/temperature.hpp"
using namespace soilclock;
#ifdef MUST_FAIL
Temperature warming(Temperature a, Temperature b) { return a - b; }
#else
TemperatureDelta warming(Temperature a, Temperature b) { return a - b; }
#endif
