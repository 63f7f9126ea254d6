// SPDX-License-Identifier: MIT
#include "weather/rows/value_windows.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "weather/rows/daily_rows.hpp"
#include "weather/rows/step_counts.hpp"

namespace soilclock::weather {

namespace {

/// The usual minutes from one moment to the next.
int usual_minutes(const TimedRows& rows) {
  if (is_daily(rows)) return minutes_a_day;
  const StepCounts steps = steps_in_order(rows, [](const Moment& moment) { return moment.instant; });
  return static_cast<int>(steps.usual().value_or(minutes_a_day));
}

std::string time_words(int minutes) {
  return minutes % 60 == 0 ? fmt::format("{} h", minutes / 60) : fmt::format("{} min", minutes);
}

/// Extremes of a shorter time than an hour or the step still hold the extremes of the day; amounts must be of
/// the step itself.
bool fits(const HeadingMeaning& meaning, int step) {
  const int window = *meaning.window_minutes;
  if (is_rain(meaning.quantity)) return window == step;
  if (meaning.quantity == Quantity::air_min || meaning.quantity == Quantity::air_max)
    return step == minutes_a_day ? window == step : window <= std::max(step, 60);
  return true;
}

}  // namespace

Checked set_windows_aside(ColumnPlan& plan, const TimedRows& rows, std::optional<int> line,
                          ReadingNotes& notes) {
  const int step = usual_minutes(rows);
  bool extreme_lost = false;
  for (std::size_t i = 0; i < plan.columns.size(); ++i) {
    PlannedColumn& column = plan.columns[i];
    HeadingMeaning& meaning = column.meaning;
    if (column.named) continue;
    if (meaning.quantity == Quantity::rain && meaning.of_day && step < minutes_a_day)
      meaning.quantity = Quantity::rain_today;
    if (!meaning.window_minutes || fits(meaning, step)) continue;
    if (meaning.quantity == Quantity::not_used) continue;
    notes.doubt(fmt::format("'{}' is of {}, but the rows are {} apart; the column is not used",
                            column.heading, time_words(*meaning.window_minutes), time_words(step)),
                line, static_cast<int>(i) + 1);
    extreme_lost = extreme_lost || is_temperature(meaning.quantity);
    meaning.quantity = Quantity::not_used;
  }
  const bool both = plan.find(Quantity::air_min) && plan.find(Quantity::air_max);
  if (!extreme_lost || both || plan.find(Quantity::air) || plan.find(Quantity::air_mean)) return {};
  return fail(notes.problem("the temperatures are of another length of time than the rows are apart", line,
                            {}, {}, fmt::format("temperatures of {}", time_words(step)),
                            "name the columns to use with --columns"));
}

}  // namespace soilclock::weather
