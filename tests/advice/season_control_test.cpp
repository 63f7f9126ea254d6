// SPDX-License-Identifier: MIT
#include "advice/decision/season_control.hpp"

#include <catch2/catch.hpp>
#include <deque>

#include "advice/answer/after_application.hpp"
#include "advice/ensemble/quantiles.hpp"
#include "control_points.hpp"
#include "made_up_season.hpp"
#include "support/plain_control.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;
using treatment::Kind;

namespace {

constexpr int member_count = 8;
constexpr std::uint64_t control_seed = 5;
const Day control_on = make_day(2020, 10, 20);
const std::vector<Day> treated{make_day(2020, 9, 14), control_on, make_day(2020, 12, 7),
                               make_day(2021, 2, 22)};

const MadeUpSeason& sprayed_season() {
  static const MadeUpSeason season{control_on, member_count};
  return season;
}

ActingApplication put_down(Day day, Kind kind) { return {day, kind, unnamed_bluegrass_parts(), 1.0, 0}; }

SeasonControl control_after(const std::vector<ActingApplication>& acting) {
  return {sprayed_season().run(),
          sprayed_season().runs,
          sprayed_season().scenarios,
          shipped_catalogue(),
          acting,
          control_seed};
}

/// A member's season put together by hand.
struct PlainSeason {
  std::vector<double> share;
  std::vector<Temperature> air_max;
  treatment::SeasonCohorts cohorts;
};

PlainSeason plain_season(std::size_t i) {
  const TargetMember& member = sprayed_season().run().members[i];
  PlainSeason plain;
  for (int day = 0; day < sprayed_season().season.length(); ++day)
    plain.share.push_back(member.curve.at(day) - member.curve.at(day - 1));
  const auto& air = sprayed_season().scenarios.weather_of(static_cast<int>(member.scenario)).air_max;
  plain.air_max.assign(air.begin() + emergence::lead_in_days, air.end());
  plain.cohorts = {sprayed_season().season.first,
                   {},
                   member.thermal_age,
                   sprayed_season().runs.soil[member.scenario],
                   {},
                   1.0};
  plain.cohorts.age_unit = member.phyllochron;
  plain.cohorts.limits = sprayed_season().run().job.growth->limits;
  return plain;
}

treatment::DrawnTreatment drawn(std::size_t member) {
  return treatment::draw_treatment(RandomField{control_seed}, member, unnamed_bluegrass_parts(),
                                   bluegrass_rules());
}

}  // namespace

TEST_CASE("points are those of a plain sum over each member's seedlings, before and after an application") {
  const treatment::TreatmentRules rules = bluegrass_rules();
  const Day noted = make_day(2020, 9, 20);
  const MemberPoints whole = control_after({}).points(unnamed_bluegrass_parts(), treated);
  const MemberPoints net =
      control_after({put_down(noted, Kind::pre_post)}).points(unnamed_bluegrass_parts(), treated);
  REQUIRE(whole.size() == treated.size());
  for (std::size_t i = 0; i < member_count; ++i) {
    PlainSeason plain = plain_season(i);
    plain.cohorts.emerging_share = plain.share;
    plain.cohorts.air_max = plain.air_max;
    std::vector<double> left = plain.share;
    const long at = (noted - sprayed_season().season.first).count();
    for (long day = 0; day < static_cast<long>(left.size()); ++day) {
      left[static_cast<std::size_t>(day)] *=
          1.0 - plain_taken(plain.cohorts, drawn(i), *rules.grass, *rules.residual, Kind::pre_post, at, day);
    }
    for (std::size_t week = 0; week < treated.size(); ++week) {
      for (const Kind kind : treatment::all_kinds) {
        const auto points_of = [&](std::span<const double> share) {
          treatment::SeasonCohorts cohorts = plain.cohorts;
          cohorts.emerging_share = share;
          const int rest = static_cast<int>((monday_of(treated[week]) + Days{7} - treated[week]).count());
          return 100.0 *
                 plain_control(cohorts, drawn(i), *rules.grass, *rules.residual, kind, treated[week], rest);
        };
        INFO("member " << i << ", " << iso(treated[week]) << ", " << treatment::name(kind));
        CHECK(whole[week][index_of(kind)][i] == Approx(points_of(plain.share)).margin(1e-7));
        CHECK(net[week][index_of(kind)][i] == Approx(points_of(left)).margin(1e-7));
      }
    }
  }
}

TEST_CASE("the table has the bands of the members asked for and the Monday of the treated day") {
  MemberPoints points(1);
  for (int i = 0; i <= 10; ++i) {
    points[0][index_of(Kind::pre)].push_back(10.0 * i);
    points[0][index_of(Kind::pre_post)].push_back(50.0);
    points[0][index_of(Kind::post)].push_back(100.0 - 10.0 * i);
  }
  const std::vector<Day> wednesday{make_day(2020, 10, 21)};
  const std::vector<std::size_t> all{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10};
  const Weeks table = weeks_of(points, wednesday, all);
  REQUIRE(table.size() == 1);
  CHECK(table[0].week_of == make_day(2020, 10, 19));
  CHECK(table[0].of(Kind::pre).control.low == Approx(10));
  CHECK(table[0].of(Kind::pre).control.middle == Approx(50));
  CHECK(table[0].of(Kind::pre).control.high == Approx(90));
  CHECK(*table[0].score(Kind::pre) == Approx(30));
  CHECK(*table[0].score(Kind::pre_post) == Approx(50));
  for (const KindInWeek& kind : table[0].kinds) CHECK(kind.allowed);
  const std::vector<std::size_t> last{10};
  CHECK(weeks_of(points, wednesday, last)[0].of(Kind::pre).control.low == 100.0);
  CHECK(weeks_of(points, wednesday, last)[0].of(Kind::post).control.low == 0.0);
}

TEST_CASE("what is left of a residual is its middle dose today and the day it is spent") {
  CHECK(!control_after({}).residual_left(control_on, control_on));
  CHECK(!control_after({put_down(make_day(2020, 9, 1), Kind::post)}).residual_left(control_on, control_on));
  CHECK(!control_after({put_down(control_on + Days{1}, Kind::pre)}).residual_left(control_on, control_on));
  const Day noted = make_day(2020, 9, 1);
  const auto left = control_after({put_down(noted, Kind::pre)}).residual_left(control_on, noted);
  REQUIRE(left);
  const treatment::ResidualRule& rule = shipped_catalogue().residual;
  std::vector<double> doses;
  std::vector<std::optional<int>> spent;
  for (std::size_t i = 0; i < member_count; ++i) {
    const PlainSeason plain = plain_season(i);
    const long from = (noted - sprayed_season().season.first).count();
    const long today = (control_on - sprayed_season().season.first).count();
    const auto dose = [&](long day) {
      return std::pow(2.0, -plain_half_lives(plain.cohorts, drawn(i).residuals.front(), from, day, rule));
    };
    doses.push_back(dose(today));
    long end = from;
    while (end < static_cast<long>(plain.share.size()) && dose(end) >= rule.spent_below) ++end;
    spent.push_back(end < static_cast<long>(plain.share.size()) ? std::optional{static_cast<int>(end - from)}
                                                                : std::nullopt);
  }
  CHECK(left->dose == Approx(band_of(doses).middle));
  const auto middle = day_band_of(spent).middle;
  REQUIRE(middle);
  CHECK(left->spent == noted + Days{*middle});
}

namespace {

/// What applications mean for an answer whose decision was to treat.
TargetAnswer after(const std::vector<ActingApplication>& acting, Day today = control_on) {
  static SiteWeather site = sprayed_season().site;
  site.on = today;
  DecisionInputs inputs;
  inputs.run = &sprayed_season().run();
  inputs.catalogue = &shipped_catalogue();
  inputs.site = &site;
  TargetAnswer answer;
  answer.decision = decided(weeks({{}, {70, 60}, {}}));
  answer.last_useful_week = monday_of(sprayed_season().run().season.end() - Days{1});
  for (const TreatmentWeek& week : weeks({{}, {70, 60}, {}})) answer.weeks.push_back({week, {}});
  add_after_application(answer, inputs, acting, control_after(acting));
  return answer;
}

}  // namespace

TEST_CASE("nothing applied leaves an answer as it is") {
  const TargetAnswer answer = after({});
  CHECK(!answer.after);
  CHECK(!answer.second_pre);
  CHECK(answer.decision.action == Action::treat);
}

TEST_CASE("a residual that ends with seedlings to come calls for a second pre then") {
  const TargetAnswer answer = after({put_down(make_day(2020, 8, 1), Kind::pre)}, make_day(2020, 9, 10));
  REQUIRE(answer.after);
  CHECK(answer.after->residual_on == make_day(2020, 8, 1));
  REQUIRE(answer.after->residual_ends);
  CHECK(!answer.after->foliar_on);
  CHECK(answer.decision.action == Action::treat);  // a residual alone holds nothing
  REQUIRE(answer.second_pre);
  CHECK(answer.second_pre->date >= monday_of(*answer.after->residual_ends));
  CHECK(answer.second_pre->why.find("a second pre is due then") != std::string::npos);
  // One put down when all is up is not followed by another.
  CHECK(!after({put_down(make_day(2021, 4, 1), Kind::pre)}, make_day(2021, 4, 20)).second_pre);
}

TEST_CASE("a foliar treatment holds all else until its survivors can be told") {
  const DecisionRules& rules = shipped_rules();
  const Day sprayed = control_on - Days{6};
  const TargetAnswer soon = after({put_down(sprayed, Kind::post)});
  CHECK(soon.decision.action == Action::hold_after_treatment);
  REQUIRE(soon.after->look);
  CHECK(soon.after->look->begin() == sprayed + Days{rules.look_from_days});
  CHECK(soon.after->look->end() == sprayed + Days{rules.look_to_days + 1});
  CHECK(!soon.after->residual_on);
  const TargetAnswer later = after({put_down(control_on - Days{rules.look_to_days}, Kind::pre_post)});
  CHECK(later.decision.action == Action::treat);
  CHECK(!later.after->look);
  CHECK(later.after->foliar_on == control_on - Days{rules.look_to_days});
}
