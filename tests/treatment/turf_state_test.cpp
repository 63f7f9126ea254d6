// SPDX-License-Identifier: MIT
#include "treatment/turf_state.hpp"

#include "model_files.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

/// Constant days, to be changed day by day.
class Weather {
 public:
  Weather(Day from, int days) : from_{from}, days_{days} { all(75.0, 60.0, 85.0); }
  Weather& all(double soil_f, double low_f, double high_f) {
    return span(from_, days_, soil_f, low_f, high_f);
  }
  Weather& span(Day from, int days, double soil_f, double low_f, double high_f) {
    for (int i = 0; i < days; ++i) {
      const Day day = from + Days{i};
      weather_.soil.set(day, Temperature::from_fahrenheit(soil_f), Quality::measured);
      weather_.air_min.set(day, Temperature::from_fahrenheit(low_f), Quality::measured);
      weather_.air_max.set(day, Temperature::from_fahrenheit(high_f), Quality::measured);
    }
    return *this;
  }
  TurfWeather& get() { return weather_; }
  TurfReading on(Day day, TurfSpecies species = TurfSpecies::bermudagrass, std::optional<EyeCheck> seen = {},
                 Hemisphere hemisphere = Hemisphere::north) const {
    return read_turf(weather_, day, species, hemisphere, seen);
  }

 private:
  Day from_;
  int days_;
  TurfWeather weather_;
};

/// Summer, cooling fall, hard frost in December, warm spell in February, spring.
Weather whole_year(Day september) {
  Weather weather{september - Days{120}, 400};
  weather
      .span(september + Days{30}, 30, 60, 45, 70)    // October: soil below 65 F
      .span(september + Days{60}, 30, 52, 35, 60)    // November
      .span(september + Days{90}, 70, 45, 30, 48)    // December to early February
      .span(september + Days{100}, 3, 42, 22, 38)    // hard nights
      .span(september + Days{160}, 10, 56, 45, 68)   // warm spell in February
      .span(september + Days{170}, 20, 50, 36, 58)   // cool again
      .span(september + Days{190}, 20, 62, 50, 74)   // March
      .span(september + Days{210}, 40, 68, 60, 80);  // April
  return weather;
}

}  // namespace

TEST_CASE("the states of a year follow each other") {
  const Day september = make_day(2024, 9, 1);
  const Weather weather = whole_year(september);
  const auto state = [&](int day) { return weather.on(september + Days{day}).state; };
  CHECK(state(10) == TurfState::green);
  CHECK(state(45) == TurfState::slowing);
  CHECK(state(80) == TurfState::semi_dormant);
  CHECK(state(120) == TurfState::likely_dormant);
  CHECK(state(168) == TurfState::breaking);
  CHECK(state(185) == TurfState::breaking);  // once broken it stays so without new hard frost
  CHECK(state(200) == TurfState::greening);
  CHECK(state(225) == TurfState::green);
}

TEST_CASE("post is stopped in green-up and open only in growth") {
  const Day september = make_day(2024, 9, 1);
  const Weather weather = whole_year(september);
  CHECK(weather.on(september + Days{10}).post == PostGate::open);
  CHECK(weather.on(september + Days{120}).post == PostGate::look_first);
  CHECK(weather.on(september + Days{200}).post == PostGate::stopped);
}

TEST_CASE("likely dormant never is a permission: it asks for a look, and only a fresh look counts") {
  const Day september = make_day(2024, 9, 1);
  const Weather weather = whole_year(september);
  const Day january = september + Days{130};
  const TurfReading unseen = weather.on(january);
  CHECK(unseen.state == TurfState::likely_dormant);
  CHECK(!unseen.seen_dormant);
  CHECK(unseen.ask.find("Note the date") != std::string::npos);
  CHECK(weather.on(january, TurfSpecies::bermudagrass, EyeCheck{january - Days{3}, true}).seen_dormant);
  CHECK(!weather.on(january, TurfSpecies::bermudagrass, EyeCheck{january - Days{30}, true}).seen_dormant);
  CHECK(!weather.on(january, TurfSpecies::bermudagrass, EyeCheck{january - Days{3}, false}).seen_dormant);
  CHECK(!weather.on(january, TurfSpecies::bermudagrass, EyeCheck{january + Days{3}, true}).seen_dormant);
  // A dormant look does not outlive a warm spell.
  CHECK(!weather.on(september + Days{168}, TurfSpecies::bermudagrass, EyeCheck{september + Days{160}, true})
             .seen_dormant);
}

TEST_CASE("days from the day itself on are not used") {
  const Day september = make_day(2024, 9, 1);
  Weather weather = whole_year(september);
  const TurfState before = weather.on(september + Days{80}).state;
  weather.span(september + Days{80}, 30, 10, 0, 20);
  CHECK(weather.on(september + Days{80}).state == before);
}

TEST_CASE("the southern year is the northern one half a year later") {
  const Day march = make_day(2025, 3, 2);
  const Weather weather = whole_year(march);
  CHECK(weather.on(march + Days{10}, TurfSpecies::bermudagrass, {}, Hemisphere::south).state ==
        TurfState::green);
  CHECK(weather.on(march + Days{120}, TurfSpecies::bermudagrass, {}, Hemisphere::south).state ==
        TurfState::likely_dormant);
  CHECK(weather.on(march + Days{200}, TurfSpecies::bermudagrass, {}, Hemisphere::south).state ==
        TurfState::greening);
}

TEST_CASE("zoysiagrass warns of green leaves below and of heat units") {
  const Day september = make_day(2024, 9, 1);
  const Weather weather = whole_year(september);
  const TurfReading winter = weather.on(september + Days{130}, TurfSpecies::zoysiagrass);
  REQUIRE(winter.heat_units);
  CHECK(winter.heat_units->celsius_days() < 5.0);
  CHECK(winter.remarks.size() == 1);
  const TurfReading april = weather.on(september + Days{225}, TurfSpecies::zoysiagrass);
  CHECK(april.heat_units->celsius_days() > 200.0);
  CHECK(april.remarks.back().code == "zoysiagrass-heat-units");
}

TEST_CASE("too few soil days give no state and say so") {
  const Day september = make_day(2024, 9, 1);
  Weather weather = whole_year(september);
  for (int back = 1; back <= 3; ++back) weather.get().soil.clear(september + Days{120 - back});
  const TurfReading reading = weather.on(september + Days{120});
  CHECK(reading.state == TurfState::unknown);
  CHECK(reading.remarks.front().code == "turf-state-not-known");
  CHECK(read_turf({}, september, TurfSpecies::bermudagrass, Hemisphere::north, {}).state ==
        TurfState::unknown);
}

TEST_CASE("species are known by their words") {
  CHECK(turf_species("hybrid bermudagrass") == TurfSpecies::bermudagrass);
  CHECK(turf_species("Zoysiagrass fairways") == TurfSpecies::zoysiagrass);
  CHECK(turf_species("tall fescue") == TurfSpecies::cool_season);
  CHECK(!turf_species("moss"));
}

TEST_CASE("the turf file holds the limits the program starts with") {
  const TurfRules shipped = taken(read_turf_rules(model_text("turf_state.json"), "turf_state.json"));
  const TurfRules built_in;
  CHECK(shipped.green_soil == built_in.green_soil);
  CHECK(shipped.hard_frost == built_in.hard_frost);
  CHECK(shipped.greening_soil == built_in.greening_soil);
  CHECK(shipped.zoysia_heat == built_in.zoysia_heat);
  CHECK(shipped.look_valid_days == built_in.look_valid_days);
}
