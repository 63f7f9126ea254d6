// SPDX-License-Identifier: MIT
#include "report/degree_days_report.hpp"

#include <fmt/format.h>

#include "core/number_text.hpp"
#include "core/text.hpp"
#include "report/csv_text.hpp"
#include "report/json_values.hpp"
#include "report/weather_credit.hpp"
#include "report/wrapped_text.hpp"

namespace soilclock::report {

namespace {

double amount(DegreeDays sum, bool us) { return us ? sum.fahrenheit_days() : sum.celsius_days(); }

std::string threshold(Temperature temperature, bool us) {
  return us ? fmt::format("{:.4g} F", temperature.fahrenheit())
            : fmt::format("{:.4g} C", temperature.celsius());
}

template <class Row>
void for_each_day(const DegreeDayReport& report, Row&& row) {
  for (int i = 0; i < report.days.size(); ++i) {
    const Day day = report.days.begin() + Days{i};
    row(day, report.sum.values.at(day), report.sum.sums[static_cast<std::size_t>(i)]);
  }
}

}  // namespace

std::string degree_days_json(const DegreeDayReport& report) {
  Json json = {{"format", "soilclock-degree-days"},
               {"version", 1},
               {"site", report.site},
               {"method", report.method},
               {"lower_c", rounded(report.lower.celsius(), 4)},
               {"upper_c", report.upper ? rounded(report.upper->celsius(), 4) : Json(nullptr)},
               {"cutoff", report.cutoff},
               {"from", iso(report.days.begin())},
               {"to", iso(report.days.end() - Days{1})},
               {"total", rounded(report.sum.total().celsius_days(), 6)},
               {"missing_days", report.sum.missing_days},
               {"weather_sources", weather_sources_json(report.origins)},
               {"days", Json::array()}};
  for_each_day(report, [&](Day day, std::optional<DegreeDays> value, DegreeDays sum) {
    json["days"].push_back({{"date", iso(day)},
                            {"value", value ? rounded(value->celsius_days(), 6) : Json(nullptr)},
                            {"sum", rounded(sum.celsius_days(), 6)}});
  });
  return dumped(json, 2) + "\n";
}

std::string degree_days_text(const DegreeDayReport& report, bool us) {
  const std::string unit = us ? "F degree-days" : "C degree-days";
  std::string text =
      wrapped(fmt::format("{}: {} {} from {} to {} ({}, {} {}{}, cutoff {}).", printable(report.site, 80),
                          number_text(amount(report.sum.total(), us), 1), unit, iso(report.days.begin()),
                          iso(report.days.end() - Days{1}), report.method,
                          report.method == "cooling" ? "below" : "base", threshold(report.lower, us),
                          report.upper ? ", upper " + threshold(*report.upper, us) : "", report.cutoff),
              0);
  if (report.sum.missing_days > 0) {
    text += wrapped(fmt::format("The sum has a hole: {} day{} without temperature {} not in it, so the true "
                                "sum is larger or equal.",
                                report.sum.missing_days, report.sum.missing_days == 1 ? "" : "s",
                                report.sum.missing_days == 1 ? "is" : "are"),
                    0);
  }
  text += weather_sources_text(report.origins, {});
  text += fmt::format("{:<10}  {:>9}  {:>10}\n", "date", "day", "sum");
  for_each_day(report, [&](Day day, std::optional<DegreeDays> value, DegreeDays sum) {
    text +=
        fmt::format("{:<10}  {:>9}  {:>10}\n", iso(day),
                    value ? number_text(amount(*value, us), 2) : "missing", number_text(amount(sum, us), 2));
  });
  return text;
}

std::string degree_days_csv(const DegreeDayReport& report) {
  std::string text = "date,value_c_days,sum_c_days,weather_credits\n";
  const std::string source = weather_sources_cell(report.origins);
  for_each_day(report, [&](Day day, std::optional<DegreeDays> value, DegreeDays sum) {
    text += csv_row({iso(day), csv_number(value, &DegreeDays::celsius_days, 6),
                     csv_number(sum.celsius_days(), 6), source});
  });
  return text;
}

}  // namespace soilclock::report
