// SPDX-License-Identifier: MIT
#include "advice/answer/target_decision.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <numeric>

#include "advice/answer/after_application.hpp"
#include "advice/answer/disagreement.hpp"
#include "advice/answer/next_look.hpp"
#include "advice/decision/week_gates.hpp"
#include "advice/ensemble/quantiles.hpp"
#include "treatment/green_up.hpp"

namespace soilclock::advice {

namespace {

using treatment::Kind;
using treatment::TreatmentParts;

/// Mondays of a season before this week, this week from the day of the answer on, and the Mondays after it up
/// to the last useful week.
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

GateFacts gate_facts(const DecisionInputs& inputs, const treatment::TankPlan& plan,
                     const TreatmentParts& parts) {
  GateFacts facts{inputs.turf_facts->species,
                  *inputs.turf,
                  inputs.turf_facts->overseed_on,
                  treatment::seeding_weeks_of(plan.entries),
                  {}};
  if (plan.entries.empty()) return facts;
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
  std::vector<std::size_t> members;
  bool treated = false;        ///< something was put down in the passed weeks
  bool models_differ = false;  ///< the component models tell two stories

  const DecisionRules& rules() const { return inputs.catalogue->practice.decision; }
  const treatment::GrassControl& grass() const {
    return inputs.catalogue->control_of(inputs.run->job.target->code);
  }
  TreatmentParts parts(const treatment::TankPlan& plan) const {
    return treatment::parts_of(plan, grass(), *inputs.resistant, inputs.catalogue->actives);
  }
  std::vector<WeekGates> gates(std::span<const Day> treated_days, const GateFacts& facts) const {
    return gates_of_weeks(*inputs.run, *inputs.runs, *inputs.scenarios, *inputs.catalogue, treated_days,
                          inputs.site->on, facts);
  }
};

/// What is decided for one plan, and from what.
struct PlanOutcome {
  Decision decision;
  TreatmentParts parts;
  std::vector<WeekGates> gates;      ///< of the weeks left in which the season has begun
  std::vector<TreatmentWeek> table;  ///< of the weeks left
  std::vector<TreatmentWeek> passed;
};

/// The weeks that have passed, from their points.
std::vector<TreatmentWeek> passed_weeks(const MemberPoints& points, const Desk& desk,
                                        const TreatmentParts& parts, GateFacts facts) {
  const std::vector<Day>& days = desk.weeks.passed;
  facts.turf.reset();
  const std::vector<WeekGates> gates = desk.gates(days, facts);
  auto table = weeks_of(points, days, desk.members);
  for (std::size_t i = 0; i < table.size(); ++i) {
    apply(gates[i], table[i]);
    forbid_lacking(parts, table[i]);
  }
  return table;
}

enum class Passed { left_out, compared };

/// Decides from the points of the weeks left; parts, gates and passed weeks stand in `outcome`.
void decide_from(const MemberPoints& points, const Desk& desk, PlanOutcome& outcome) {
  const auto table = [&](std::span<const std::size_t> members) {
    return table_of(points, desk.weeks, members, outcome.gates, outcome.parts);
  };
  outcome.table = table(desk.members);
  outcome.decision = decide(outcome.table, outcome.passed, desk.rules());
  if (outcome.table.empty()) outcome.decision.action = Action::nothing_left;
  const auto of_some = [&](std::span<const std::size_t> members) {
    return decide(table(members), {}, desk.rules());
  };
  if (desk.models_differ && models_name_different_kinds(*desk.inputs.run, desk.rules(), of_some))
    outcome.decision.action = Action::scout;
}

PlanOutcome outcome_of(const treatment::TankPlan& plan, const Desk& desk, Passed passed) {
  PlanOutcome outcome;
  outcome.parts = desk.parts(plan);
  const GateFacts facts = gate_facts(desk.inputs, plan, outcome.parts);
  outcome.gates = desk.gates(desk.weeks.left, facts);
  // Weeks that have passed are compared with only while nothing was put down in them.
  std::vector<Day> days;
  if (passed == Passed::compared && !desk.treated) days = desk.weeks.passed;
  const auto before = static_cast<std::ptrdiff_t>(days.size());
  days.insert(days.end(), desk.weeks.left.begin(), desk.weeks.left.end());
  MemberPoints points = desk.control.points(outcome.parts, days);
  const MemberPoints left{std::make_move_iterator(points.begin() + before),
                          std::make_move_iterator(points.end())};
  points.resize(static_cast<std::size_t>(before));
  if (!points.empty()) outcome.passed = passed_weeks(points, desk, outcome.parts, facts);
  decide_from(left, desk, outcome);
  return outcome;
}

void add_missing_part(PlanShown& plan, const Desk& desk, const PlanOutcome& outcome) {
  if (plan.has_residual && plan.has_foliar) return;
  TreatmentParts both = outcome.parts;
  const TreatmentParts unnamed = treatment::unnamed_parts(desk.grass());
  if (both.residual.empty()) both.residual = unnamed.residual;
  if (both.foliar.empty()) both.foliar = unnamed.foliar;
  const auto table =
      table_of(desk.control.points(both, desk.weeks.left), desk.weeks, desk.members, outcome.gates, both);
  const double gain = best_score(table) - best_score(outcome.table);
  if (gain >= desk.rules().adding_part_worth) plan.missing_part_gains = gain;
}

/// `gates` are those of a plan that names no actives, as none of these does.
void add_other_plans(TargetAnswer& answer, const Desk& desk, const std::vector<WeekGates>& gates) {
  constexpr std::array foliars{treatment::FoliarClass::contact, treatment::FoliarClass::translocated};
  for (const bool long_residual : {false, true}) {
    std::vector<TreatmentParts> parts;
    for (const auto foliar : foliars) {
      treatment::TankPlan plan;
      plan.residual_weeks =
          long_residual ? desk.rules().long_residual_weeks : desk.rules().short_residual_weeks;
      plan.foliar = foliar;
      parts.push_back(desk.parts(plan));
    }
    const std::vector<MemberPoints> points = desk.control.points(parts, desk.weeks.left);
    for (std::size_t i = 0; i < foliars.size(); ++i) {
      PlanOutcome outcome{{}, parts[i], gates, {}, {}};
      decide_from(points[i], desk, outcome);
      answer.other_plans.push_back({long_residual, foliars[i], outcome.decision});
    }
  }
}

void add_compared_plans(TargetAnswer& answer, const Desk& desk) {
  const bool tables = desk.inputs.plan_tables;
  for (const treatment::TankPlan& plan : desk.inputs.compared_plans) {
    PlanOutcome outcome = outcome_of(plan, desk, tables ? Passed::compared : Passed::left_out);
    ComparedPlan compared{outcome.decision, {}, {}};
    if (tables) {
      compared.weeks = std::move(outcome.table);
      compared.passed = std::move(outcome.passed);
    }
    answer.compared_plans.push_back(std::move(compared));
  }
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
  Day last = rules.fall_last_day.in(season);
  if (inputs.turf_facts->species != treatment::TurfSpecies::cool_season) {
    const treatment::GreenUp turf{season.days(), season.hemisphere, inputs.catalogue->turf};
    std::vector<std::optional<int>> days;
    for (const TargetMember& member : inputs.run->members) {
      const DayRange green_up = turf.in(inputs.runs->soil[member.scenario]);
      days.push_back(green_up.empty() ? std::nullopt : std::optional{season.day_of_season(green_up.begin())});
    }
    if (const auto middle = day_band_of(std::move(days)).middle)
      last = std::min(last, season.first + Days{*middle});
  }
  return monday_of(last - Days{1});
}

Decision decide_in_hindsight(const DecisionInputs& inputs, Day last_useful) {
  SeasonWeeks weeks = season_weeks(inputs.run->season, inputs.site->on, last_useful);
  std::erase_if(weeks.passed, [&](Day monday) { return monday > last_useful; });
  const SeasonControl control{*inputs.run,       *inputs.runs, *inputs.scenarios,
                              *inputs.catalogue, {},           inputs.seed};
  const Desk desk{inputs, control, weeks, all_members(*inputs.run)};
  const TreatmentParts parts = desk.parts(*inputs.plan);
  return decide(
      passed_weeks(control.points(parts, weeks.passed), desk, parts, gate_facts(inputs, *inputs.plan, parts)),
      {}, desk.rules());
}

Decision decide_ahead(const DecisionInputs& inputs, Day last_useful) {
  const SeasonWeeks weeks = season_weeks(inputs.run->season, inputs.site->on, last_useful);
  const SeasonControl control{*inputs.run,       *inputs.runs, *inputs.scenarios,
                              *inputs.catalogue, {},           inputs.seed};
  const Desk desk{inputs, control, weeks, all_members(*inputs.run)};
  return outcome_of(*inputs.plan, desk, Passed::left_out).decision;
}

void decide_target(TargetAnswer& answer, const DecisionInputs& inputs) {
  const DecisionRules& rules = inputs.catalogue->practice.decision;
  const Day on = inputs.site->on;
  const std::vector<ActingApplication> acting = acting_applications(inputs);
  answer.last_useful_week = last_useful_week(answer, inputs);
  const SeasonWeeks weeks = season_weeks(inputs.run->season, on, *answer.last_useful_week);
  const SeasonControl control{*inputs.run,       *inputs.runs, *inputs.scenarios,
                              *inputs.catalogue, acting,       inputs.seed};
  answer.models_disagree = disagreement(answer, *inputs.run, on, rules);
  const Desk desk{
      inputs, control, weeks, all_members(*inputs.run), !acting.empty(), answer.models_disagree.has_value()};
  const PlanOutcome outcome = outcome_of(*inputs.plan, desk, Passed::compared);
  answer.decision = outcome.decision;
  answer.plan = shown_plan(inputs, outcome.parts);
  for (std::size_t i = 0; i < outcome.table.size(); ++i) {
    const bool known = i >= weeks.before_season.size();
    answer.weeks.push_back({outcome.table[i], known ? outcome.gates[i - weeks.before_season.size()].gates
                                                    : std::vector<treatment::Gate>{}});
  }
  add_missing_part(answer.plan, desk, outcome);
  if (!answer.plan.given && inputs.compared_plans.empty()) add_other_plans(answer, desk, outcome.gates);
  add_compared_plans(answer, desk);
  add_after_application(answer, inputs, acting, control);
  answer.next_look = next_look(answer, inputs.run->season.kind, on, rules);
}

}  // namespace soilclock::advice
