// SPDX-License-Identifier: MIT
#pragma once

#include "report/svg/picture.hpp"
#include "report/svg/scale.hpp"

namespace soilclock::report {

/// A line with a long tick and the name of the month on each first of a month, a short tick on each Monday,
/// and the year after the first January. Text is `text_size` high; the axis takes about twice that below `y`.
void draw_time_axis(Picture& picture, const TimeScale& scale, double y, double text_size);

}  // namespace soilclock::report
