// SPDX-License-Identifier: MIT
#include "advice/answer/disagreement.hpp"

#include <catch2/catch.hpp>

#include "decision_tables.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;
using treatment::Kind;

namespace {

const Season fall = season_of(make_day(2021, 8, 1), SeasonKind::fall, Hemisphere::north);
const Day on = make_day(2021, 10, 15);

/// Members that have these percents up all season.
TargetRun up(const std::vector<double>& percents) {
  TargetRun run;
  run.season = fall;
  for (const double percent : percents) {
    TargetMember member;
    member.curve.up.assign(static_cast<std::size_t>(fall.length()), percent / 100.0);
    run.members.push_back(member);
  }
  return run;
}

TargetAnswer models(const std::vector<std::pair<double, double>>& weights_and_percents) {
  TargetAnswer answer;
  for (const auto& [weight, percent] : weights_and_percents)
    answer.models.push_back({"", "", weight, percent, {}, {}});
  return answer;
}

std::optional<std::string> found(const TargetAnswer& answer, const TargetRun& run) {
  return disagreement(answer, run, on, shipped_rules());
}

const std::vector<double> one_hump{20, 25, 30, 35, 40, 45, 50, 55};

}  // namespace

TEST_CASE("models far apart disagree, those of little weight have no say") {
  CHECK(found(models({{0.5, 20}, {0.5, 55}}), up(one_hump)) == "models disagree: 20 to 55% emerged");
  CHECK(!found(models({{0.5, 20}, {0.5, 50}}), up(one_hump)));  // thirty points: not more
  CHECK(!found(models({{0.85, 20}, {0.15, 90}}), up(one_hump)));
  CHECK(!found(models({}), up(one_hump)));
}

TEST_CASE("members in two humps tell two stories, one stray member does not") {
  CHECK(found(models({{1.0, 40}}), up({10, 12, 15, 18, 60, 62, 65, 70})) ==
        "two stories fit: at most 18% emerged, or at least 60%");
  CHECK(found(models({{1.0, 40}}), up({10, 60, 62, 65, 66, 67, 68, 9})) ==
        "two stories fit: at most 10% emerged, or at least 60%");
  CHECK(!found(models({{1.0, 40}}), up({10, 60, 62, 65, 66, 67, 68, 69})));
  CHECK(!found(models({{1.0, 40}}), up(one_hump)));
}

TEST_CASE("models name different kinds when those that count would decide differently") {
  const emergence::EmergenceModel* no_model = nullptr;
  const auto different = [&](const std::vector<double>& weights) {
    TargetRun run = up({0, 0, 0});
    for (const double weight : weights) run.job.models.push_back({no_model, weight});
    for (std::size_t i = 0; i < 3; ++i) run.members[i].model = i;
    // The first two models want pre, the third post.
    return models_name_different_kinds(run, shipped_rules(), [](std::span<const std::size_t> members) {
      REQUIRE(members.size() == 1);
      return decided(members.front() == 2 ? weeks({{}, {}, {60}}) : weeks({{60}, {}, {}}));
    });
  };
  CHECK(different({0.3, 0.3, 0.4}));
  CHECK(!different({0.5, 0.4, 0.1}));
}
