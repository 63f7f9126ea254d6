// SPDX-License-Identifier: MIT
// Tables of weeks and kinds made by hand and at random, and a decision as one line to compare.
#pragma once

#include <fmt/format.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "advice/decision/decision.hpp"
#include "support/shipped_catalogue.hpp"

namespace soilclock::tests {

using Weeks = std::vector<advice::TreatmentWeek>;

/// The numbers of the shipped practice file.
inline const advice::DecisionRules& shipped_rules() { return shipped_catalogue().practice.decision; }

/// Monday of a week counted from the first one of a table.
inline Day monday(int week) { return make_day(2026, 9, 7) + Days{7 * week}; }

/// A score that says a kind may not be done in a week.
inline constexpr double gated = -1.0;

/// Scores week by week; a kind without any is never allowed.
struct Scores {
  std::vector<double> pre;
  std::vector<double> both;
  std::vector<double> post;
};

/// A table with these scores; middle and low end lie on either side of each.
inline Weeks weeks(const Scores& scores) {
  const std::array<const std::vector<double>*, treatment::kind_count> rows{&scores.pre, &scores.both,
                                                                           &scores.post};
  std::size_t count = 0;
  for (const auto* row : rows) count = std::max(count, row->size());
  Weeks table(count);
  for (std::size_t week = 0; week < count; ++week) {
    table[week].week_of = monday(static_cast<int>(week));
    for (std::size_t kind = 0; kind < rows.size(); ++kind) {
      advice::KindInWeek& cell = table[week].kinds[kind];
      cell.allowed = week < rows[kind]->size() && (*rows[kind])[week] != gated;
      if (!cell.allowed) continue;
      const double score = (*rows[kind])[week];
      const double half = std::min(4.0, score);
      cell.control = {score - half, score + half, score + 2.0 * half};
    }
  }
  return table;
}

inline advice::Decision decided(const Weeks& table) { return advice::decide(table, {}, shipped_rules()); }

/// A table for people: one line a week.
inline std::string shown(const Weeks& table) {
  std::string text;
  for (const advice::TreatmentWeek& week : table) {
    text += iso(week.week_of);
    for (const treatment::Kind kind : treatment::all_kinds) {
      const auto score = week.score(kind);
      text += fmt::format("  {} {}", treatment::name(kind), score ? fmt::format("{}", *score) : "gated");
    }
    text += "\n";
  }
  return text;
}

/// Everything a decision says, in one line; its dates moved by some days.
inline std::string shown(const advice::Decision& d, Days moved = Days{0}) {
  const auto day = [&](std::optional<Day> at) { return at ? iso(*at + moved) : std::string{"-"}; };
  const auto span = [&](const std::optional<advice::MondaySpan>& of) {
    return of ? day(of->first) + ".." + day(of->last) : std::string{"-"};
  };
  const auto band = [](const Band<double>& of) {
    return fmt::format("{}/{}/{}", of.low, of.middle, of.high);
  };
  const auto cell = [&](const std::optional<advice::KindAndWeek>& of) {
    return of ? fmt::format("{} {} {}", treatment::name(of->kind), day(of->week_of), band(of->control)) : "-";
  };
  std::string costs;
  for (const auto& cost : d.cost_of_waiting) costs += cost ? fmt::format(" {}", *cost) : " -";
  return fmt::format("{} {} control {} best {} through {} then {}{} close {} late {} {} costs{} urgency {}",
                     advice::name(d.action), d.kind ? treatment::name(*d.kind) : "-",
                     d.control ? band(*d.control) : "-", span(d.best_range), day(d.good_through),
                     cell(d.then), d.then_as_good ? " as good" : "", cell(d.close_call), span(d.late),
                     d.late ? band(d.late_control) : "", costs, d.urgency);
}

/// Scores of one kind over the weeks: flat, noise, one peak or two, a rise or a fall.
inline std::vector<double> any_course(int count, double base, double step) {
  const auto quarter = [](int least, int most) { return 0.25 * *rc::gen::inRange(least, most); };
  const int shape = *rc::gen::inRange(0, 6);
  const int peak = *rc::gen::inRange(0, count);
  const int other = *rc::gen::inRange(0, count);
  const double slope = quarter(0, 24);
  const double lower = quarter(0, 16);
  const int noise = *rc::gen::element(0, 1, 4, 20);
  std::vector<double> curve;
  for (int week = 0; week < count; ++week) {
    double score = base;
    if (shape == 1) score = quarter(0, 380);
    if (shape == 2) score = base - slope * std::abs(week - peak);
    if (shape == 3)
      score = base - std::min(slope * std::abs(week - peak), lower + slope * std::abs(week - other));
    if (shape == 4) score = base - slope * week;
    if (shape == 5) score = base - slope * (count - week);
    if (noise > 0) score += quarter(-noise, noise + 1);
    curve.push_back(std::clamp(step * std::round(score / step), 0.0, 95.0));
  }
  return curve;
}

/// A table of up to thirty weeks with gates: none, here and there, runs of them or a whole kind. Scores are
/// whole steps, so that limits are met exactly.
inline Weeks any_table() {
  const int count = *rc::gen::inRange(1, 31);
  const double step = *rc::gen::element(0.25, 1.0, 5.0);
  const double base = *rc::gen::element(0.0, 3.0, 5.0, 8.0, 40.0, 70.0, 90.0);
  Weeks table(static_cast<std::size_t>(count));
  for (int week = 0; week < count; ++week) table[static_cast<std::size_t>(week)].week_of = monday(week);
  for (const treatment::Kind kind : treatment::all_kinds) {
    const auto curve = any_course(count, std::max(0.0, base + 0.25 * *rc::gen::inRange(-28, 29)), step);
    const int gates = *rc::gen::element(0, 0, 1, 4, 10);  // in tenths of the weeks
    for (std::size_t week = 0; week < table.size(); ++week) {
      const double half = std::min(0.25 * *rc::gen::inRange(0, 60), curve[week]);
      table[week].of(kind).control = {curve[week] - half, curve[week] + half, curve[week] + 2.0 * half};
      table[week].of(kind).allowed = *rc::gen::inRange(0, 10) >= gates;
    }
    if (*rc::gen::inRange(0, 4) == 0) {
      const int from = *rc::gen::inRange(0, count);
      const int to = *rc::gen::inRange(from, count + 1);
      for (int week = from; week < to; ++week) table[static_cast<std::size_t>(week)].of(kind).allowed = false;
    }
  }
  return table;
}

}  // namespace soilclock::tests
