// SPDX-License-Identifier: MIT
#include "weather/columns/date_column.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/text.hpp"
#include "weather/columns/column_choice.hpp"
#include "weather/table/date_order.hpp"
#include "weather/table/stamp_parsing.hpp"

namespace soilclock::weather {

namespace {

using Form = RawStamp::Form;

class DateColumn {
 public:
  DateColumn(ColumnPlan& plan, const Table& table, const TableSection& section, ReadingNotes& notes)
      : plan_{plan}, table_{table}, section_{section}, notes_{notes} {
    if (!section.names.empty()) line_ = table.line(section.heading_record);
  }

  Checked settle() {
    if (const auto named = plan_.all(Quantity::stamp); !named.empty()) return choose(holding_dates(named));
    if (plan_.find(Quantity::year)) return {};
    if (take_whole_dates()) return {};
    return take_unnamed();
  }

 private:
  /// Most of the first cells are dates; `numbers` allows day counts and seconds too.
  bool looks_like_dates(std::size_t column, bool numbers) const {
    constexpr std::size_t enough = 50;
    std::size_t dates = 0;
    std::size_t looked = 0;
    for (std::size_t i = 0; i < section_.rows.size() && looked < enough; ++i) {
      const std::string_view field = table_.field(section_.rows[i], column);
      if (field.empty()) continue;
      ++looked;
      const auto stamp = parse_stamp(field);
      const bool number = stamp && (stamp->form == Form::epoch || stamp->form == Form::serial);
      if (stamp && (numbers || !number)) ++dates;
    }
    return looked > 0 && dates * 10 >= looked * 8;
  }

  std::vector<std::size_t> holding_dates(const std::vector<std::size_t>& columns) const {
    std::vector<std::size_t> holding;
    for (const std::size_t column : columns) {
      if (looks_like_dates(column, true)) holding.push_back(column);
    }
    return holding.empty() ? columns : holding;
  }

  /// The day of every row; empty where a cell is none or the order of its parts is not clear.
  std::vector<std::optional<Day>> days(std::size_t column) const {
    std::vector<LinedStamp> stamps;
    std::vector<std::optional<Day>> result(section_.rows.size());
    stamps.reserve(section_.rows.size());
    for (const std::size_t row : section_.rows) {
      if (const auto stamp = parse_stamp(table_.field(row, column)))
        stamps.push_back({*stamp, table_.line(row)});
    }
    ReadingNotes unsaid{notes_.file()};
    const auto order = settle_date_order(stamps, DateOrder::automatic, static_cast<int>(column) + 1, unsaid);
    if (!order) return result;
    for (std::size_t i = 0; i < section_.rows.size(); ++i) {
      if (const auto stamp = parse_stamp(table_.field(section_.rows[i], column)))
        result[i] = stamped_day(*stamp, *order);
    }
    return result;
  }

  /// A day apart, seconds and dates agree: they may be cut by different clocks.
  bool agree(std::size_t a, std::size_t b) const {
    if (same_cells(table_, section_, a, b)) return true;
    const auto days_a = days(a);
    const auto days_b = days(b);
    const Days apart{is_number(a) != is_number(b) ? 1 : 0};
    for (std::size_t i = 0; i < days_a.size(); ++i) {
      if (!days_a[i] && !days_b[i]) continue;
      if (!days_a[i] || !days_b[i]) return false;
      if (*days_a[i] - *days_b[i] > apart || *days_b[i] - *days_a[i] > apart) return false;
    }
    return true;
  }

  bool is_number(std::size_t column) const { return !looks_like_dates(column, false); }

  bool has_times(std::size_t column) const {
    return std::any_of(section_.rows.begin(), section_.rows.end(), [&](std::size_t row) {
      const auto stamp = parse_stamp(table_.field(row, column));
      return stamp && stamp->minute.value_or(0) != 0;
    });
  }

  /// Keeps one of these columns as the date.
  Checked choose(std::vector<std::size_t> columns) {
    const auto named = std::find_if(columns.begin(), columns.end(),
                                    [&](std::size_t column) { return plan_.columns[column].named; });
    if (named != columns.end()) columns = {*named};
    const auto rank = [&](std::size_t column) {
      return std::pair{oddity(plan_.columns[column].meaning), -preference(plan_.columns[column].heading)};
    };
    std::stable_sort(columns.begin(), columns.end(),
                     [&](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
    std::size_t best = columns.front();
    for (const std::size_t other : columns) {
      if (other == best || rank(other) != rank(best)) continue;
      if (!agree(best, other)) return fail(which_date(best, other));
      if (!plan_.find(Quantity::time_of_day) && !has_times(best) && has_times(other)) best = other;
    }
    for (const std::size_t column : plan_.all(Quantity::stamp))
      plan_.columns[column].meaning.quantity = Quantity::not_used;
    plan_.columns[best].meaning.quantity = Quantity::stamp;
    return {};
  }

  Problem which_date(std::size_t a, std::size_t b) const {
    const std::string& first = plan_.columns[a].heading;
    return notes_.problem(
        fmt::format("'{}' and '{}' both hold dates, and they differ", first, plan_.columns[b].heading), line_,
        static_cast<int>(b) + 1,
        fmt::format("{} and {}", table_.field(section_.rows.front(), a),
                    table_.field(section_.rows.front(), b)),
        "one column with the day of each row",
        fmt::format("name the right one, for example --columns \"{}=date\"", first));
  }

  /// "time", "day" and the like may hold whole dates.
  bool take_whole_dates() {
    for (const Quantity quantity : {Quantity::time_of_day, Quantity::day_of_month, Quantity::observation_time,
                                    Quantity::day_of_year, Quantity::hour_ending}) {
      const auto column = plan_.find(quantity);
      if (!column) continue;
      const bool any_stamp = std::any_of(section_.rows.begin(), section_.rows.end(), [&](std::size_t row) {
        return parse_stamp(table_.field(row, *column)).has_value();
      });
      if (!any_stamp) continue;
      plan_.columns[*column].meaning.quantity = Quantity::stamp;
      return true;
    }
    return false;
  }

  /// A date under a heading that does not say so; one that says it is another date is a question.
  Checked take_unnamed() {
    std::vector<std::size_t> plain;
    std::optional<std::size_t> other;
    for (std::size_t column = 0; column < plan_.columns.size(); ++column) {
      if (!looks_like_dates(column, false)) continue;
      const HeadingMeaning& meaning = plan_.columns[column].meaning;
      if (is_time(meaning.unqualified))
        other = other.value_or(column);
      else
        plain.push_back(column);
    }
    if (plain.empty() && other) return fail(other_date(*other));
    if (plain.empty()) return {};
    const Checked chosen = choose(plain);
    if (!chosen) return chosen;
    const std::size_t column = *plan_.find(Quantity::stamp);
    notes_.doubt(fmt::format("no heading names a date; column {} ('{}') holds dates and is used", column + 1,
                             plan_.columns[column].heading),
                 line_, static_cast<int>(column) + 1);
    return {};
  }

  Problem other_date(std::size_t column) const {
    const PlannedColumn& only = plan_.columns[column];
    return notes_.problem(
        fmt::format("the only date is '{}', and '{}' says that it is not the day of the row", only.heading,
                    only.meaning.qualifier),
        line_, static_cast<int>(column) + 1, only.heading, "a date of observation, such as date",
        fmt::format("if it is the day of the row, say --columns \"{}=date\"", only.heading));
  }

  ColumnPlan& plan_;
  const Table& table_;
  const TableSection& section_;
  ReadingNotes& notes_;
  std::optional<int> line_;
};

}  // namespace

Checked settle_date_column(ColumnPlan& plan, const Table& table, const TableSection& section,
                           ReadingNotes& notes) {
  return DateColumn{plan, table, section, notes}.settle();
}

}  // namespace soilclock::weather
