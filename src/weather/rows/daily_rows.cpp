// SPDX-License-Identifier: MIT
#include "weather/rows/daily_rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/text.hpp"
#include "weather/checks.hpp"
#include "weather/columns/unit_conversion.hpp"
#include "weather/rows/multiday_rain.hpp"
#include "weather/rows/observer_flags.hpp"
#include "weather/rows/rain_counters.hpp"
#include "weather/rows/step_counts.hpp"

namespace soilclock::weather {

namespace {

/// Row indices in order of their days.
RowList by_day(const TimedRows& rows) {
  RowList order(rows.moments.size());
  std::iota(order.begin(), order.end(), 0U);
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return rows.moments[a].day < rows.moments[b].day; });
  return order;
}

bool same_number(double a, double b) { return a == b || (std::isnan(a) && std::isnan(b)); }

bool same_values(const SectionData& data, std::size_t a, std::size_t b) {
  return std::all_of(data.values.begin(), data.values.end(), [&](const auto& entry) {
    return same_number(entry.second.values[a], entry.second.values[b]);
  });
}

bool no_values(const SectionData& data, std::size_t row) {
  return std::all_of(data.values.begin(), data.values.end(),
                     [&](const auto& entry) { return std::isnan(entry.second.values[row]); });
}

std::string values_text(const SectionData& data, std::size_t row) {
  std::vector<std::string> parts;
  for (const auto& [column, cells] : data.values) {
    parts.push_back(fmt::format("{} {:g}", data.plan.columns[column].heading, cells.values[row]));
  }
  return listed(parts);
}

/// One row for each day; equal repeats are dropped with a doubt, different ones are a conflict.
Result<RowList> one_row_a_day(const SectionData& data, const RowList& order, ReadingNotes& notes) {
  RowList kept;
  for (const auto row : order) {
    if (kept.empty() || data.rows.moments[kept.back()].day != data.rows.moments[row].day) {
      kept.push_back(row);
      continue;
    }
    const std::size_t other = kept.back();
    const std::string day = iso(data.rows.moments[row].day);
    if (same_values(data, other, row)) {
      notes.repeated("repeated days",
                     fmt::format("{} stands on lines {} and {} with equal values; one is kept", day,
                                 data.line(other), data.line(row)),
                     data.line(row));
    } else if (no_values(data, other)) {
      kept.back() = row;
    } else if (!no_values(data, row)) {
      return fail(notes.problem(fmt::format("{} stands on lines {} and {} with different values", day,
                                            data.line(other), data.line(row)),
                                data.line(row), {}, values_text(data, row),
                                values_text(data, other) + " as before, or one row a day",
                                "remove the wrong line"));
    }
  }
  return kept;
}

class DailyRows {
 public:
  DailyRows(const SectionData& data, const ReadingOptions& options, ParsedFile& reading, ReadingNotes& notes)
      : data_{data},
        options_{options},
        reading_{reading},
        notes_{notes},
        check_{options.swap_reversed_extremes, notes} {}

  Checked fill(const RowList& rows) {
    const FlaggedCells flagged = failed_quality_flags(data_, rows, notes_);
    shift_ = Days{maxima_to_be_moved(data_, rows, options_.shift_morning_observations, notes_) ? 1 : 0};
    for (const std::size_t row : rows) {
      fill_air(row, flagged);
      fill_soil(row);
    }
    if (check_.reversed_everywhere() && !options_.swap_reversed_extremes) {
      return fail(exchanged_columns(data_.heading_line(), heading(Quantity::air_min),
                                    heading(Quantity::air_max), notes_));
    }
    clear_reversed_days(reading_.daily, notes_);
    fill_rain(rows, flagged);
    return {};
  }

 private:
  std::string heading(Quantity quantity) const {
    return data_.plan.columns[*data_.plan.find(quantity)].heading;
  }

  std::optional<Temperature> temperature(std::size_t row, std::optional<std::size_t> column,
                                         const FlaggedCells& flagged) const {
    const double value = data_.number(row, column);
    if (std::isnan(value) || flagged.contains({row, *column})) return std::nullopt;
    return to_temperature(value, data_.plan.columns[*column].meaning.unit);
  }

  void fill_air(std::size_t row, const FlaggedCells& flagged) {
    const Day day = data_.rows.moments[row].day;
    DailyExtremes pair{temperature(row, data_.plan.find(Quantity::air_min), flagged),
                       temperature(row, data_.plan.find(Quantity::air_max), flagged)};
    pair = check_.checked(pair, day, data_.line(row));
    if (pair.minimum) reading_.daily.air_min.set(day, *pair.minimum, Quality::measured);
    if (pair.maximum) reading_.daily.air_max.set(day - shift_, *pair.maximum, Quality::measured);
  }

  void fill_soil(std::size_t row) {
    for (const std::size_t column : data_.plan.all(Quantity::soil)) {
      const double value = data_.number(row, column);
      if (std::isnan(value)) continue;
      const HeadingMeaning& meaning = data_.plan.columns[column].meaning;
      if (const auto t = check_.checked_soil(to_temperature(value, meaning.unit), data_.line(row))) {
        const Moment& moment = data_.rows.moments[row];
        const Depth depth = Depth::from_cm(*meaning.depth_cm);
        // Read at a clock time and without air beside it: somebody's probe, not the mean of a day.
        const bool spot =
            data_.rows.has_time && !data_.plan.find(Quantity::air_min) && !data_.plan.find(Quantity::air_max);
        if (spot)
          reading_.spots.push_back({moment.day, moment.minute, depth, *t});
        else
          reading_.daily.soil[depth].set(moment.day, *t, Quality::measured);
      }
    }
  }

  void fill_rain(const RowList& rows, const FlaggedCells& flagged) {
    std::optional<std::size_t> column = data_.plan.find(Quantity::rain);
    std::optional<std::size_t> counter = data_.plan.find(Quantity::rain_running);
    if (!column) column = data_.plan.find(Quantity::rain_today);
    if (column && counts_up(data_, rows, *column)) {
      counter = column;
      column.reset();
    }
    if (!column) {
      if (counter) rain_from_daily_counter(data_, rows, *counter, reading_.daily.rain, notes_);
      return;
    }
    const std::vector<DayRange> totals = multiday_totals(data_, rows, *column, notes_);
    for (const std::size_t row : rows) {
      const Day day = data_.rows.moments[row].day;
      const double value = data_.number(row, *column);
      if (std::isnan(value) || flagged.contains({row, *column})) continue;
      const bool part_of_total =
          std::any_of(totals.begin(), totals.end(), [&](const DayRange& r) { return r.contains(day); });
      if (part_of_total) continue;
      const auto rain =
          check_.checked_rain(to_rain(value, data_.plan.columns[*column].meaning.unit), data_.line(row));
      if (rain) reading_.daily.rain.set(day - shift_, *rain, Quality::measured);
    }
  }

  const SectionData& data_;
  const ReadingOptions& options_;
  ParsedFile& reading_;
  ReadingNotes& notes_;
  ExtremesCheck check_;
  Days shift_{0};
};

}  // namespace

bool is_daily(const TimedRows& rows) {
  if (rows.moments.size() < 2) return !rows.has_time || rows.moments.empty();
  const StepCounts steps = steps_in_order(rows, [](const Moment& moment) {
    return static_cast<long long>(moment.day.time_since_epoch().count()) * minutes_a_day + moment.minute;
  });
  const auto usual = steps.usual();
  return usual ? *usual >= 20 * 60 : !rows.has_time;
}

Checked read_daily_rows(const SectionData& data, const ReadingOptions& options, ParsedFile& reading,
                        ReadingNotes& notes) {
  reading.step = "daily";
  const bool extremes = data.plan.find(Quantity::air_min) || data.plan.find(Quantity::air_max);
  if (!extremes && data.plan.all(Quantity::soil).empty()) {
    return fail(notes.problem("there is one air temperature a day, but minimum and maximum are needed",
                              data.heading_line(), {}, {},
                              "a minimum and a maximum of each day, or readings every six hours or oftener",
                              "export minimum and maximum too, or name their columns with --columns"));
  }
  const auto order = by_day(data.rows);
  reading.first_date = data.rows.moments[order.front()].day;
  reading.last_date = data.rows.moments[order.back()].day;
  const auto rows = one_row_a_day(data, order, notes);
  if (!rows) return fail(rows.error());
  if (const auto done = DailyRows{data, options, reading, notes}.fill(*rows); !done) return done;
  for (const PlannedColumn& column : data.plan.columns) {
    if (column.meaning.quantity == Quantity::soil && column.meaning.single_reading) {
      notes.doubt(
          fmt::format("'{}' is one reading at the start of the day, not a daily mean", column.heading),
          data.heading_line());
    }
  }
  return {};
}

}  // namespace soilclock::weather
