// SPDX-License-Identifier: MIT
#include "weather/rows/multiday_rain.hpp"

#include <fmt/format.h>

#include <cmath>

#include "core/text.hpp"
#include "core/unit_words.hpp"
#include "weather/columns/unit_conversion.hpp"

namespace soilclock::weather {

namespace {

/// The number of days of a flag such as "A3"; 0 for any other flag.
int days_of_flag(std::string_view flag) {
  if (flag.size() < 2 || flag.size() > 3 || (flag.front() != 'A' && flag.front() != 'a')) return 0;
  const auto days = parse_number(flag.substr(1));
  if (!days || *days < 2.0 || *days > 31.0) return 0;
  return static_cast<int>(*days);
}

}  // namespace

std::vector<DayRange> multiday_totals(const SectionData& data, const RowList& rows, std::size_t rain_column,
                                      ReadingNotes& notes) {
  std::vector<DayRange> totals;
  const auto flags = data.plan.all(Quantity::flag);
  const auto sum_column = data.plan.find(Quantity::rain_several_days);
  const auto add = [&](std::size_t row, int days, double amount, std::size_t column) {
    const Day last = data.rows.moments[row].day;
    totals.emplace_back(last - Days{days - 1}, last + Days{1});
    const Rain rain = to_rain(amount, data.plan.columns[column].meaning.unit);
    notes.doubt(fmt::format("{} fell over the {} days {} to {}; the amounts of the single days are unknown",
                            water_words(rain, notes.us_units()), days, iso(last - Days{days - 1}), iso(last)),
                data.line(row), static_cast<int>(column) + 1);
  };
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const std::size_t row = rows[i];
    const double amount = data.number(row, rain_column);
    for (const std::size_t flag : flags) {
      const int days = days_of_flag(data.table.field(data.rows.records[row], flag));
      if (days > 0 && !std::isnan(amount)) add(row, days, amount, rain_column);
    }
    const double sum = data.number(row, sum_column);
    if (std::isnan(sum)) continue;
    // The total covers the days without an amount just before it.
    int days = 1;
    while (i >= static_cast<std::size_t>(days) &&
           std::isnan(data.number(rows[i - static_cast<std::size_t>(days)], rain_column)) &&
           data.rows.moments[row].day - data.rows.moments[rows[i - static_cast<std::size_t>(days)]].day ==
               Days{days}) {
      ++days;
    }
    add(row, days, sum, *sum_column);
  }
  return totals;
}

}  // namespace soilclock::weather
