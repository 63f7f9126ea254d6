// SPDX-License-Identifier: MIT
#include "advice/comparison/season_dates.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "advice/ensemble/quantiles.hpp"
#include "core/text.hpp"

namespace soilclock::advice {

namespace {

/// The season an answer is for, in the form of the past ones.
SeasonSummary present_season(const TargetAnswer& answer) {
  SeasonSummary season;
  season.season_start = answer.season_start;
  for (const SeasonDay& row : answer.season) {
    if (monday_of(row.day) != row.day) continue;
    season.weekly.push_back({row.day, row.emerged_percent.middle, row.young_percent.middle,
                             std::min(row.older_percent.middle, row.emerged_percent.middle)});
  }
  for (const Milestone& milestone : answer.milestones)
    season.up.push_back({milestone.percent, milestone.date.middle});
  for (const SoilRuleStatus& rule : answer.soil_rules)
    season.rule_days.push_back({rule.id, rule.habit_day()});
  season.best_week = answer.decision.best_week;
  season.best_kind = answer.decision.kind;
  season.best_control = answer.decision.control;
  return season;
}

std::optional<Day> rule_day(const SeasonSummary& season, const std::string& id) {
  for (const RuleDay& rule : season.rule_days) {
    if (rule.id == id) return rule.day;
  }
  return std::nullopt;
}

using DayOf = std::function<std::optional<Day>(const SeasonSummary&)>;

SeasonDate date_over(const std::vector<SeasonRow>& rows, std::string id, std::string title,
                     const DayOf& day_of) {
  SeasonDate date;
  date.id = std::move(id);
  date.title = std::move(title);
  const Day start = rows.back().season.season_start;
  std::vector<std::optional<int>> days;
  std::vector<int> known;
  for (const SeasonRow& row : rows) {
    const auto day = day_of(row.season);
    if (row.open) {
      date.this_season = day;
      continue;
    }
    date.past.push_back(day);
    const auto in_season =
        day ? std::optional{static_cast<int>((*day - row.season.season_start).count())} : std::nullopt;
    days.push_back(in_season);
    if (in_season) known.push_back(*in_season);
  }
  if (known.empty()) return date;
  const auto [least, most] = std::minmax_element(known.begin(), known.end());
  date.earliest = start + Days{*least};
  date.latest = start + Days{*most};
  date.days_apart = *most - *least;
  if (const auto middle = day_band_of(std::move(days)).middle) date.middle = start + Days{*middle};
  return date;
}

CallMisses misses(const std::vector<SeasonRow>& rows, int yardstick_percent, std::string id,
                  std::string title, const DayOf& call) {
  CallMisses result;
  result.id = std::move(id);
  result.title = std::move(title);
  double sum = 0.0;
  for (const SeasonRow& row : rows) {
    const auto day = call(row.season);
    if (row.open) {
      result.this_season = day;
      continue;
    }
    const auto yardstick = row.season.reached(yardstick_percent);
    result.days_late.emplace_back();
    if (!day || !yardstick) continue;
    const int late = static_cast<int>((*day - *yardstick).count());
    result.days_late.back() = late;
    result.late_seasons += late > 0 ? 1 : 0;
    ++result.seasons;
    sum += std::abs(late);
  }
  if (result.seasons > 0) result.mean_miss = sum / result.seasons;
  return result;
}

/// "By the models, Sep 15 was late for annual bluegrass in 6 of 12 seasons"; where it never was, how early.
std::string calendar_words(const CallMisses& calendar, const std::string& day, const std::string& grass) {
  if (calendar.late_seasons > 0) {
    return fmt::format("By the models, {} was late for {} in {} of {} seasons", day, grass,
                       calendar.late_seasons, calendar.seasons);
  }
  int least = std::numeric_limits<int>::max();
  int most = 0;
  for (const auto& late : calendar.days_late) {
    if (!late) continue;
    least = std::min(least, -*late);
    most = std::max(most, -*late);
  }
  return fmt::format("By the models, {} was {} to {} days before the first {} in {} seasons", day, least,
                     most, grass, calendar.seasons);
}

std::string days_words(int days) { return fmt::format("{} day{}", days, days == 1 ? "" : "s"); }

/// "Soil 1.8 F warmer moves half the seedlings by 5 days, the best week by 1 week".
std::string warmer_soil_words(const WhatIfTable& table, const std::string& by) {
  if (table.cases.size() < 2) return {};
  const WhatIf& base = table.cases.front();
  const WhatIf& warmer = table.cases[1];
  if (!warmer.half_up_shift) return {};
  std::string words = fmt::format("Soil {} warmer moves half the seedlings by {}", by,
                                  days_words(std::abs(*warmer.half_up_shift)));
  if (base.best_week && warmer.best_week) {
    const auto weeks = std::abs((*warmer.best_week - *base.best_week).count()) / week_days;
    words += weeks == 0 ? ", the best week not at all"
                        : fmt::format(", the best week by {} week{}", weeks, weeks == 1 ? "" : "s");
  }
  return words;
}

}  // namespace

std::vector<SeasonRow> season_rows(const TargetAnswer& answer) {
  std::vector<SeasonRow> rows;
  rows.reserve(answer.past_seasons.size() + 1);
  for (const SeasonSummary& past : answer.past_seasons)
    rows.push_back({fmt::format("{}", civil(past.season_start).year), false, past});
  rows.push_back({fmt::format("{}", civil(answer.season_start).year), true, present_season(answer)});
  return rows;
}

std::vector<SeasonDate> season_dates(const std::vector<SeasonRow>& rows,
                                     const std::vector<SoilRuleStatus>& rules) {
  std::vector<SeasonDate> dates;
  for (const SoilRuleStatus& rule : rules) {
    dates.push_back(date_over(rows, rule.id, rule.title,
                              [&](const SeasonSummary& season) { return rule_day(season, rule.id); }));
  }
  for (const ShareUp& share : rows.back().season.up) {
    dates.push_back(date_over(rows, fmt::format("{}-up", share.percent), fmt::format("{}% up", share.percent),
                              [&](const SeasonSummary& season) { return season.reached(share.percent); }));
  }
  dates.push_back(date_over(rows, "best-week", "best week",
                            [](const SeasonSummary& season) { return season.best_week; }));
  return dates;
}

std::vector<CallMisses> call_misses(const std::vector<SeasonRow>& rows,
                                    const std::vector<SoilRuleStatus>& rules, const Season& season,
                                    const ComparisonRules& comparison) {
  std::vector<CallMisses> calls;
  const emergence::MonthDay& calendar = comparison.calendar_day(season.kind);
  calls.push_back(misses(rows, comparison.yardstick_percent, "calendar",
                         "the calendar, " + short_date(calendar.in(season)), [&](const SeasonSummary& past) {
                           return calendar.in({season.kind, season.hemisphere, past.season_start});
                         }));
  for (const SoilRuleStatus& rule : rules) {
    calls.push_back(misses(rows, comparison.yardstick_percent, rule.id, "soil: " + rule.title,
                           [&](const SeasonSummary& past) { return rule_day(past, rule.id); }));
  }
  return calls;
}

void word_finding(TargetComparison& comparison, Day calendar_day, const std::string& warmer_by) {
  const std::string grass = lowered(comparison.title);
  comparison.what_if_finding = comparison.what_ifs ? warmer_soil_words(*comparison.what_ifs, warmer_by) : "";
  const auto calendar = std::find_if(comparison.calls.begin(), comparison.calls.end(),
                                     [](const CallMisses& call) { return call.id == "calendar"; });
  if (calendar == comparison.calls.end() || calendar->seasons == 0) {
    comparison.finding = fmt::format("The record holds no past season of {} to compare with", grass);
    return;
  }
  comparison.finding = calendar_words(*calendar, short_date(calendar_day), grass);
  const std::string id = fmt::format("{}-up", comparison.yardstick_percent);
  const auto first_up = std::find_if(comparison.dates.begin(), comparison.dates.end(),
                                     [&](const SeasonDate& date) { return date.id == id; });
  if (first_up == comparison.dates.end() || !first_up->days_apart) return;
  comparison.range = fmt::format(
      "The first {} of a hundred seedlings were up as early as {} and as late as {}: {} days apart at one "
      "place. A residual stops only what is still to come.",
      comparison.yardstick_percent, short_date(*first_up->earliest), short_date(*first_up->latest),
      *first_up->days_apart);
}

}  // namespace soilclock::advice
