// SPDX-License-Identifier: MIT
#include "treatment/logged.hpp"

#include <numeric>

#include "model_files.hpp"
#include "textbook_season.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

const MemberDraw sure_draw{FoliarPartner::contact, Fraction{}, Fraction{}, 10.0};

LoggedApplication pre_on(int day) {
  LoggedApplication application;
  application.day = TextbookSeason::day(day);
  return application;
}

double left_after(const std::vector<LoggedApplication>& logged) {
  static const TextbookSeason season;
  static const ReachRules rules = shipped_rules();
  const std::vector<double> left = surviving_shares(season.cohorts(), logged, sure_draw, rules);
  return std::accumulate(left.begin(), left.end(), 0.0);
}

}  // namespace

TEST_CASE("what one logged application leaves is what its reach did not take") {
  const TextbookSeason season;
  const ReachRules rules = shipped_rules();
  for (const Kind kind : all_kinds) {
    for (const int day : {-20, 14, 45, 90, 160}) {
      LoggedApplication application = pre_on(day);
      application.kind = kind;
      Treatment same;
      same.kind = kind;
      same.residual_weeks = sure_draw.residual_weeks;
      const double reached = reach(season.cohorts(), same, application.day, rules).total;
      if (reached > 0.949) continue;  // the cap
      INFO(treatment::name(kind) << " on day " << day);
      CHECK(left_after({application}) == Approx(left_after({}) - reached).margin(1e-9));
    }
  }
}

TEST_CASE("a second application leaves less than the first alone, and halves leave more than wholes") {
  LoggedApplication half = pre_on(0);
  half.share_of_dose = 0.5;
  LoggedApplication second_half = pre_on(49);
  second_half.share_of_dose = 0.5;
  CHECK(left_after({half, second_half}) < left_after({half}));
  CHECK(left_after({pre_on(0), pre_on(49)}) < left_after({half, second_half}));
  CHECK(left_after({half, second_half}) < left_after({pre_on(0)}));
}

TEST_CASE("a residual never watered in takes nothing and leaves no dose, a late one takes less") {
  LoggedApplication dry = pre_on(10);
  dry.activation_delay_days.reset();
  LoggedApplication late = pre_on(10);
  late.activation_delay_days = 14;
  CHECK(left_after({dry}) == Approx(left_after({})));
  CHECK(left_after({late}) > left_after({pre_on(10)}));
  const TextbookSeason season;
  const ReachRules rules = shipped_rules();
  const std::vector logged{dry};
  CHECK(LoggedDoses{season.cohorts(), logged, sure_draw, rules}.left_on(dry.day) == 0.0);
}

TEST_CASE("dose left starts at one, halves in a half-life of 20 C and is not known without a residual") {
  const TextbookSeason season;
  const ReachRules rules = shipped_rules();
  const std::vector logged{pre_on(20)};
  const LoggedDoses doses{season.cohorts(), logged, sure_draw, rules};
  CHECK(!doses.left_on(TextbookSeason::day(19)));
  CHECK(doses.left_on(TextbookSeason::day(20)) == 1.0);
  // Half-life 28 d at 20 C; the soil is 18 to 21 C then, so 28 to 33 days bring it to a half.
  CHECK(*doses.left_on(TextbookSeason::day(48)) > 0.5);
  CHECK(*doses.left_on(TextbookSeason::day(55)) < 0.5);
  CHECK(!doses.left_on(TextbookSeason::day(5000)));
  LoggedApplication post = pre_on(20);
  post.kind = Kind::post;
  const std::vector without_residual{post};
  CHECK(!LoggedDoses{season.cohorts(), without_residual, sure_draw, rules}.left_on(TextbookSeason::day(60)));
}
