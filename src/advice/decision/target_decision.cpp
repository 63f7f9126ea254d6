// SPDX-License-Identifier: MIT
#include "advice/decision/target_decision.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "advice/decision/after_application.hpp"
#include "advice/decision/disagreement.hpp"
#include "advice/decision/next_look.hpp"
#include "advice/decision/week_gates.hpp"
#include "advice/quantiles.hpp"
#include "treatment/green_up.hpp"

namespace soilclock::advice {

namespace {

using treatment::Kind;
using treatment::TreatmentParts;

/// Mondays of a season before this week, this week from the day of the answer on, and the Mondays after it up to
/// the last useful week.
struct SeasonWeeks {
  std::vector<Day> passed;
  std::vector<Day> before_season;  ///< Mondays of weeks to come in which the season has not begun
  std::vector<Day> left;
};

SeasonWeeks season_weeks(const Season& season, Day on, Day last) {
  SeasonWeeks weeks;
  const Day this_week = monday_of(on);
  for (Day monday = monday_of(season.first) + Days{7}; monday < this_week; monday += Days{7})
    weeks.passed.push_back(monday);
  for (Day monday = this_week; monday < season.first; monday += Days{7}) {
    if (on < season.first) weeks.before_season.push_back(monday);
  }
  if (on >= season.first && this_week <= last) weeks.left.push_back(on);
  for (Day monday = std::max(this_week, monday_of(season.first)) + Days{7}; monday <= last; monday += Days{7})
    weeks.left.push_back(monday);
  return weeks;
}

std::vector<std::size_t> all_members(const TargetRun& run) {
  std::vector<std::size_t> members(run.members.size());
  std::iota(members.begin(), members.end(), std::size_t{0});
  return members;
}

/// The table of a treatment: what the plan lacks and what is gated is not allowed.
std::vector<TreatmentWeek> table_of(const MemberPoints& points, const SeasonWeeks& weeks,
                                    std::span<const std::size_t> members, std::span<const WeekGates> gates,
                                    const TreatmentParts& parts) {
  std::vector<TreatmentWeek> table;
  for (const Day monday : weeks.before_season) {
    TreatmentWeek row;
    row.week_of = monday;
    for (KindInWeek& kind : row.kinds) kind.allowed = false;
    table.push_back(row);
  }
  for (TreatmentWeek& row : weeks_of(points, weeks.left, members)) table.push_back(row);
  for (std::size_t i = 0; i < gates.size(); ++i) apply(gates[i], table[i + weeks.before_season.size()]);
  for (TreatmentWeek& row : table) forbid_lacking(parts, row);
  return table;
}

PlanShown shown_plan(const DecisionInputs& inputs, const TreatmentParts& parts) {
  PlanShown shown;
  shown.given = inputs.plan->given();
  for (const treatment::PlanEntry& entry : inputs.plan->entries) shown.entries.push_back(entry.text);
  shown.foliar = inputs.plan->foliar;
  shown.has_residual = !parts.residual.empty();
  shown.has_foliar = !parts.foliar.empty();
  for (const treatment::ResidualPart& part : parts.residual) {
    if (shown.residual_weeks && shown.residual_weeks->high >= part.weeks.most) continue;
    shown.residual_weeks = {part.weeks.least, 0.5 * (part.weeks.least + part.weeks.most), part.weeks.most};
  }
  shown.not_counted = parts.not_counted;
  shown.more_sprays = parts.more_sprays;
  return shown;
}

GateFacts gate_facts(const DecisionInputs& inputs, const TreatmentParts& parts) {
  GateFacts facts{inputs.turf_facts->species, *inputs.turf, inputs.turf_facts->overseed_on,
                  treatment::seeding_weeks_of(inputs.plan->entries), {}};
  if (inputs.plan->entries.empty()) return facts;
  for (const treatment::ResidualPart& part : parts.residual) facts.residual_groups.push_back(part.group);
  return facts;
}

double best_score(const std::vector<TreatmentWeek>& weeks) {
  double best = 0.0;
  for (const TreatmentWeek& week : weeks) {
    for (const Kind kind : treatment::all_kinds) best = std::max(best, week.score(kind).value_or(0.0));
  }
  return best;
}

/// Everything the tables of one target are made from.
struct Desk {
  const DecisionInputs& inputs;
  const SeasonControl& control;
  const SeasonWeeks& weeks;
  std::span<const WeekGates> gates;
  std::vector<std::size_t> members;

  std::vector<TreatmentWeek> table(const TreatmentParts& parts) const {
    return table_of(control.points(parts, weeks.left), weeks, members, gates, parts);
  }
};

void add_missing_part(PlanShown& plan, const Desk& desk, const TreatmentParts& parts, double best) {
  if (plan.has_residual && plan.has_foliar) return;
  const auto& grass = desk.inputs.catalogue->control_of(desk.inputs.run->job.target->code);
  TreatmentParts both = parts;
  const TreatmentParts unnamed = treatment::unnamed_parts(grass);
  if (both.residual.empty()) both.residual = unnamed.residual;
  if (both.foliar.empty()) both.foliar = unnamed.foliar;
  const double gain = best_score(desk.table(both)) - best;
  if (gain >= desk.inputs.catalogue->practice.decision.adding_part_worth) plan.missing_part_gains = gain;
}

void add_other_plans(TargetAnswer& answer, const Desk& desk) {
  const DecisionRules& rules = desk.inputs.catalogue->practice.decision;
  const auto& grass = desk.inputs.catalogue->control_of(desk.inputs.run->job.target->code);
  for (const bool long_residual : {false, true}) {
    for (const auto foliar : {treatment::FoliarClass::contact, treatment::FoliarClass::translocated}) {
      treatment::TankPlan plan;
      plan.residual_weeks = long_residual ? rules.long_residual_weeks : rules.short_residual_weeks;
      plan.foliar = foliar;
      const TreatmentParts parts =
          treatment::parts_of(plan, grass, *desk.inputs.resistant, desk.inputs.catalogue->actives);
      answer.other_plans.push_back({long_residual, foliar, decide(desk.table(parts), {}, rules)});
    }
  }
}

/// Weeks that have passed are compared with only while nothing was put down in them.
std::vector<TreatmentWeek> passed_weeks(const Desk& desk, const TreatmentParts& parts, bool treated) {
  if (treated || desk.weeks.passed.empty()) return {};
  auto table = weeks_of(desk.control.points(parts, desk.weeks.passed), desk.weeks.passed, desk.members);
  for (TreatmentWeek& row : table) forbid_lacking(parts, row);
  return table;
}

}  // namespace

std::vector<ActingApplication> acting_applications(const DecisionInputs& inputs) {
  const SiteWeather& site = *inputs.site;
  const auto& grass = inputs.catalogue->control_of(inputs.run->job.target->code);
  std::vector<ActingApplication> acting;
  for (const SiteApplication& noted : inputs.log->applications) {
    if (noted.day >= site.on || !inputs.run->season.days().contains(noted.day)) continue;
    ActingApplication application{noted.day, noted.kind, {}, noted.share_of_dose, {}};
    application.parts = noted.entries.empty()
                            ? treatment::unnamed_parts(grass)
                            : treatment::parts_of({noted.entries, {}, {}}, grass, *inputs.resistant,
                                                  inputs.catalogue->actives);
    application.activation_delay_days =
        noted.watered_in_after_days
            ? noted.watered_in_after_days
            : treatment::days_until_activated(site.daily.rain, noted.day, site.irrigation.irrigated,
                                              inputs.catalogue->residual);
    acting.push_back(std::move(application));
  }
  return acting;
}

Day last_useful_week(const TargetAnswer& answer, const DecisionInputs& inputs) {
  const Season& season = inputs.run->season;
  const DecisionRules& rules = inputs.catalogue->practice.decision;
  if (season.kind == SeasonKind::summer) {
    for (const Milestone& milestone : answer.milestones) {
      if (milestone.percent != 90 || !milestone.date.middle) continue;
      return monday_of(*milestone.date.middle + Days{rules.summer_days_after_90});
    }
    return monday_of(season.end() - Days{1});
  }
  // The practice day is of the northern calendar; the south is half a year away.
  const int month = season.hemisphere == Hemisphere::north ? rules.fall_last_month
                                                           : (rules.fall_last_month + 5) % 12 + 1;
  Day last = make_day(civil(season.first).year, static_cast<unsigned>(month),
                      static_cast<unsigned>(rules.fall_last_day));
  if (last < season.first) {
    last = make_day(civil(season.first).year + 1, static_cast<unsigned>(month),
                    static_cast<unsigned>(rules.fall_last_day));
  }
  if (inputs.turf_facts->species != treatment::TurfSpecies::cool_season) {
    std::vector<std::optional<int>> days;
    for (const TargetMember& member : inputs.run->members) {
      const DayRange green_up = treatment::green_up_days(inputs.runs->soil[member.scenario], season.first,
                                                         season.hemisphere, inputs.catalogue->turf);
      days.push_back(green_up.empty() ? std::nullopt
                                      : std::optional{season.day_of_season(green_up.begin())});
    }
    if (const auto middle = day_band_of(std::move(days)).middle)
      last = std::min(last, season.first + Days{*middle});
  }
  return monday_of(last - Days{1});
}

void decide_target(TargetAnswer& answer, const DecisionInputs& inputs) {
  const DecisionRules& rules = inputs.catalogue->practice.decision;
  const Day on = inputs.site->on;
  const auto& grass = inputs.catalogue->control_of(inputs.run->job.target->code);
  const TreatmentParts parts =
      treatment::parts_of(*inputs.plan, grass, *inputs.resistant, inputs.catalogue->actives);
  answer.plan = shown_plan(inputs, parts);
  const std::vector<ActingApplication> acting = acting_applications(inputs);
  answer.last_useful_week = last_useful_week(answer, inputs);
  const SeasonWeeks weeks = season_weeks(inputs.run->season, on, *answer.last_useful_week);
  const SeasonControl control{*inputs.run,       *inputs.runs, *inputs.scenarios,
                              *inputs.catalogue, acting,       inputs.seed};
  const std::vector<WeekGates> gates =
      gates_of_weeks(*inputs.run, *inputs.runs, *inputs.scenarios, *inputs.catalogue, weeks.left, on,
                     gate_facts(inputs, parts));
  const Desk desk{inputs, control, weeks, gates, all_members(*inputs.run)};
  const MemberPoints points = control.points(parts, weeks.left);
  const std::vector<TreatmentWeek> table = table_of(points, weeks, desk.members, gates, parts);
  answer.decision = decide(table, passed_weeks(desk, parts, !acting.empty()), rules);
  if (table.empty()) answer.decision.action = Action::nothing_left;
  for (std::size_t i = 0; i < table.size(); ++i) {
    const bool known = i >= weeks.before_season.size();
    answer.weeks.push_back({table[i], known ? gates[i - weeks.before_season.size()].gates
                                            : std::vector<treatment::Gate>{}});
  }
  answer.models_disagree = disagreement(answer, *inputs.run, on, rules);
  if (answer.models_disagree &&
      models_name_different_kinds(*inputs.run, rules, [&](std::span<const std::size_t> members) {
        return decide(table_of(points, weeks, members, gates, parts), {}, rules);
      })) {
    answer.decision.action = Action::scout;
  }
  add_missing_part(answer.plan, desk, parts, best_score(table));
  if (!answer.plan.given) add_other_plans(answer, desk);
  add_after_application(answer, inputs, acting, control);
  answer.next_look = next_look(answer, inputs.run->season.kind, on, rules);
}

}  // namespace soilclock::advice
