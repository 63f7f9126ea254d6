// SPDX-License-Identifier: MIT
// Whether 42 is a share or a percentage must be said.
#include "core/fraction.hpp"
using namespace soilclock;
#ifdef MUST_FAIL
Fraction share() { return 42.0; }
#else
Fraction share() { return Fraction::from_percent(42.0); }
#endif
