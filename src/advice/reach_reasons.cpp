// SPDX-License-Identifier: MIT
#include "advice/reach_reasons.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace soilclock::advice {

namespace {

using treatment::BestWeek;
using treatment::Kind;
using treatment::KindReason;
using treatment::Limit;

std::string band_words(const Band<double>& points) {
  return fmt::format("{:.0f} of 100 ({:.0f} to {:.0f})", points.middle, points.low, points.high);
}

std::string verdict_words(const treatment::WeekVerdict& verdict) {
  switch (verdict.reason) {
    case KindReason::too_early:
      return "It is too early: what a residual would meet is still weeks away.";
    case KindReason::residual_working:
      return "The residual you logged is still working and little is left standing: hold.";
    case KindReason::residual_is_enough:
      return "So little is up that a residual alone does nearly as much as a mixture.";
    case KindReason::both_needed:
      return fmt::format(
          "Both parts count this week: without the foliar part {:.0f}, without the residual {:.0f} of 100 "
          "seedlings "
          "more would be left.",
          verdict.foliar_would_add_points, verdict.residual_would_add_points);
    case KindReason::mostly_up:
      return fmt::format("Most of the season's seedlings are up; a residual would still add {:.0f} of 100.",
                         verdict.residual_would_add_points);
    case KindReason::logged_residual_spent:
      break;
  }
  return fmt::format(
      "The residual you logged is spent and about {:.0f} % are still to come: a second one is {}.",
      verdict.to_come_percent, verdict.firm ? "due" : "worth asking");
}

/// What waiting costs at most up to one, two, three weeks: a warm week after a cold one is no reason to wait
/// twice.
std::string waiting_words(const BestWeek& best) {
  std::string text;
  const char* weeks[] = {"one week", "two", "three"};
  double most = 0.0;
  for (std::size_t i = 0; i < best.cost_of_waiting.size(); ++i) {
    if (!best.cost_of_waiting[i]) continue;
    most = std::max(most, *best.cost_of_waiting[i]);
    text += fmt::format("{}{} {:.0f}", text.empty() ? "" : ", ", weeks[i], most);
  }
  return text;
}

std::string limit_words(Limit limit) {
  switch (limit) {
    case Limit::residual_spent:
      return "before that the residual is spent too soon";
    case Limit::residual_alone:
      return "before that the residual has to do it alone";
    case Limit::plants_to_come:
      return "before that too few are up";
    case Limit::plants_up:
      return "after that too many are up for a residual";
    case Limit::stage:
      return "after that plants get too old";
    case Limit::cold:
      return "after that days get too cold";
    case Limit::none:
      break;
  }
  return "";
}

void say_best(TargetAnswer& answer, const BestWeek& best, Day this_week) {
  std::string text = fmt::format("Best week, with {}: {}that of {}, reaching {}", treatment::name(best.kind),
                                 best.week_of == this_week ? "this one, " : "", short_date(best.week_of),
                                 band_words(best.points));
  if (best.window_first < best.window_last) {
    text += fmt::format("; within five of it from {} to {}", short_date(best.window_first),
                        short_date(best.window_last + Days{6}));
  }
  for (const Limit limit : {best.early, best.late}) {
    if (limit != Limit::none) text += "; " + limit_words(limit);
  }
  const std::string waiting = waiting_words(best);
  if (!waiting.empty()) text += "; waiting beyond the best week costs, of 100 at the careful end, " + waiting;
  answer.reasons.push_back(text + ".");
}

void say_turf(TargetAnswer& answer, const treatment::TurfReading& turf) {
  if (answer.state == State::stop) {
    answer.reasons.push_back("The turf is greening up: no post treatment until it is fully green.");
  }
  if (answer.state == State::post && turf.state == treatment::TurfState::likely_dormant &&
      !turf.seen_dormant) {
    answer.remarks.push_back({"look-before-dormant",
                              "The turf is likely dormant; a clean-up that spares no green needs a look by "
                              "eye first (soilclock log add check)."});
  }
}

}  // namespace

void explain_reach(TargetAnswer& answer, const std::optional<treatment::TurfReading>& turf) {
  if (turf) say_turf(answer, *turf);
  if (!answer.reach) return;
  const treatment::WeekReach& now = answer.reach->reach.weeks.front();
  if (answer.treated_on) {
    answer.reasons.push_back(fmt::format(
        "You noted a treatment on {}: two to four weeks later survivors can be told; look then, before "
        "any other. What it has reached is taken off below.",
        short_date(*answer.treated_on)));
  } else if (answer.reach->starts_this_week) {
    answer.reasons.push_back(fmt::format("{} Reach of a treatment this week: pre {}, pre+post {}, post {}.",
                                         verdict_words(answer.reach->this_week),
                                         band_words(now.of(Kind::pre)), band_words(now.of(Kind::pre_post)),
                                         band_words(now.of(Kind::post))));
  }
  if (answer.reach->second_due && *answer.reach->second_due > now.week_of) {
    answer.reasons.push_back(fmt::format(
        "The residual you logged will be spent, with seedlings still to come, about the week of {}: a "
        "second one is due then.",
        short_date(*answer.reach->second_due)));
  }
  if (answer.reach->best && !answer.treated_on) say_best(answer, *answer.reach->best, now.week_of);
  answer.remarks.push_back(
      {"reach-is-derived", answer.target == "POAAN"
                               ? "Reach comes from a cohort model and kill rates chosen with dated trials in "
                                 "view: good for comparing "
                                 "weeks, no promise of control."
                               : "Reach comes from a cohort model with the kill rates of annual bluegrass: "
                                 "no trial on this grass "
                                 "stands behind it, so take it for comparing weeks only."});
}

}  // namespace soilclock::advice
