// SPDX-License-Identifier: MIT
#include "report/svg/time_axis.hpp"

#include <fmt/format.h>

namespace soilclock::report {

namespace {

std::string month_name(Day first) {
  const std::string month = short_date(first).substr(0, 3);
  const CivilDate date = civil(first);
  return date.month == 1 ? fmt::format("{} {}", month, date.year) : month;
}

}  // namespace

void draw_time_axis(Picture& picture, const TimeScale& scale, double y, double text_size) {
  const DayRange& days = scale.days();
  picture.line({scale(days.begin()), y}, {scale(days.end()), y}, "axis");
  const auto ticks = [&](const std::vector<Day>& on, double length) {
    std::vector<double> places;
    places.reserve(on.size());
    for (const Day day : on) places.push_back(scale(day));
    return strokes_path(places, y, y + length);
  };
  picture.path(ticks(mondays(days), 3.0) + ticks(month_starts(days), 8.0), "axis");
  for (const Day first : month_starts(days)) {
    const std::string name = month_name(first);
    const double x = scale(first) + 3.0;
    if (x + 1.1 * text_width(name, text_size) <= scale(days.end()))
      picture.text({x, y + text_size + 2.0}, name, "b");
  }
}

}  // namespace soilclock::report
