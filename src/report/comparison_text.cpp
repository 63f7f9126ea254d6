// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>

#include "core/number_text.hpp"
#include "core/text.hpp"
#include "report/comparison_report.hpp"
#include "report/text_columns.hpp"
#include "report/wrapped_text.hpp"

namespace soilclock::report {

namespace {

using advice::SeasonRow;
using advice::SiteComparison;
using advice::TargetComparison;

constexpr int widest_label = 24;

std::string season_table(const std::string& heading, const std::vector<SeasonRow>& rows) {
  std::string text = fmt::format("{:<24}  {:>7}  {:>7}  {:>7}  {:>7}  {:>9}  {:<8}  {:>7}\n", heading,
                                 "5% up", "25% up", "half up", "80% up", "best week", "kind", "control");
  for (const SeasonRow& row : rows) {
    const advice::SeasonSummary& season = row.season;
    const std::string label = fitted(row.label, widest_label);
    text +=
        fmt::format("{}{}  {:>7}  {:>7}  {:>7}  {:>7}  {:>9}  {:<8}  {:>7}\n", label,
                    std::string(widest_label - columns_of(label), ' '), day_cell(season.reached(5)),
                    day_cell(season.reached(25)), day_cell(season.reached(50)), day_cell(season.reached(80)),
                    day_cell(season.best_week), season.best_kind ? treatment::name(*season.best_kind) : "-",
                    control_cell(season.best_control));
  }
  return text + "\n";
}

std::string spread_table(const TargetComparison& target) {
  const std::size_t past = target.seasons.size() - 1;
  if (past == 0) return {};
  std::string text =
      fmt::format("{:<24}  {:>8}  {:>7}  {:>7}  {:>10}  {:>11}\n", fmt::format("{} past seasons", past),
                  "earliest", "middle", "latest", "days apart", "this season");
  for (const advice::SeasonDate& date : target.dates) {
    text +=
        fmt::format("{:<24}  {:>8}  {:>7}  {:>7}  {:>10}  {:>11}\n", fitted(date.title, widest_label),
                    day_cell(date.earliest), day_cell(date.middle), day_cell(date.latest),
                    date.days_apart ? fmt::format("{}", *date.days_apart) : "-", day_cell(date.this_season));
  }
  return text + "\n";
}

std::string call_table(const TargetComparison& target) {
  if (target.seasons.size() < 2) return {};
  std::string text =
      wrapped(fmt::format("Days each call came before (-) or after (+) {} in 100 seedlings were "
                          "up, by past season:",
                          target.yardstick_percent),
              0);
  text += fmt::format("{:<32}  {:>4}  {:>9}  {}\n", "", "off", "late in", "seasons, oldest first");
  for (const advice::CallMisses& call : target.calls) {
    std::string days;
    for (const auto& late : call.days_late) days += fmt::format("{:>4}", shift_cell(late));
    text += fmt::format("{:<32}  {:>4}  {:>9}  {}\n", fitted(call.title, 32),
                        call.mean_miss ? number_text(*call.mean_miss, 0) : "-",
                        fmt::format("{} of {}", call.late_seasons, call.seasons), days);
  }
  if (target.yardstick_band) {
    text +=
        wrapped(fmt::format("The yardstick is the models' own day, not a count: on {} it was known to within "
                            "{} days before and {} after.",
                            short_date(target.what_ifs->asked_on, true), -target.yardstick_band->low,
                            target.yardstick_band->high),
                0);
  }
  return text + "\n";
}

std::string with_shift_column(const std::optional<Day>& day, const std::optional<int>& shift) {
  return day ? fmt::format("{} {:>3}", short_date(*day), shift_cell(shift)) : "-";
}

std::string what_if_table(const TargetComparison& target) {
  if (!target.what_ifs) {
    return "No what-ifs: the record does not reach the morning they are asked on.\n\n";
  }
  std::string text = wrapped(
      fmt::format("Asked on {}, with nothing known from that day on and no soil readings (days against "
                  "the first line behind each date):",
                  short_date(target.what_ifs->asked_on, true)),
      0);
  text +=
      fmt::format("{:<42}  {:>11}  {:>11}  {:>9}  {:<8}  {:>7}\n", "",
                  fmt::format("{}% up", target.yardstick_percent), "half up", "best week", "kind", "control");
  for (const advice::WhatIf& one : target.what_ifs->cases) {
    text +=
        fmt::format("{:<42}  {:>11}  {:>11}  {:>9}  {:<8}  {:>7}\n", fitted(one.title, 42),
                    with_shift_column(one.first_up.middle, one.first_up_shift),
                    with_shift_column(one.half_up.middle, one.half_up_shift), day_cell(one.best_week),
                    one.best_kind ? treatment::name(*one.best_kind) : "-", control_cell(one.best_control));
  }
  return text + "\n";
}

std::string lesson_text(const advice::DegreeDayLesson& lesson) {
  const char* unit = lesson.us_units ? "F" : "C";
  std::string text =
      fmt::format("Degree-days by hand, base {} {}\n{:<8}  {:>6}  {:>6}  {:>7}  {:>7}  {:>7}\n",
                  number_text(lesson.base, 0), unit, "day", "high", "low", "mean", "above", "sum");
  for (const advice::LessonDay& line : lesson.worked) {
    text += fmt::format("{:<8}  {:>6}  {:>6}  {:>7}  {:>7}  {:>7}\n", short_date(line.day),
                        number_text(line.high, 1), number_text(line.low, 1), number_text(line.mean, 2),
                        number_text(line.above, 2), number_text(line.sum, 2));
  }
  if (lesson.methods.empty()) return text + "\n";
  text += fmt::format("{} to {} by method:", short_date(lesson.spring.begin(), true),
                      short_date(lesson.spring.end() - Days{1}));
  for (const advice::MethodSum& sum : lesson.methods)
    text += fmt::format(" {} {}{}", sum.method, number_text(sum.sum, 0),
                        &sum == &lesson.methods.back() ? ".\n" : ",");
  return text + "\n";
}

}  // namespace

std::string day_cell(const std::optional<Day>& day) { return day ? short_date(*day) : "-"; }

std::string shift_cell(const std::optional<int>& days) { return days ? signed_number_text(*days, 0) : "-"; }

std::string control_cell(const std::optional<Band<double>>& control) {
  if (!control) return "-";
  return fmt::format("{} ({})", number_text(control->middle, 0), number_text(control->low, 0));
}

std::string comparison_text(const std::vector<SiteComparison>& sites, const AnswerFrame& frame) {
  std::string text;
  for (const SiteComparison& site : sites) {
    for (const TargetComparison& target : site.targets) {
      text += wrapped(fmt::format("{}, {}", printable(site.answer.name, 80), lowered(target.title)), 0);
      text += wrapped(target.finding + ". " + target.range, 0) + "\n";
      text += season_table("season", target.seasons) + spread_table(target) + call_table(target) +
              what_if_table(target);
    }
    for (const advice::NotCompared& target : site.not_compared) {
      text += wrapped(fmt::format("{}, {}: nothing to compare. {}", printable(site.answer.name, 80),
                                  lowered(target.title), target.why),
                      0) +
              "\n";
    }
    if (site.lesson) text += lesson_text(*site.lesson);
    for (const Problem& problem : site.answer.problems)
      text += wrapped(printable(site.answer.name, 80) + ": " + describe(problem), 0);
  }
  if (sites.size() > 1) {
    for (const auto& [target, title] : advice::targets_compared(sites))
      text += season_table(lowered(title), advice::sites_side_by_side(sites, target));
  }
  for (const std::string& caution : frame.brief_cautions) text += wrapped(caution, 0);
  return text;
}

}  // namespace soilclock::report
