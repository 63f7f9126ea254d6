// SPDX-License-Identifier: MIT
#include "weather/rows/repeated_moments.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace soilclock::weather {

namespace {

bool same_readings(const SectionData& data, std::size_t a, std::size_t b) {
  return std::all_of(data.values.begin(), data.values.end(), [&](const auto& entry) {
    const double x = entry.second.values[a];
    const double y = entry.second.values[b];
    return x == y || (std::isnan(x) && std::isnan(y));
  });
}

bool summer_time_may_end(Day day, int minute, const std::optional<TimeZone>& zone) {
  if (minute >= 4 * 60) return false;
  if (zone) {
    const Instant midnight{day};
    return zone->wall_offset(midnight + Days{2}) < zone->wall_offset(midnight - Days{1});
  }
  const unsigned month = civil(day).month;
  return (month >= 3 && month <= 5) || (month >= 9 && month <= 11);
}

std::string clock_text(const Moment& moment) {
  return fmt::format("{} {:02}:{:02}", iso(moment.day), moment.minute / 60, moment.minute % 60);
}

}  // namespace

Result<RowList> settle_repeats(const SectionData& data, RowList in_time_order, int step_minutes,
                               const std::optional<TimeZone>& zone, ReadingNotes& notes) {
  RowList& rows = in_time_order;
  std::size_t kept = 0;  // the rows before it stay
  std::map<Day, int> repeated;
  const int most = std::max(1, 120 / std::max(step_minutes, 1));
  int dropped = 0;
  int dropped_line = 0;
  for (const auto row : rows) {
    const Moment& moment = data.rows.moments[row];
    if (kept == 0 || data.rows.moments[rows[kept - 1]].instant != moment.instant) {
      rows[kept++] = row;
      continue;
    }
    const std::size_t other = rows[kept - 1];
    if (same_readings(data, other, row)) {
      if (dropped++ == 0) dropped_line = data.line(row);
      continue;
    }
    const bool may_end = !data.rows.unique_instants && summer_time_may_end(moment.day, moment.minute, zone);
    if (!may_end || ++repeated[moment.day] > most) {
      return fail(notes.problem(
          fmt::format("{} stands on lines {} and {} with different values", clock_text(moment),
                      data.line(other), data.line(row)),
          data.line(row), {}, {}, "one row for each moment",
          "remove the wrong line; if the file holds several stations, choose one with --station"));
    }
    if (repeated[moment.day] == 1) {
      notes.doubt(fmt::format("{} stands twice with different values (lines {} and {}): the hour that "
                              "repeats when summer time ends; both count",
                              clock_text(moment), data.line(other), data.line(row)),
                  data.line(row));
    }
    rows[kept++] = row;
  }
  if (dropped > 0)
    notes.doubt(fmt::format("{} rows repeat a moment with equal values; one of each is kept", dropped),
                dropped_line);
  rows.resize(kept);
  return std::move(rows);
}

}  // namespace soilclock::weather
