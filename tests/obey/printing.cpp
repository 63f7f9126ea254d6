// SPDX-License-Identifier: MIT
#include "obey/printing.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace soilclock::obey {

namespace {

/// Seasons shown of the plan with the highest mean regret.
constexpr std::size_t worst_shown = 3;
/// Fewest cases off the usual on which an aim is judged.
constexpr std::size_t fewest_compared = 10;

std::string three(const Summary& summary) {
  if (summary.count == 0) return "-";
  return fmt::format("{:.2f}/{:.1f}/{:.1f}", summary.mean, summary.p95, summary.worst);
}

const Beside& beside(const Scores& scores, Rival rival) {
  return scores.rivals[static_cast<std::size_t>(rival)];
}

void print_row(std::string_view name, const Scores& scores) {
  const Beside& own = beside(scores, Rival::own_week);
  fmt::print("{:<24} {:>5}  {:>14}  {:>14}  {:>14}  {:>14} {:>14} {:>5}\n", name, scores.rule.count,
             three(scores.rule), three(beside(scores, Rival::fixed_date).rival),
             three(beside(scores, Rival::soil_rule).rival), three(own.rival), three(own.rule),
             own.rival.count);
}

void print_aim(std::string_view what, double reached, double aim) {
  fmt::print("  {:<58} {:6.2f}, aim at most {:5.2f}: {}\n", what, reached, aim,
             reached <= aim ? "met" : "MISSED");
}

void print_aims(const Scores& all, const Scores& off_usual, const Aims& aims) {
  fmt::print("Aims, all plans together\n");
  print_aim("mean regret", all.rule.mean, aims.mean);
  print_aim("95th percentile", all.rule.p95, aims.p95);
  print_aim("worst", all.rule.worst, aims.worst);
  for (const auto& [rival, words] : {std::pair{Rival::fixed_date, "mean against the fixed date's"},
                                     std::pair{Rival::soil_rule, "mean against the soil rule's"}}) {
    print_aim(words, all.rule.mean, aims.share_of_habits * beside(all, rival).rival.mean);
  }
  const Beside& own = beside(all, Rival::own_week);
  if (own.rival.count > 0)
    print_aim("mean against the own week's, on its seasons", own.rule.mean,
              own.rival.mean + aims.above_own_week);
  const Beside& own_off = beside(off_usual, Rival::own_week);
  if (own_off.rival.count >= fewest_compared)
    print_aim("the same, seasons over a week off the usual", own_off.rule.mean, own_off.rival.mean);
  print_aim("seasons without a word to treat", static_cast<double>(all.without_word), 0.0);
}

std::string choice_words(treatment::Kind kind, Day monday) {
  return fmt::format("{} {}", treatment::name(kind), short_date(monday, true));
}

void print_worst(const std::vector<Case>& cases, std::size_t plan) {
  std::vector<Case> worst;
  std::copy_if(cases.begin(), cases.end(), std::back_inserter(worst),
               [&](const Case& one) { return one.plan == plan; });
  std::stable_sort(worst.begin(), worst.end(),
                   [](const Case& a, const Case& b) { return a.regret > b.regret; });
  worst.resize(std::min(worst.size(), worst_shown));
  fmt::print("Worst seasons of the plan with the highest mean ({})\n", plan_names[plan]);
  for (const Case& one : worst) {
    fmt::print("  {:5.1f}  {} {}: said {}; best {}, {:.0f} points net\n", one.regret, one.station, one.year,
               one.said_monday ? choice_words(one.said_kind, *one.said_monday) : "nothing",
               choice_words(one.best_kind, one.best_monday), one.best_net);
  }
}

}  // namespace

bool print_target(const TargetSettings& target, const Walked& walked, const Aims& aims, double bar) {
  fmt::print(
      "\n{}: {} seasons walked, {} answers asked for. Not judged: {} without an answer, {} in a climate "
      "without a single week.\n",
      target.code, walked.seasons, walked.mondays, walked.refused, walked.no_single_week);
  if (walked.unsaid > 0)
    fmt::print("Left out: {} cases still waiting when the record ended.\n", walked.unsaid);
  fmt::print("Regret in points: mean/95th percentile/worst; each part beyond the first costs its points\n");
  fmt::print("{:<24} {:>5}  {:>14}  {:>14}  {:>14}  {:>14} {:>14} {:>5}\n", "plan", "cases", "this rule",
             fmt::format("{} {}", target.fixed_day.text(), treatment::name(target.fixed_kind)),
             fmt::format("{} {}", target.soil_rule, treatment::name(target.soil_kind)), "own week",
             "rule on those", "cases");
  std::size_t worst_plan = 0;
  double highest = -1.0;
  for (std::size_t plan = 0; plan < plan_count; ++plan) {
    const Scores scores = scores_of(walked.cases, [&](const Case& one) { return one.plan == plan; });
    print_row(plan_names[plan], scores);
    if (scores.rule.mean <= highest) continue;
    highest = scores.rule.mean;
    worst_plan = plan;
  }
  const Scores all = scores_of(walked.cases, [](const Case&) { return true; });
  const Scores off_usual = scores_of(walked.cases, is_off_usual);
  print_row("all plans", all);
  print_row(" of several years", scores_of(walked.cases, [](const Case& one) { return !one.one_year; }));
  print_row(" of one year's record", scores_of(walked.cases, [](const Case& one) { return one.one_year; }));
  print_row(" over a week off usual", off_usual);
  print_aims(all, off_usual, aims);
  print_worst(walked.cases, worst_plan);
  const bool holds = all.rule.mean <= bar && all.without_word == 0;
  fmt::print("Bar: mean over all plans at most {:.2f}, no season without a word: {}\n", bar,
             holds ? "holds" : "BROKEN");
  return holds;
}

std::string csv_of(const std::vector<Case>& cases) {
  std::string text =
      "target,station,season,one_year,plan,said_monday,said_kind,best_monday,best_kind,best_net,regret,"
      "fixed_date,soil_rule,own_week,weeks_off_usual\n";
  const auto number = [](std::optional<double> value) {
    return value ? fmt::format("{:.2f}", *value) : std::string{};
  };
  for (const Case& one : cases) {
    text += fmt::format("{},{},{},{},\"{}\",{},{},{},{},{:.2f},{:.2f},{},{},{},{}\n", one.target, one.station,
                        one.year, one.one_year ? "yes" : "no", plan_names[one.plan],
                        one.said_monday ? iso(*one.said_monday) : std::string{},
                        one.said_monday ? treatment::name(one.said_kind) : std::string_view{},
                        iso(one.best_monday), treatment::name(one.best_kind), one.best_net, one.regret,
                        number(one.rivals[0]), number(one.rivals[1]), number(one.rivals[2]),
                        number(one.weeks_off_usual));
  }
  return text;
}

}  // namespace soilclock::obey
