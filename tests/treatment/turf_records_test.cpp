// SPDX-License-Identifier: MIT
// The turf state over measured soil and air: in spring it moves one way.
#include <catch2/catch.hpp>

#include "model_files.hpp"
#include "support/reference_station.hpp"
#include "treatment/turf_state.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

TurfRules shipped_turf() { return taken(read_turf_rules(model_text("turf_state.json"), "turf_state.json")); }

/// The place of a state on the way from dormant to green; nothing for a state that is not known.
std::optional<int> place_on_the_way(TurfState state) {
  static const std::vector<TurfState> way{TurfState::likely_dormant, TurfState::semi_dormant,
                                          TurfState::breaking,       TurfState::greening,
                                          TurfState::slowing,        TurfState::green};
  const auto at = std::find(way.begin(), way.end(), state);
  return at == way.end() ? std::nullopt : std::optional{static_cast<int>(at - way.begin())};
}

struct Walked {
  int forward = 0;
  int back_after_freeze = 0;
  int back_without = 0;
  int known_days = 0;
};

/// Steps of one spring, day by day from 15 January. A step back is allowed when two nights at or below 28 F
/// lie between the first morning of the state that is left and the step, the later one in the two weeks
/// before it.
void walk_spring(const TurfWeather& weather, int year, const TurfRules& rules, Walked& walked) {
  std::optional<int> before;
  std::vector<Day> freezes;  // since the present state was reached
  for (Day day = make_day(year, 1, 1); day <= make_day(year, 6, 29); day += Days{1}) {
    const auto low = weather.air_min.at(day - Days{1});
    if (low && *low <= Temperature::from_fahrenheit(28.0)) freezes.push_back(day - Days{1});
    const TurfAssessment reading =
        read_turf(weather, day, TurfSpecies::bermudagrass, Hemisphere::north, {}, rules);
    const auto now = place_on_the_way(reading.state);
    if (!now) continue;
    const bool spring = day > make_day(year, 1, 15);
    const int step = before ? *now - *before : 0;
    if (spring) ++walked.known_days;
    if (spring && step > 0) ++walked.forward;
    if (spring && step < 0) {
      const bool frozen = freezes.size() >= 2 && day - freezes.back() <= Days{14};
      ++(frozen ? walked.back_after_freeze : walked.back_without);
    }
    if (step > 0 || (step < 0 && !spring)) freezes.clear();
    before = now;
  }
}

}  // namespace

TEST_CASE("over the measured stations of 2020 the turf never goes back in spring without a freeze") {
  const TurfRules rules = shipped_turf();
  Walked walked;
  const auto stations = tests::reference_stations();
  for (const tests::ReferenceStation& station : stations) {
    INFO(station.name);
    const int back_before = walked.back_without;
    walk_spring({station.soil.at(5), station.air_min, station.air_max}, 2020, rules, walked);
    CHECK(walked.back_without == back_before);
  }
  // The law is not met for want of steps.
  const auto count = static_cast<int>(stations.size());
  CHECK(walked.known_days > 120 * count);
  CHECK(walked.forward > 2 * count);
  CHECK(walked.back_after_freeze > count / 7);
}

TEST_CASE("over years of measured stations the turf never goes back in spring without a freeze",
          "[records]") {
  const auto folder = tests::record_folder("uscrn_years");
  const TurfRules rules = shipped_turf();
  Walked walked;
  for (const char* name : {"TN_Crossville_7_NW", "GA_Newton_8_W", "NC_Asheville_8_SSW", "FL_Sebring_23_SSE",
                           "TX_Austin_33_NW", "KS_Manhattan_6_SSW"}) {
    INFO(name);
    const auto station = tests::read_reference_station(folder / (std::string{"CRND0103-"} + name + ".txt"));
    const TurfWeather weather{station.soil.at(5), station.air_min, station.air_max};
    for (int year = 2010; year <= 2017; ++year) {
      INFO(year);
      const int back_before = walked.back_without;
      walk_spring(weather, year, rules, walked);
      CHECK(walked.back_without == back_before);
    }
  }
  CHECK(walked.known_days > 4000);
  CHECK(walked.forward > 60);
  CHECK(walked.back_after_freeze > 0);
}
