// SPDX-License-Identifier: MIT
#include "advice/answer/after_application.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "advice/ensemble/quantiles.hpp"
#include "core/number_text.hpp"

namespace soilclock::advice {

namespace {

/// Percent of the season's seedlings still to come up from a day on, middle of the members.
double to_come_percent(const TargetRun& run, Day day) {
  const int before = run.season.day_of_season(day) - 1;
  std::vector<double> to_come;
  for (const TargetMember& member : run.members) to_come.push_back(100.0 - 100.0 * member.curve.at(before));
  return band_of(std::move(to_come)).middle;
}

std::optional<DatedReason> second_pre(const AfterApplication& after, const DecisionInputs& inputs) {
  if (!after.residual_ends) return std::nullopt;
  const double to_come = to_come_percent(*inputs.run, *after.residual_ends);
  const PracticeThresholds& thresholds = inputs.catalogue->practice.thresholds;
  if (to_come < thresholds.second_pre_from.percent()) return std::nullopt;
  const bool firm = to_come >= thresholds.second_pre_firm_from.percent();
  const bool over = *after.residual_ends <= inputs.site->on;
  return DatedReason{
      std::max(monday_of(*after.residual_ends), monday_of(inputs.site->on)),
      fmt::format("the residual of {} {} about {}, with {}% of the season's seedlings still to come: a "
                  "second pre is {}",
                  short_date(*after.residual_on), over ? "was spent" : "is spent",
                  short_date(*after.residual_ends), number_text(to_come, 0),
                  firm ? "due then" : "worth considering then")};
}

const ActingApplication* latest(std::span<const ActingApplication> acting, bool (*counts)(treatment::Kind)) {
  const ActingApplication* found = nullptr;
  for (const ActingApplication& noted : acting) {
    if (counts(noted.kind) && (found == nullptr || noted.day >= found->day)) found = &noted;
  }
  return found;
}

}  // namespace

void add_after_application(TargetAnswer& answer, const DecisionInputs& inputs,
                           std::span<const ActingApplication> acting, const SeasonControl& control) {
  if (acting.empty()) return;
  const DecisionRules& rules = inputs.catalogue->practice.decision;
  const Day on = inputs.site->on;
  AfterApplication after;
  if (const ActingApplication* residual = latest(acting, treatment::has_residual)) {
    after.residual_on = residual->day;
    if (const auto left = control.residual_left(on, residual->day)) {
      after.dose_left_percent = 100.0 * left->dose;
      // One that outlasts the weeks that are timed has no end that matters.
      if (left->spent && *left->spent < *answer.last_useful_week + Days{7}) after.residual_ends = left->spent;
    }
    answer.second_pre = second_pre(after, inputs);
  }
  if (const ActingApplication* foliar = latest(acting, treatment::has_foliar)) {
    after.foliar_on = foliar->day;
    if (on - foliar->day < Days{rules.look_to_days}) {
      after.look =
          DayRange{foliar->day + Days{rules.look_from_days}, foliar->day + Days{rules.look_to_days + 1}};
      // A season that is over stays over.
      if (!answer.weeks.empty()) answer.decision.action = Action::hold_after_treatment;
    }
  }
  answer.after = after;
}

}  // namespace soilclock::advice
