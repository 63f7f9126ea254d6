// SPDX-License-Identifier: MIT
#include "advice/answer/brief.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "advice/answer/learned_effect.hpp"
#include "core/number_text.hpp"
#include "core/text.hpp"

namespace soilclock::advice {

namespace {

using treatment::Kind;

/// With the days fit for spraying and the age of the data, eight lines stand below a headline.
constexpr std::size_t most_brief_lines = 6;

bool may_treat_now(const TargetAnswer& answer) {
  return answer.decision.action == Action::treat || answer.decision.action == Action::any_week;
}

/// Nothing where it would not show in whole points.
std::string would_add(const char* part, double points) {
  return std::round(points) < 1.0
             ? ""
             : fmt::format("{} would add {} points this week", part, number_text(points, 0));
}

/// What the parts of the named kind add this week, and why the others were not named.
std::string why_words(const TargetAnswer& answer) {
  if (!may_treat_now(answer) || answer.weeks.empty()) return "";
  const TreatmentWeek& now = answer.weeks.front().week;
  const double pre = now.of(Kind::pre).control.middle;
  const double both = now.of(Kind::pre_post).control.middle;
  const double post = now.of(Kind::post).control.middle;
  switch (*answer.decision.kind) {
    case Kind::pre_post:
      return fmt::format("this week post adds {} points to pre, and pre adds {} to post",
                         number_text(std::max(0.0, both - pre), 0),
                         number_text(std::max(0.0, both - post), 0));
    case Kind::pre:
      return answer.plan.has_foliar ? would_add("post", both - pre) : "";
    case Kind::post:
      return answer.plan.has_residual ? would_add("pre", both - post) : "";
  }
  return "";
}

/// A climate without a single wave has nothing to count: why, in the first of its reasons.
std::string situation_words(const TargetAnswer& answer) {
  if (answer.decision.action != Action::no_single_week) return emerged_words(answer);
  return answer.reasons.empty() ? "" : answer.reasons.front();
}

/// Where the rule of thumb by percent emerged names another kind than the decision does.
std::string rule_of_thumb_words(const TargetAnswer& answer, const WordContext& context) {
  const bool differs =
      answer.by_percent && answer.decision.kind && *answer.by_percent != *answer.decision.kind;
  if (!may_treat_now(answer) || !differs || answer.weeks.empty()) return "";
  const TreatmentWeek& now = answer.weeks.front().week;
  const double gain =
      now.of(*answer.decision.kind).control.middle - now.of(*answer.by_percent).control.middle;
  const auto& limit = *answer.by_percent == Kind::post ? context.practice->thresholds.post_from
                                                       : context.practice->thresholds.pre_up_to;
  const std::string rule =
      fmt::format("by the {}% rule of thumb this would be {}", number_text(limit.percent(), 0),
                  kind_words(*answer.by_percent, false));
  if (std::round(gain) < 1.0) return rule + ", which gains nothing here";
  return fmt::format("{}; {} gets {} points more", rule, kind_words(*answer.decision.kind, false),
                     number_text(gain, 0));
}

std::string until_words(const TargetAnswer& answer, const WordContext& context) {
  const Decision& decision = answer.decision;
  if (!may_treat_now(answer) || !decision.good_through) return "";
  std::string text = *decision.good_through == monday_of(context.on)
                         ? std::string{"this week only"}
                         : fmt::format("good through {}", short_date(*decision.good_through + Days{6}));
  if (decision.action == Action::treat && *decision.good_through != monday_of(context.on))
    text += "; best " + week_range(decision.best_range->first, decision.best_range->last);
  const std::string waiting = waiting_words(answer);
  return waiting.empty() ? text : text + "; " + waiting;
}

std::string cell_words(const KindAndWeek& cell) {
  return fmt::format("{} from {} gets {}%", treatment::name(cell.kind), short_date(cell.week_of),
                     number_text(cell.control.middle, 0));
}

std::string next_words(const TargetAnswer& answer) {
  const Decision& decision = answer.decision;
  std::vector<std::string> parts;
  if (answer.second_pre) parts.push_back(answer.second_pre->why);
  if (decision.then && may_treat_now(answer)) parts.push_back("then " + cell_words(*decision.then));
  if (answer.next_look)
    parts.push_back(fmt::format("{}: {}", short_date(answer.next_look->date), answer.next_look->why));
  return fmt::format("{}", fmt::join(parts, "; "));
}

std::string passed_words(const TargetAnswer& answer) {
  const Decision& decision = answer.decision;
  if (!decision.late || !decision.kind) return "";
  return fmt::format("the best weeks have passed ({}, {}%){}",
                     week_range(decision.late->first, decision.late->last),
                     number_text(decision.late_control.middle, 0),
                     may_treat_now(answer)
                         ? fmt::format("; this week still gets {}%", number_text(decision.control->middle, 0))
                         : "");
}

std::string close_call_words(const TargetAnswer& answer) {
  const Decision& decision = answer.decision;
  if (!decision.close_call || !decision.control) return "";
  return fmt::format("{} gets {}% (at least {}%), {} (at least {}%)", treatment::name(*decision.kind),
                     number_text(decision.control->middle, 0), number_text(decision.control->low, 0),
                     cell_words(*decision.close_call), number_text(decision.close_call->control.low, 0));
}

std::string weeks_words(const Band<double>& weeks) {
  return std::round(weeks.low) == std::round(weeks.high)
             ? fmt::format("{}-week residual", number_text(weeks.middle, 0))
             : fmt::format("residual of {} to {} weeks", number_text(weeks.low, 0),
                           number_text(weeks.high, 0));
}

/// Nothing where one spray does it.
std::string sprays_words(const PlanShown& plan) {
  if (plan.more_sprays.empty()) return "";
  return fmt::format("; figures of {} are for two sprays three weeks apart",
                     fmt::join(plan.more_sprays, ", "));
}

/// The classes of plan of one residual: best weeks and control, contact post before translocated.
std::string class_words(const TargetAnswer& answer, bool long_residual) {
  std::vector<const Decision*> decisions;
  for (const OtherPlan& other : answer.other_plans) {
    if (other.long_residual == long_residual && other.decision.kind) decisions.push_back(&other.decision);
  }
  if (decisions.empty()) return "nothing left";
  std::string text;
  const Decision* before = nullptr;
  for (const Decision* decision : decisions) {
    const bool same = before != nullptr && before->kind == decision->kind &&
                      before->best_range->first == decision->best_range->first;
    if (before != nullptr) text += same ? " or " : "; or ";
    if (same && number_text(before->control->middle, 0) == number_text(decision->control->middle, 0)) {
      text.resize(text.size() - 4);
      continue;
    }
    if (!same)
      text += fmt::format("{} from {} ", treatment::name(*decision->kind),
                          short_date(decision->best_range->first));
    text += fmt::format("{}%", number_text(decision->control->middle, 0));
    before = decision;
  }
  return text;
}

/// What the four classes of plan would change, in one line, where none is given.
std::string other_plans_words(const TargetAnswer& answer) {
  if (answer.other_plans.empty()) return "";
  const std::string of_short = class_words(answer, false);
  const std::string of_long = class_words(answer, true);
  std::string text = fmt::format("none given. Short residual: {}. Long: {}", of_short, of_long);
  if ((of_short + of_long).find(" or ") != std::string::npos) text += " (contact or translocated post)";
  return text + sprays_words(answer.plan);
}

/// Nothing is planned while an application holds everything else.
std::string plan_line(const TargetAnswer& answer) {
  if (answer.decision.action == Action::hold_after_treatment) return "";
  return answer.plan.given ? plan_words(answer) : other_plans_words(answer);
}

std::string covered_words(const TargetAnswer& answer, Day on) {
  if (!answer.after || !answer.after->residual_on || !answer.after->dose_left_percent) return "";
  const AfterApplication& after = *answer.after;
  if (!after.residual_ends)
    return fmt::format("the residual of {} lasts through this season", short_date(*after.residual_on));
  if (*after.residual_ends <= on)
    return fmt::format("the residual of {} was spent about {}", short_date(*after.residual_on),
                       short_date(*after.residual_ends));
  return fmt::format("the residual of {} has {}% of its dose left and is spent about {}",
                     short_date(*after.residual_on), number_text(*after.dose_left_percent, 0),
                     short_date(*after.residual_ends));
}

/// Cautions of this week that do not stop the named kind.
std::string caution_words(const TargetAnswer& answer, const WordContext& context) {
  if (answer.weeks.empty() || !answer.decision.kind || !may_treat_now(answer)) return "";
  std::vector<std::string> parts;
  for (const treatment::Gate& gate : answer.weeks.front().gates) {
    const bool concerns = (gate.residual && treatment::has_residual(*answer.decision.kind)) ||
                          (gate.foliar && treatment::has_foliar(*answer.decision.kind));
    if (!gate.stops && concerns) parts.push_back(treatment::sentence(gate, *context.gates));
  }
  return fmt::format("{}", fmt::join(parts, "; "));
}

/// The remark that matters most, by what it may change; else what the figures rest on.
std::string doubt_words(const TargetAnswer& answer) {
  static constexpr std::array codes{"model-and-field-disagree",
                                    "models-differ",
                                    "pre-band-wide",
                                    "barely-warm-summers",
                                    "spread-over-cool-season",
                                    "few-past-seasons",
                                    "outside-validity",
                                    "rain-unknown",
                                    "control-basis"};
  for (const char* code : codes) {
    for (const Remark& remark : answer.remarks) {
      if (remark.code == code) return remark.text;
    }
  }
  return "";
}

}  // namespace

std::string waiting_words(const TargetAnswer& answer) {
  if (!may_treat_now(answer)) return "";
  const auto& costs = answer.decision.cost_of_waiting;
  static constexpr std::array weeks{"one week", "two weeks", "three weeks"};
  std::string text;
  for (std::size_t i = 0; i < costs.size(); ++i) {
    if (!costs[i]) break;
    if (*costs[i] < 1.0) continue;
    // Of weeks that cost the same points the last one is named: waiting never gets cheaper.
    const bool same_next =
        i + 1 < costs.size() && costs[i + 1] && std::round(*costs[i + 1]) == std::round(*costs[i]);
    if (same_next) continue;
    const char* unit = !text.empty() ? "" : std::round(*costs[i]) == 1.0 ? " point" : " points";
    text += fmt::format("{}{}{} in {}", text.empty() ? "" : ", ", number_text(*costs[i], 0), unit, weeks[i]);
  }
  if (!costs[0]) return "no useful week after it";
  if (text.empty())
    return costs[2] ? "waiting three weeks costs less than a point"
                    : "waiting a week costs less than a point";
  return "waiting costs up to " + text + (costs[2] ? "" : ", then no useful week is left");
}

std::string plan_words(const TargetAnswer& answer) {
  const PlanShown& plan = answer.plan;
  if (!plan.given) return "";
  std::vector<std::string> parts;
  if (!plan.entries.empty()) parts.push_back(fmt::format("{}", fmt::join(plan.entries, " + ")));
  parts.push_back(plan.residual_weeks ? weeks_words(*plan.residual_weeks) : std::string{"no residual"});
  if (!plan.has_foliar)
    parts.emplace_back("no post part");
  else if (plan.foliar)
    parts.push_back(fmt::format("{} post", treatment::name(*plan.foliar)));
  std::string text = fmt::format("{}", fmt::join(parts, ", "));
  if (plan.missing_part_gains)
    text += fmt::format("; adding {} would gain up to {} points", plan.has_foliar ? "a pre" : "a post",
                        number_text(*plan.missing_part_gains, 0));
  if (!plan.not_counted.empty())
    text += fmt::format("; not counted here for lack of figures: {}", fmt::join(plan.not_counted, ", "));
  return text + sprays_words(plan);
}

std::vector<BriefLine> brief_lines(const TargetAnswer& answer, const WordContext& context) {
  if (answer.decision.action == Action::nothing_left) return {};
  /// In reading order, each with its rank: the lowest ranks stay.
  struct Candidate {
    int rank;
    BriefLine line;
  };
  std::vector<Candidate> candidates{{2, {"late", passed_words(answer)}},
                                    {1, {"why", situation_words(answer)}},
                                    {3, {"learned", answer.learned ? learned_clause(*answer.learned) : ""}},
                                    {8, {"parts", why_words(answer)}},
                                    {1, {"until", until_words(answer, context)}},
                                    {4, {"close call", close_call_words(answer)}},
                                    {1, {"applied", covered_words(answer, context.on)}},
                                    {1, {"next", next_words(answer)}},
                                    {0, {"caution", caution_words(answer, context)}},
                                    {5, {"plan", plan_line(answer)}},
                                    {7, {"rule of thumb", rule_of_thumb_words(answer, context)}},
                                    {6, {"doubt", doubt_words(answer)}}};
  std::erase_if(candidates, [](const Candidate& candidate) { return candidate.line.text.empty(); });
  while (candidates.size() > most_brief_lines) {
    candidates.erase(std::max_element(candidates.begin(), candidates.end(),
                                      [](const auto& a, const auto& b) { return a.rank < b.rank; }));
  }
  std::vector<BriefLine> lines;
  lines.reserve(candidates.size());
  for (Candidate& candidate : candidates) lines.push_back(std::move(candidate.line));
  return lines;
}

}  // namespace soilclock::advice
