// SPDX-License-Identifier: MIT
#include "weather/rows/rain_counters.hpp"

#include <fmt/format.h>

#include <cmath>

#include "core/unit_words.hpp"
#include "weather/checks.hpp"
#include "weather/columns/unit_conversion.hpp"

namespace soilclock::weather {

bool counts_up(const SectionData& data, const RowList& rows, std::size_t column) {
  int kept = 0;
  int risen = 0;
  int fallen = 0;
  int restarted = 0;  // fallen at a change of day, where a counter of the day starts anew
  double before = std::nan("");
  Day day_before{};
  bool several_a_day = false;
  const auto read = data.values.find(column);
  if (read == data.values.end()) return false;
  const std::vector<double>& values = read->second.values;
  for (const std::size_t row : rows) {
    const double value = values[row];
    if (std::isnan(value)) continue;
    const Day day = data.rows.moments[row].day;
    several_a_day = several_a_day || day == day_before;
    if (before > 0.0) {
      if (value == before)
        ++kept;
      else if (value > before)
        ++risen;
      else if (day != day_before)
        ++restarted;
      else
        ++fallen;
    }
    before = value;
    day_before = day;
  }
  if (!several_a_day) {
    fallen += restarted;
    restarted = 0;
  }
  // Amounts fall back after nearly every wet reading; a counter stays, and falls at a reset only. A steady
  // drizzle stays too, but does not climb and does not start anew at midnight.
  const bool stays = kept + risen >= 12 && kept >= risen && fallen * 20 <= kept + risen;
  return stays && (risen >= 2 || restarted >= 2);
}

void rain_from_daily_counter(const SectionData& data, const RowList& rows, std::size_t column,
                             DailySeries<Rain>& rain, ReadingNotes& notes) {
  const HeadingMeaning& meaning = data.plan.columns[column].meaning;
  notes.doubt(fmt::format("'{}' is a running total; the amounts are differences of neighboring days",
                          data.plan.columns[column].heading),
              data.heading_line(), static_cast<int>(column) + 1);
  for (std::size_t i = 1; i < rows.size(); ++i) {
    const double now = data.number(rows[i], column);
    const double before = data.number(rows[i - 1], column);
    const Day day = data.rows.moments[rows[i]].day;
    const Day earlier = data.rows.moments[rows[i - 1]].day;
    if (std::isnan(now) || std::isnan(before) || day - earlier != Days{1}) continue;
    const Rain amount = to_rain(now - before, meaning.unit);
    if (amount.mm() <
        -2.6) {  // more than a tenth of an inch down is a reset, less is the noise of a weighing gauge
      notes.repeated("resets of a rain counter",
                     fmt::format("the running total falls from {:g} to {:g}: a reset; the amount is unknown",
                                 before, now),
                     data.line(rows[i]), static_cast<int>(column) + 1);
      continue;
    }
    const Rain usable = Rain::from_mm(std::max(0.0, amount.mm()));
    if (plausible(usable)) rain.set(meaning.single_reading ? earlier : day, usable, Quality::measured);
  }
}

namespace {

/// Falls of a counter happen at the change of day only.
bool restarts_daily(const SectionData& data, const RowList& rows, std::size_t column) {
  bool any = false;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    if (!(data.number(rows[i], column) < data.number(rows[i - 1], column))) continue;
    if (data.rows.moments[rows[i]].day == data.rows.moments[rows[i - 1]].day) return false;
    any = true;
  }
  return any;
}

void note_counter(const SectionData& data, std::size_t column, const char* kind, ReadingNotes& notes) {
  notes.doubt(
      fmt::format(
          "'{}' is a running total {}, not an amount; differences are used, so that nothing is counted twice",
          data.plan.columns[column].heading, kind),
      data.heading_line(), static_cast<int>(column) + 1);
}

std::vector<double> counter_differences(const SectionData& data, const RowList& rows, std::size_t column,
                                        bool daily, ReadingNotes& notes) {
  const Unit unit = data.plan.columns[column].meaning.unit;
  std::vector<double> amounts;
  double before = std::nan("");
  Day day{};
  for (const std::size_t row : rows) {
    const double now = data.number(row, column);
    const Day today = data.rows.moments[row].day;
    if (daily && today != day) before = 0.0;
    day = today;
    if (std::isnan(now)) {
      amounts.push_back(std::nan(""));
      continue;
    }
    double amount = std::isnan(before) ? 0.0 : now - before;
    if (amount < 0.0) {
      notes.repeated("resets of a rain counter",
                     fmt::format("'{}' falls from {:g} to {:g}: a reset of the counter, not negative rain",
                                 data.plan.columns[column].heading, before, now),
                     data.line(row), static_cast<int>(column) + 1);
      amount = now;
    }
    before = now;
    amounts.push_back(to_rain(amount, unit).mm());
  }
  return amounts;
}

}  // namespace

std::optional<std::vector<double>> rain_amounts(const SectionData& data, const RowList& rows,
                                                ReadingNotes& notes) {
  const auto plain = data.plan.find(Quantity::rain);
  const auto today = data.plan.find(Quantity::rain_today);
  const auto running = data.plan.find(Quantity::rain_running);
  if (plain && !counts_up(data, rows, *plain)) {
    const Unit unit = data.plan.columns[*plain].meaning.unit;
    std::vector<double> amounts;
    amounts.reserve(rows.size());
    const std::vector<double>& values = data.values.at(*plain).values;
    for (const std::size_t row : rows) {
      const double value = values[row];
      const double mm = to_rain(value, unit).mm();
      if (mm < 0.0) {
        notes.repeated(
            "negative rain amounts",
            water_words(Rain::from_mm(mm), notes.us_units()) + " of rain is not possible; taken as missing",
            data.line(row), static_cast<int>(*plain) + 1);
      }
      amounts.push_back(mm < 0.0 ? std::nan("") : mm);
    }
    return amounts;
  }
  if (today) {
    note_counter(data, *today, "of the day", notes);
    auto amounts = counter_differences(data, rows, *today, true, notes);
    if (running) counter_differences(data, rows, *running, false, notes);  // for its doubts about resets
    return amounts;
  }
  const auto counter = plain ? plain : running;
  if (!counter) return std::nullopt;
  const bool daily = restarts_daily(data, rows, *counter);
  note_counter(data, *counter, daily ? "of the day" : "over many days", notes);
  return counter_differences(data, rows, *counter, daily, notes);
}

}  // namespace soilclock::weather
