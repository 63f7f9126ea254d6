// SPDX-License-Identifier: MIT
#include "weather/observer_flags.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/text.hpp"
#include "weather/stamp_parsing.hpp"

namespace soilclock::weather {

namespace {

constexpr int morning_from = 4 * 60;
constexpr int morning_until = 11 * 60;

/// The part of an attribute text at a position, blank when it is shorter.
std::string_view attribute(std::string_view text, int position) {
  for (; position > 0; --position) {
    const auto comma = text.find(',');
    if (comma == std::string_view::npos) return {};
    text.remove_prefix(comma + 1);
  }
  return trimmed(text.substr(0, text.find(',')));
}

/// The column of values an attribute column describes: the one whose name it continues.
std::optional<std::size_t> described(const ColumnPlan& plan, std::size_t attributes) {
  const std::string& name = plan.columns[attributes].heading;
  for (std::size_t column = 0; column < plan.columns.size(); ++column) {
    if (column != attributes && !plan.columns[column].heading.empty() &&
        name.starts_with(plan.columns[column].heading))
      return column;
  }
  return std::nullopt;
}

}  // namespace

FlaggedCells failed_quality_flags(const BlockData& data, const std::vector<std::size_t>& rows,
                                  ReadingNotes& notes) {
  FlaggedCells failed;
  for (const std::size_t attributes : data.plan.all(Quantity::attributes)) {
    const auto column = described(data.plan, attributes);
    if (!column || !data.values.contains(*column)) continue;
    std::vector<std::string> traces;
    for (const std::size_t row : rows) {
      const std::string_view text = data.table.field(data.rows.records[row], attributes);
      const std::string_view quality = attribute(text, 1);
      if (!quality.empty()) {
        failed.insert({row, *column});
        notes.repeated(
            "values that failed a quality check",
            fmt::format("{} of {} carries quality flag {} (a failed check) and is taken as missing",
                        data.plan.columns[*column].heading, iso(data.rows.moments[row].day),
                        printable(quality, 4)),
            data.line(row), static_cast<int>(*column) + 1);
      }
      if (attribute(text, 0) == "T") traces.push_back(iso(data.rows.moments[row].day));
    }
    if (!traces.empty()) {
      notes.doubt(fmt::format("a trace of rain on {}: rain fell, the amount counts 0.0 mm",
                              shortened_list(traces, 5)),
                  {}, static_cast<int>(*column) + 1);
    }
  }
  return failed;
}

bool note_observation_time(const BlockData& data, const std::vector<std::size_t>& rows, bool shifted,
                           ReadingNotes& notes) {
  const auto column = data.plan.find(Quantity::observation_time);
  const auto attributes = data.plan.all(Quantity::attributes);
  int morning = 0;
  int known = 0;
  int first_line = 0;
  std::string shown;
  const auto count = [&](std::string_view text, std::size_t row) {
    const auto time = text.empty() ? std::nullopt : parse_time_of_day(text, false);
    if (!time) return;
    ++known;
    if (*time < morning_from || *time > morning_until) return;
    if (morning++ == 0) {
      first_line = data.line(row);
      shown = fmt::format("{:02}:{:02}", *time / 60, *time % 60);
    }
  };
  for (const std::size_t row : rows) {
    if (column) count(data.table.field(data.rows.records[row], *column), row);
    for (const std::size_t a : attributes)
      count(attribute(data.table.field(data.rows.records[row], a), 3), row);
  }
  if (morning == 0 || morning * 2 < known) return false;
  notes.doubt(
      fmt::format(
          "read in the morning (about {}): the printed maximum and rain belong mostly to the day before; {}",
          shown,
          shifted ? "they are moved there as asked" : "they stay as printed (--shift-morning moves them)"),
      first_line);
  return true;
}

}  // namespace soilclock::weather
