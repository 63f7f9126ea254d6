// SPDX-License-Identifier: MIT
#pragma once

#include "advice/comparison/degree_day_lesson.hpp"
#include "report/markup/markup.hpp"

namespace soilclock::report {

/// The worked example, the same spring by several methods, the worksheet, its questions and the key.
void write_lesson(Markup& page, const advice::DegreeDayLesson& lesson);

}  // namespace soilclock::report
