// SPDX-License-Identifier: MIT
// A depth of soil is not a depth of water.
#include "core/depth.hpp"
#include "core/rain.hpp"
using namespace soilclock;
#ifdef MUST_FAIL
Rain rain() { return Depth::from_cm(2.0); }
#else
Rain rain() { return Rain::from_mm(20.0); }
#endif
