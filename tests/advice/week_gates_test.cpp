// SPDX-License-Identifier: MIT
#include "advice/decision/week_gates.hpp"

#include <catch2/catch.hpp>

#include "made_up_season.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;
using treatment::GateReason;
using treatment::Kind;

namespace {

const Day gates_on = make_day(2020, 10, 20);
const Day winter = make_day(2021, 1, 18);

/// Mild air always, but for the January of some past years: the futures of half of the members freeze hard or
/// are only too cold to spray.
weather::DailyWeather record_with_winters(double odd_years_c, double even_years_c) {
  return air_of({gates_on - Days{7 * 366}, gates_on}, [&](Day day) {
    if (day_of_year(day) > 60) return 15.0;
    return civil(day).year % 2 == 1 ? odd_years_c : even_years_c;
  });
}

/// A season whose soil is at first mild in every member.
struct GatedSeason {
  MadeUpSeason made_up;
  SeasonRuns runs;
  explicit GatedSeason(int members, double odd_years_c = 15.0, double even_years_c = 15.0)
      : made_up{gates_on, members, site_with(record_with_winters(odd_years_c, even_years_c), gates_on)},
        runs{made_up.runs} {
    for (int i = 0; i < members; ++i) soil(i, 12.0);
  }
  void soil(int member, double c) {
    auto& days = runs.soil[made_up.run().members[static_cast<std::size_t>(member)].scenario];
    std::fill(days.begin(), days.end(), celsius(c));
  }
  bool cold_air(int member) const {
    const auto& air = made_up.scenarios.weather_of(member).air_max;
    const auto day = static_cast<std::size_t>((winter - made_up.scenarios.days().begin()).count());
    return air[day] < shipped_catalogue().gates.cold_air;
  }
  std::vector<WeekGates> gates(const std::vector<Day>& treated, const GateFacts& facts = {}) const {
    return gates_of_weeks(made_up.run(), runs, made_up.scenarios, shipped_catalogue(), treated, gates_on,
                          facts);
  }
  WeekGates gates_in_winter(const GateFacts& facts = {}) const { return gates({winter}, facts).front(); }
};

}  // namespace

TEST_CASE("a mild week has no gates, and frozen ground in every member stops everything") {
  GatedSeason season{4};
  const WeekGates open = season.gates_in_winter();
  CHECK(open.gates.empty());
  CHECK(!open.residual_stopped);
  CHECK(!open.foliar_stopped);
  for (int i = 0; i < 4; ++i) season.soil(i, -3.0);
  const WeekGates shut = season.gates_in_winter();
  REQUIRE(shut.gates.size() == 1);
  CHECK(shut.gates.front().reason == GateReason::frozen_ground);
  CHECK(shut.residual_stopped);
  CHECK(shut.foliar_stopped);
}

TEST_CASE("a gate of the weather ahead holds when more than the ruling share of the members have it") {
  constexpr int members = 10;
  GatedSeason season{members};
  const double share = shipped_catalogue().practice.decision.gated_share_ahead;
  for (int frozen = 1; frozen <= members; ++frozen) {
    season.soil(frozen - 1, -3.0);
    const WeekGates week = season.gates_in_winter();
    CAPTURE(frozen);
    CHECK(week.residual_stopped == (frozen > share * members));
    CHECK(week.gates.size() == (week.residual_stopped ? 1U : 0U));
  }
}

TEST_CASE("members stopped for different reasons stop a week together, and the most common one is named") {
  // Odd years are too cold to spray in; of the other members some have frozen ground.
  GatedSeason season{28, 0.0, 15.0};
  int cold = 0;
  for (int i = 0; i < 28; ++i) cold += season.cold_air(i) ? 1 : 0;
  INFO(cold << " members with cold air");
  REQUIRE(cold > 5);
  REQUIRE(cold < 28 - 5);
  const double share = shipped_catalogue().practice.decision.gated_share_ahead;
  const bool alone = cold > share * 28;
  CHECK(season.gates_in_winter().foliar_stopped == alone);
  int frozen = 0;
  for (int i = 0; i < 28 && cold + frozen <= share * 28; ++i) {
    if (season.cold_air(i)) continue;
    season.soil(i, -3.0);
    ++frozen;
  }
  const WeekGates mixed = season.gates_in_winter();
  CHECK(mixed.foliar_stopped);
  CHECK(!mixed.residual_stopped);
  REQUIRE(mixed.gates.size() == 1);
  CHECK(mixed.gates.front().stops);
  CHECK(mixed.gates.front().reason == GateReason::cold_air);
}

TEST_CASE("each week is judged by its own days, and a day outside the season is not") {
  const GatedSeason season{4, -15.0, -15.0};
  const std::vector<WeekGates> weeks =
      season.gates({gates_on, make_day(2020, 12, 7), winter, season.made_up.season.end()});
  REQUIRE(weeks.size() == 4);
  CHECK(!weeks[0].foliar_stopped);
  CHECK(!weeks[1].foliar_stopped);
  CHECK(weeks[2].foliar_stopped);
  CHECK(weeks[2].residual_stopped);
  CHECK(weeks[2].gates.front().reason == GateReason::snow_or_frost_on_ground);
  CHECK(weeks[3].gates.empty());
}

TEST_CASE("seed to come stops the residual, with a caution for foliar parts") {
  const GatedSeason season{4};
  GateFacts facts;
  facts.overseed_on = gates_on + Days{21};
  const WeekGates now = season.gates({gates_on}, facts).front();
  CHECK(now.residual_stopped);
  CHECK(!now.foliar_stopped);
  REQUIRE(now.gates.size() == 2);
  CHECK(now.gates[0].stops);
  CHECK(!now.gates[1].stops);
  // A residual that seed tolerates is not stopped.
  facts.seeding_weeks = 0.0;
  CHECK(!season.gates({gates_on}, facts).front().residual_stopped);
}

TEST_CASE("turf that greens up this morning stops foliar parts, and warm soil ends it") {
  GatedSeason season{4};
  GateFacts facts;
  facts.species = treatment::TurfSpecies::bermudagrass;
  facts.turf = treatment::TurfAssessment{};
  facts.turf->state = treatment::TurfState::breaking;
  const WeekGates now = season.gates({gates_on}, facts).front();
  CHECK(now.foliar_stopped);
  CHECK(!now.residual_stopped);
  CHECK(now.gates.front().reason == GateReason::green_up);
  facts.turf->state = treatment::TurfState::green;
  CHECK(!season.gates({gates_on}, facts).front().foliar_stopped);
}

TEST_CASE("gates forbid the kinds that have the part they stop") {
  const auto allowed = [](bool residual_stopped, bool foliar_stopped) {
    TreatmentWeek week;
    apply({{}, residual_stopped, foliar_stopped}, week);
    return std::array{week.of(Kind::pre).allowed, week.of(Kind::pre_post).allowed,
                      week.of(Kind::post).allowed};
  };
  CHECK(allowed(false, false) == std::array{true, true, true});
  CHECK(allowed(true, false) == std::array{false, false, true});
  CHECK(allowed(false, true) == std::array{true, false, false});
  CHECK(allowed(true, true) == std::array{false, false, false});
  TreatmentWeek lacking;
  lacking.of(Kind::post).allowed = false;
  apply({}, lacking);
  CHECK(!lacking.of(Kind::post).allowed);
}
