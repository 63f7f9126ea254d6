// SPDX-License-Identifier: MIT
#include "weather/rows/observer_flags.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/text.hpp"
#include "weather/table/stamp_parsing.hpp"

namespace soilclock::weather {

namespace {

constexpr int morning_from = 4 * 60;
constexpr int morning_until = 11 * 60;

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

std::string_view attribute(std::string_view text, int position) {
  for (; position > 0; --position) {
    const auto comma = text.find(',');
    if (comma == std::string_view::npos) return {};
    text.remove_prefix(comma + 1);
  }
  return trimmed(text.substr(0, text.find(',')));
}

void ObservationTimes::add(std::string_view time, std::optional<int> line) {
  const auto minute = time.empty() ? std::nullopt : parse_time_of_day(time, false);
  if (!minute) return;
  ++known_;
  if (*minute < morning_from || *minute > morning_until) return;
  if (morning_++ > 0) return;
  line_ = line;
  shown_ = fmt::format("{:02}:{:02}", *minute / 60, *minute % 60);
}

bool ObservationTimes::to_be_moved(bool asked, ReadingNotes& notes) const {
  const bool morning = morning_ > 0 && morning_ * 2 >= known_;
  if (morning) {
    notes.doubt(fmt::format("read in the morning (about {}): the printed maximum and rain belong mostly to "
                            "the day before; {}",
                            shown_,
                            asked ? "they are moved there as asked"
                                  : "they stay as printed (--shift-morning moves them)"),
                line_);
  } else if (asked) {
    notes.doubt(known_ == 0
                    ? "no observation times are given; maximum and rain are moved to the day before as asked"
                    : "the observation times are not those of a morning; nothing is moved, though asked for");
  }
  return asked && (morning || known_ == 0);
}

FlaggedCells failed_quality_flags(const SectionData& data, const RowList& rows, ReadingNotes& notes) {
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
      notes.doubt(
          fmt::format("a trace of rain on {}: rain fell, the amount counts as 0", shortened_list(traces, 5)),
          {}, static_cast<int>(*column) + 1);
    }
  }
  return failed;
}

bool maxima_to_be_moved(const SectionData& data, const RowList& rows, bool asked, ReadingNotes& notes) {
  const auto column = data.plan.find(Quantity::observation_time);
  const auto attributes = data.plan.all(Quantity::attributes);
  ObservationTimes times;
  for (const std::size_t row : rows) {
    const std::size_t record = data.rows.records[row];
    if (column) times.add(data.table.field(record, *column), data.line(row));
    for (const std::size_t a : attributes)
      times.add(attribute(data.table.field(record, a), 3), data.line(row));
  }
  return times.to_be_moved(asked, notes);
}

}  // namespace soilclock::weather
