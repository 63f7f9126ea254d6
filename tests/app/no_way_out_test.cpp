// SPDX-License-Identifier: MIT
// Nothing of the command line's tests may leave this machine.
#include "support/no_way_out.hpp"
