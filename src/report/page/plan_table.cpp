// SPDX-License-Identifier: MIT
// The plan an answer is for, or what the four classes of plan would change.
#include <fmt/format.h>

#include "advice/answer/words.hpp"
#include "core/number_text.hpp"
#include "report/page/page_parts.hpp"

namespace soilclock::report {

namespace {

void write_class(Markup& page, const advice::OtherPlan& other) {
  page.open("tr");
  page.element("th",
               fmt::format("{}, {}", other.long_residual ? "long" : "short", treatment::name(other.foliar)),
               {{"scope", "row"}});
  const advice::Decision& decision = other.decision;
  if (decision.kind && decision.best_range && decision.control) {
    page.element("td", treatment::name(*decision.kind));
    page.element("td", advice::week_range(decision.best_range->first, decision.best_range->last));
    page.element("td", fmt::format("{}%", number_text(decision.control->middle, 0)), {{"class", "n"}});
    page.element("td", fmt::format("{}%", number_text(decision.control->low, 0)), {{"class", "n"}});
  } else {
    page.element("td", "nothing left", {{"colspan", "4"}});
  }
  page.close();
}

}  // namespace

void write_plan(Markup& page, const advice::TargetAnswer& target) {
  if (target.plan.given) {
    page.open("p", {{"class", "plan"}});
    page.element("strong", "For the plan: ");
    page.text(target.plan.words + ".");
    page.close();
    return;
  }
  if (target.other_plans.empty()) return;
  page.open("table", {{"class", "plan"}});
  page.element("caption", "No plan given. By class of plan:");
  page.open("tr");
  for (const char* heading : {"Residual, post", "Kind", "Best weeks", "Gives", "At least"})
    page.element("th", heading, {{"scope", "col"}});
  page.close();
  for (const advice::OtherPlan& other : target.other_plans) write_class(page, other);
  page.close();
}

}  // namespace soilclock::report
