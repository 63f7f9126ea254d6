// SPDX-License-Identifier: MIT
#include "advice/answer/windows.hpp"

#include <catch2/catch.hpp>

#include "made_up_site.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;

namespace {

const PracticeThresholds& thresholds() { return shipped_catalogue().practice.thresholds; }
const DecisionRules& rules() { return shipped_catalogue().practice.decision; }

/// Eleven members; member m begins on day 60 + m and comes up by one percent a day.
TargetRun ramps(int percent_a_day = 1) {
  TargetRun run;
  run.season = season_of(make_day(2021, 8, 1), SeasonKind::fall, Hemisphere::north);
  for (int m = 0; m < 11; ++m) {
    TargetMember member;
    for (int d = 0; d < run.season.length(); ++d) {
      const int percent = std::clamp((d - 60 - m) * percent_a_day, 0, 100);
      member.curve.up.push_back(percent / 100.0);
    }
    member.curve.main_wave_over = 100 + m;
    run.members.push_back(std::move(member));
  }
  return run;
}

Band<double> share(double middle) { return {middle / 2.0, middle, middle * 1.5}; }

}  // namespace

TEST_CASE("the day of a share is the band over the members") {
  const TargetRun run = ramps();
  const DateBand half = date_reaching(run, 0.5);
  // Members reach 50 percent on days 110 to 120; 10, 50 and 90 percent of eleven are the 2nd, 6th and 10th.
  CHECK(half.low == run.season.first + Days{111});
  CHECK(half.middle == run.season.first + Days{115});
  CHECK(half.high == run.season.first + Days{119});
  CHECK(main_wave_over(run).middle == run.season.first + Days{105});
}

TEST_CASE("windows follow each other: pre to 5 percent, pre+post to 80, post after") {
  const TargetRun run = ramps();
  const auto windows = windows_of(run, MiddleCurve{run}, thresholds(), rules());
  REQUIRE(windows.size() == 3);
  CHECK(windows[0].kind == treatment::Kind::pre);
  CHECK(windows[1].kind == treatment::Kind::pre_post);
  CHECK(windows[2].kind == treatment::Kind::post);
  // Hold ends 21 days before the first percent (day 66 in the middle member).
  CHECK(windows[0].opens.middle == run.season.first + Days{66 - 21});
  CHECK(windows[0].closes.middle == run.season.first + Days{65 + 5});
  CHECK(windows[1].opens.middle == windows[0].closes.middle);
  CHECK(windows[1].closes.middle == run.season.first + Days{65 + 80});
  CHECK(windows[2].opens.middle == windows[1].closes.middle);
  CHECK(!windows[2].closes.middle);
}

TEST_CASE("hold cannot end before its season and never ends where nothing comes up") {
  TargetRun early = ramps();
  for (TargetMember& member : early.members) member.curve.up.assign(365, 1.0);
  CHECK(windows_of(early, MiddleCurve{early}, thresholds(), rules())[0].opens.middle == early.season.first);
  TargetRun nothing = ramps();
  for (TargetMember& member : nothing.members) member.curve.up.assign(365, 0.0);
  for (const Window& window : windows_of(nothing, MiddleCurve{nothing}, thresholds(), rules())) {
    CHECK(!window.opens.low);
    CHECK(!window.closes.low);
  }
}

TEST_CASE("a share most members never reach has an early date and no late one") {
  TargetRun run = ramps();
  for (std::size_t m = 3; m < 11; ++m) run.members[m].curve.up.assign(365, 0.0);
  const DateBand half = date_reaching(run, 0.5);
  CHECK(half.low == run.season.first + Days{111});
  CHECK(!half.middle);
  CHECK(!half.high);
}

TEST_CASE("the kind by percent emerged goes by the share up and the share soon to come") {
  using treatment::Kind;
  const auto kind = [](double now, double in_three_weeks) {
    return kind_by_percent(share(now), in_three_weeks, thresholds());
  };
  CHECK(!kind(0.0, 0.9));
  CHECK(kind(0.0, 1.0) == Kind::pre);  // one percent within three weeks: the residual may go
  CHECK(kind(5.0, 30.0) == Kind::pre);
  CHECK(kind(5.1, 30.0) == Kind::pre_post);
  CHECK(kind(79.9, 85.0) == Kind::pre_post);
  CHECK(kind(80.0, 85.0) == Kind::post);
  CHECK(kind(99.0, 0.0) == Kind::post);  // nothing more to come is no reason to hold a foliar part
}

TEST_CASE("a wide band alone does not turn pre into pre and post") {
  CHECK(kind_by_percent({0.0, 4.0, 40.0}, 30.0, thresholds()) == treatment::Kind::pre);
}
