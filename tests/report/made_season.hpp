// SPDX-License-Identifier: MIT
// A made season for pages: half are up on the day given, on a smooth curve.
#pragma once

#include <cmath>

#include "report/made_answers.hpp"

namespace soilclock::tests {

inline double share_up(double days_from_half) { return 100.0 / (1.0 + std::exp(-days_from_half / 9.0)); }

/// Fills the day table, dates and soil rule of an answer; forecast for ten days, past years' weather after
/// them.
inline void add_season(advice::TargetAnswer& answer, Day half_up, bool ages = true) {
  for (int d = 0; d < 365; ++d) {
    advice::SeasonDay row;
    row.day = answer.season_start + Days{d};
    const auto from_half = static_cast<double>((row.day - half_up).count());
    row.emerged_percent = {share_up(from_half - 9.0), share_up(from_half), share_up(from_half + 9.0)};
    if (ages) {
      row.older_percent = {0.0, share_up(from_half - 20.0), 100.0};
      row.young_percent = {0.0, row.emerged_percent.middle - row.older_percent.middle, 100.0};
    }
    row.soil_5cm = Temperature::from_celsius(17.0 + 9.0 * std::cos((d - 30) / 58.0));
    const bool outlook = row.day >= today + Days{10};
    row.origin = row.day < today ? "measured" : outlook ? "outlook" : "forecast";
    if (!outlook) row.rain = Rain::from_mm(d % 9 == 0 ? 8.0 : 0.0);
    answer.season.push_back(row);
  }
  answer.stages = {0.4, 0.2, 0.15, 0.25, 0.5};
  answer.milestones.push_back({50, {half_up - Days{9}, half_up, half_up + Days{9}}});
  answer.windows = {
      {treatment::Kind::pre, {half_up - Days{50}, half_up - Days{45}, half_up - Days{40}}, {}},
      {treatment::Kind::pre_post, {half_up - Days{30}, half_up - Days{25}, half_up - Days{20}}, {}},
      {treatment::Kind::post, {half_up + Days{10}, half_up + Days{20}, {}}, {}}};
  advice::SoilRuleStatus rule;
  rule.title = "Below 70 F";
  rule.level = Temperature::from_fahrenheit(70.0);
  rule.falling = true;
  rule.first_run = rule.last_run = today - Days{20};
  answer.soil_rules.push_back(rule);
}

/// Twelve seasons, half up a day later each year.
inline void add_past_seasons(advice::TargetAnswer& answer) {
  for (int year = 2014; year < 2026; ++year) {
    advice::SeasonSummary season;
    season.season_start = make_day(year, 6, 21);
    season.up = {{50, make_day(year, 10, 1) + Days{year - 2014}}};
    answer.past_seasons.push_back(season);
  }
  answer.usual = advice::UsualSeason{12, 107, make_day(2026, 10, 6), make_day(2026, 10, 5), 4};
}

inline report::AnswerFrame page_frame() {
  report::AnswerFrame frame;
  frame.on = today;
  frame.cautions = {"The label is the law.", "Scout first."};
  frame.sources.push_back(
      {"x", "A. Writer", 2001, "On seedlings & soils", "Journal", "1:2-3", "", "abstract"});
  return frame;
}

}  // namespace soilclock::tests
