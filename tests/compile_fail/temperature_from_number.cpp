// SPDX-License-Identifier: MIT
// The scale of a temperature must be said.
#include "core/temperature.hpp"
using namespace soilclock;
#ifdef MUST_FAIL
Temperature base() { return 50.0; }
#else
Temperature base() { return Temperature::from_fahrenheit(50.0); }
#endif
