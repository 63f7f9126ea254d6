// SPDX-License-Identifier: MIT
// Hand-made answers: a table of weeks is decided by the rule and worded, and nothing else is computed.
#pragma once

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "advice/answer/next_look.hpp"
#include "advice/answer/words.hpp"
#include "report/advice_json.hpp"
#include "support/shipped_catalogue.hpp"

namespace soilclock::tests {

inline const Day monday = make_day(2026, 10, 12);
inline const Day today = monday + Days{3};

/// Middles of pre, pre+post and post in one week; the ends of their bands lie ten points away.
struct WeekMiddles {
  double pre = 0.0;
  double both = 0.0;
  double post = 0.0;
};

inline Band<double> ten_points_around(double middle) {
  return {std::max(0.0, middle - 10.0), middle, std::min(100.0, middle + 10.0)};
}

/// Rows from this week on.
inline std::vector<advice::WeekRow> rows(const std::vector<WeekMiddles>& weeks) {
  std::vector<advice::WeekRow> table;
  for (const WeekMiddles& middles : weeks) {
    advice::WeekRow row;
    row.week.week_of = monday + Days{7 * static_cast<int>(table.size())};
    row.week.of(treatment::Kind::pre).control = ten_points_around(middles.pre);
    row.week.of(treatment::Kind::pre_post).control = ten_points_around(middles.both);
    row.week.of(treatment::Kind::post).control = ten_points_around(middles.post);
    table.push_back(row);
  }
  return table;
}

/// Annual bluegrass, 40 % up, half of it juvenile; nothing decided yet.
inline advice::TargetAnswer undecided(std::vector<advice::WeekRow> weeks) {
  advice::TargetAnswer answer;
  answer.target = "POAAN";
  answer.title = "Annual bluegrass";
  answer.season_start = make_day(2026, 6, 21);
  answer.emerged_percent = {20.0, 40.0, 60.0};
  answer.juvenile_percent = {30.0, 50.0, 70.0};
  answer.weeks = std::move(weeks);
  return answer;
}

inline void decide(advice::TargetAnswer& answer) {
  std::vector<advice::TreatmentWeek> weeks;
  for (const advice::WeekRow& row : answer.weeks) weeks.push_back(row.week);
  answer.decision = advice::decide(weeks, {}, shipped_catalogue().practice.decision);
}

/// The sentences of an answer that is decided.
inline void word(advice::TargetAnswer& answer) {
  const advice::Catalogue& catalogue = shipped_catalogue();
  answer.next_look = advice::next_look(answer, SeasonKind::fall, today, catalogue.practice.decision);
  advice::word_decision(answer,
                        {today, &catalogue.practice, &catalogue.gates, &catalogue.control_of(answer.target)});
}

inline advice::TargetAnswer decided(std::vector<advice::WeekRow> weeks) {
  advice::TargetAnswer answer = undecided(std::move(weeks));
  decide(answer);
  word(answer);
  return answer;
}

/// Falls week by week: treat now.
inline advice::TargetAnswer falling() {
  return decided(rows({{45, 74, 28}, {38, 70, 30}, {30, 66, 33}, {20, 60, 35}}));
}
/// As good for the next month: any week.
inline advice::TargetAnswer flat() {
  return decided(rows({{45, 74, 28}, {44, 74, 30}, {43, 74, 32}, {42, 74, 34}}));
}
/// Nearly as good as it will be.
inline advice::TargetAnswer good_enough() {
  return decided(rows({{45, 71, 20}, {44, 74, 24}, {43, 74, 28}, {42, 74, 30}, {40, 73.8, 33}}));
}
/// Two weeks too early.
inline advice::TargetAnswer early() {
  return decided(rows({{40, 45, 5}, {41, 60, 20}, {40, 74, 30}, {38, 73.5, 33}}));
}

/// The best kind is stopped this week by turf that greens up.
inline advice::TargetAnswer gated() {
  auto weeks = rows({{40, 74, 5}, {40, 74, 20}, {40, 73, 30}});
  weeks.front().gates.push_back({treatment::GateReason::green_up, true, false, true, {}});
  for (const auto kind : {treatment::Kind::pre_post, treatment::Kind::post})
    weeks.front().week.of(kind).allowed = false;
  return decided(std::move(weeks));
}

/// A post treatment was noted ten days ago.
inline advice::TargetAnswer held() {
  advice::TargetAnswer answer = undecided(rows({{10, 20, 12}, {9, 18, 11}}));
  decide(answer);
  answer.after = advice::AfterApplication{};
  answer.after->foliar_on = today - Days{10};
  answer.after->look = DayRange{today + Days{4}, today + Days{19}};
  answer.decision.action = advice::Action::hold_after_treatment;
  word(answer);
  return answer;
}

inline advice::TargetAnswer finished() {
  advice::TargetAnswer answer = undecided(rows({{2, 3, 1}}));
  answer.windows.push_back({treatment::Kind::pre, {{}, make_day(2026, 8, 20), {}}, {}});
  decide(answer);
  word(answer);
  return answer;
}

/// A climate without a single wave.
inline advice::TargetAnswer spread_out() {
  advice::TargetAnswer answer = undecided({});
  answer.decision.action = advice::Action::no_single_week;
  word(answer);
  return answer;
}

/// Component models would name different kinds.
inline advice::TargetAnswer torn() {
  advice::TargetAnswer answer = undecided(rows({{45, 74, 28}, {38, 70, 30}}));
  decide(answer);
  answer.models_disagree = "models disagree: 20 to 75% emerged";
  answer.decision.action = advice::Action::scout;
  word(answer);
  return answer;
}

/// What stands below all answers.
inline report::AnswerFrame frame_with(std::vector<std::string> brief_cautions) {
  report::AnswerFrame frame;
  frame.on = today;
  frame.brief_cautions = std::move(brief_cautions);
  return frame;
}

/// Names that must come through every form of an answer as text.
inline const std::string strange_name = "<script>alert(1)</script> & \"S\u00f6hne\" \u65e5\u672c =1+1";
inline const std::string unbroken_name(60, 'W');

inline advice::SiteAnswer course(const std::string& name, std::vector<advice::TargetAnswer> targets) {
  advice::SiteAnswer answer;
  answer.site = name;
  answer.name = name;
  answer.on = today;
  answer.weather.last_measured = today - Days{1};
  answer.weather.age_days = 1;
  answer.targets = std::move(targets);
  return answer;
}

inline bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace soilclock::tests
