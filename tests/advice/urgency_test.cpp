// SPDX-License-Identifier: MIT
#include "advice/answer/urgency.hpp"

#include <catch2/catch.hpp>

#include "decision_tables.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;

namespace {

TargetAnswer target(double urgency, Action action = Action::treat) {
  TargetAnswer answer;
  answer.decision.urgency = urgency;
  answer.decision.action = action;
  return answer;
}

SiteAnswer site(std::vector<TargetAnswer> targets) {
  SiteAnswer answer;
  answer.targets = std::move(targets);
  return answer;
}

std::vector<std::pair<std::size_t, std::size_t>> ranked(const std::vector<SiteAnswer>& answers) {
  std::vector<std::pair<std::size_t, std::size_t>> order;
  for (const RankedTarget& entry : by_urgency(answers)) order.emplace_back(entry.site, entry.target);
  return order;
}

using Order = std::vector<std::pair<std::size_t, std::size_t>>;

}  // namespace

TEST_CASE("the site that loses most in three weeks comes first, on a tie in the order given") {
  CHECK(ranked({site({target(3.0), target(12.0)}), site({target(12.0)}),
                site({target(20.0, Action::wait)})}) == Order{{2, 0}, {0, 1}, {1, 0}, {0, 0}});
}

TEST_CASE("what is closed, unanswered or refused is not ranked; what is held loses nothing") {
  TargetAnswer refused = target(50.0);
  refused.refusal = Problem{};
  CHECK(ranked({site({target(40.0, Action::nothing_left), target(30.0, Action::no_answer), refused}),
                site({target(25.0, Action::hold_after_treatment), target(1.0)})}) == Order{{1, 1}, {1, 0}});
  CHECK(still_open(target(0.0, Action::scout)));
}
