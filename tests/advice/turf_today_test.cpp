// SPDX-License-Identifier: MIT
// The turf's state from one day's answer to the next, probe readings coming in.
#include <catch2/catch.hpp>

#include <algorithm>

#include "advice/answer/site_state.hpp"
#include "made_up_site.hpp"

namespace soilclock::advice {

namespace {

using treatment::TurfState;

/// A spring that warms up to a plateau of about 65 F of soil, with a probe read once a week: warmer than the
/// estimate to the end of April, cooler from then on.
class Course {
 public:
  treatment::TurfAssessment turf(Day on, const SiteLog& log = {}) const {
    SiteWeather site = tests::site_with(tests::air_of({make_day(2024, 9, 1), on}, air_c), on);
    for (Day day = make_day(2026, 1, 6); day < on; day += Days{7}) {
      const double warmer = day < make_day(2026, 5, 1) ? 1.0 : -2.5;
      site.spots.push_back({day, Depth::from_cm(5.0), tests::celsius(air_c(day) + 2.0 + warmer), 0.1});
    }
    TurfFacts facts;
    facts.species = treatment::TurfSpecies::bermudagrass;
    const Catalogue& catalogue = tests::shipped_catalogue();
    return *turf_today(site, site_soil(site, catalogue.soil), facts, log, catalogue);
  }

 private:
  static double air_c(Day day) { return std::min(16.0, tests::annual_wave(day, 14.5, 11.5)); }
};

int place_on_the_way(TurfState state) {
  const std::vector<TurfState> way{TurfState::likely_dormant, TurfState::semi_dormant, TurfState::breaking,
                                   TurfState::greening, TurfState::green};
  return static_cast<int>(std::find(way.begin(), way.end(), state) - way.begin());
}

}  // namespace

TEST_CASE("from one answer to the next the turf does not go back, though each reading moves the soil") {
  const Course curve;
  int before = -1;
  int steps = 0;
  // No night from here on is a hard frost.
  for (Day on = make_day(2026, 3, 20); on < make_day(2026, 6, 20); on += Days{1}) {
    const int now = place_on_the_way(curve.turf(on).state);
    INFO(iso(on));
    CHECK(now >= before);
    steps += now != before ? 1 : 0;
    before = now;
  }
  CHECK(steps >= 3);
  CHECK(before == place_on_the_way(TurfState::green));
}

TEST_CASE("a noted state is taken for as long as the practice file says") {
  const Course curve;
  const Day looked = make_day(2026, 4, 20);
  SiteLog log;
  log.seen = treatment::EyeCheck{looked, TurfState::green};
  const int holds = tests::shipped_catalogue().practice.noted_turf.holds_days;
  REQUIRE(curve.turf(looked).state != TurfState::green);
  for (const int days : {0, holds}) {
    const auto reading = curve.turf(looked + Days{days}, log);
    CHECK(reading.noted);
    CHECK(reading.state == TurfState::green);
    CHECK((reading.since == looked));
  }
  const auto later = curve.turf(looked + Days{holds + 1}, log);
  CHECK(!later.noted);
  CHECK(later.state == TurfState::green);
}

}  // namespace soilclock::advice
