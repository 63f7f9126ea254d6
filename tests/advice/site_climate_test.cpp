// SPDX-License-Identifier: MIT
#include "advice/ensemble/site_climate.hpp"

#include <catch2/catch.hpp>

#include "made_up_site.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;

namespace {

const Season fall_of_2020 = season_of(make_day(2020, 8, 1), SeasonKind::fall, Hemisphere::north);
const Day climate_on = make_day(2020, 11, 20);

const emergence::SingleWindowRule& window_rule() {
  return *shipped_catalogue().targets.at("POAAN").single_window;
}

/// A site whose soil is measured every day of its record and follows a wave exactly.
SiteClimate climate_of(double soil_mean, double soil_swing, Day first = make_day(2015, 1, 1)) {
  weather::DailyWeather daily =
      air_of({first, climate_on}, [](Day day) { return annual_wave(day, 13.0, 11.0); });
  auto& soil = daily.soil[Depth::from_cm(5.0)];
  for (Day day = first; day < climate_on; day += Days{1}) {
    soil.set(day, celsius(annual_wave(day, soil_mean, soil_swing)), Quality::measured);
  }
  const SiteWeather site = site_with(std::move(daily), climate_on);
  const SiteSoil found = site_soil(site, shipped_catalogue().soil);
  const StratifiedDraws draws{1, 20};
  const Scenarios scenarios{site,
                            shipped_catalogue().soil,
                            shipped_catalogue().futures,
                            found,
                            {fall_of_2020.first - Days{10}, fall_of_2020.end()},
                            draws,
                            1};
  return site_climate(
      site, found, scenarios, fall_of_2020, window_rule(),
      CoolingMark{DegreeDays::from_celsius_days(8.0), Temperature::from_celsius(21.0), 41, 141},
      shipped_catalogue().futures);
}

}  // namespace

TEST_CASE("the climate of a site is read off its own measured soil") {
  const SiteClimate climate = climate_of(16.0, 10.0);
  CHECK(climate.seasons == 5);
  // The 30 days about the peak of the wave average 10*sin(x)/x above its mean, x = 15 days of 365.25: 25.89
  // C.
  CHECK(climate.warmest_month_soil.celsius() == Approx(25.89).margin(0.02));
  // 16 + 10 cos = 18.9 is passed 74.2 days after 19 July, 1 October; a trailing week lags three days: 5
  // October at the earliest whole day, season day 106.
  REQUIRE(climate.usual_crossing_day);
  CHECK(*climate.usual_crossing_day == Approx(106).margin(1.1));
  // Cool until as long before the next 19 July, 219 days later, less the days after the season's end.
  CHECK(climate.cool_days == Approx(217).margin(4));
  // The wave of the air swings less than the region's does, and five years are still pulled a little toward
  // that.
  CHECK(climate.july_air.celsius() == Approx(24.0).margin(0.6));
  // Air of 13 + 11 cos falls below 21 C 43 days... after 19 July and has lost 8 C d by mid-September.
  double units = 0.0;
  int day = 0;
  while (units < 8.0)
    units += std::max(0.0, 21.0 - annual_wave(fall_of_2020.first + Days{day++}, 13.0, 11.0));
  CHECK(climate.late_cooling == Approx((day - 1 - 41) / 100.0));
}

TEST_CASE("soil that never cools to the crossing has no crossing day") {
  const SiteClimate tropical = climate_of(25.0, 3.0);
  CHECK(!tropical.usual_crossing_day);
  CHECK(tropical.cool_days < 1.0);
}

TEST_CASE("a record of half a year judges by the present season alone") {
  const SiteClimate young = climate_of(16.0, 10.0, make_day(2020, 1, 1));
  CHECK(young.seasons == 0);
  CHECK(young.warmest_month_soil.celsius() == Approx(25.89).margin(0.02));
  CHECK(*young.usual_crossing_day == Approx(106).margin(1.1));
}

TEST_CASE("a single window is named from 22.5 C on, not at all up to 20 C, and by shares between") {
  SiteClimate climate;
  const auto share = [&](double c) {
    climate.warmest_month_soil = celsius(c);
    return single_window_share(climate, window_rule());
  };
  CHECK(share(17.0) == 0.0);
  CHECK(share(20.0) == 0.0);
  CHECK(share(21.25) == Approx(0.5));
  CHECK(share(22.5) == 1.0);
  CHECK(share(30.0) == 1.0);
}
