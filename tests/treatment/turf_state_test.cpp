// SPDX-License-Identifier: MIT
#include "treatment/turf_state.hpp"

#include "model_files.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

/// The shipped limits, with a look that stands for two weeks or until one hard night.
TurfRules bermuda_rules() {
  TurfRules rules = taken(read_turf_rules(model_text("turf_state.json"), "turf_state.json"));
  rules.look = {14, 1};
  return rules;
}

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
  TurfAssessment on(Day day, TurfSpecies species = TurfSpecies::bermudagrass,
                    std::optional<EyeCheck> seen = {}, Hemisphere hemisphere = Hemisphere::north) const {
    return read_turf(weather_, day, species, hemisphere, seen, bermuda_rules());
  }
  std::optional<TurfState> noted(TurfState state, Day looked, Day day) const {
    const TurfAssessment reading = on(day, TurfSpecies::bermudagrass, EyeCheck{looked, state});
    return reading.noted ? std::optional{reading.state} : std::nullopt;
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

TEST_CASE("likely dormant never is a permission: it asks for a look, and only a fresh look counts") {
  const Day september = make_day(2024, 9, 1);
  const Weather weather = whole_year(september);
  const Day january = september + Days{130};
  const TurfAssessment unseen = weather.on(january);
  CHECK(unseen.state == TurfState::likely_dormant);
  CHECK(unseen.ask.find("Note the date") != std::string::npos);
  const auto on = [&](Day day, EyeCheck look) {
    return weather.on(day, TurfSpecies::bermudagrass, look).state;
  };
  CHECK(on(january, {january - Days{3}, TurfState::dormant}) == TurfState::dormant);
  CHECK(on(january, {january - Days{30}, TurfState::dormant}) != TurfState::dormant);
  CHECK(on(january, {january - Days{3}, TurfState::semi_dormant}) != TurfState::dormant);
  CHECK(on(january, {january + Days{3}, TurfState::dormant}) != TurfState::dormant);
  // A dormant look does not outlive a warm spell.
  CHECK(on(september + Days{168}, {september + Days{160}, TurfState::dormant}) != TurfState::dormant);
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
  const TurfAssessment winter = weather.on(september + Days{130}, TurfSpecies::zoysiagrass);
  REQUIRE(winter.heat_units);
  CHECK(winter.heat_units->celsius_days() < 5.0);
  CHECK(winter.remarks.size() == 1);
  const TurfAssessment april = weather.on(september + Days{225}, TurfSpecies::zoysiagrass);
  CHECK(april.heat_units->celsius_days() > 200.0);
  CHECK(april.remarks.back().code == "zoysiagrass-heat-units");
}

TEST_CASE("too few soil days give no state and say so") {
  const Day september = make_day(2024, 9, 1);
  Weather weather = whole_year(september);
  for (int back = 1; back <= 3; ++back) weather.get().soil.clear(september + Days{120 - back});
  const TurfAssessment reading = weather.on(september + Days{120});
  CHECK(reading.state == TurfState::unknown);
  CHECK(reading.remarks.front().code == "turf-state-not-known");
  CHECK(read_turf({}, september, TurfSpecies::bermudagrass, Hemisphere::north, {}, bermuda_rules()).state ==
        TurfState::unknown);
}

TEST_CASE("species are known by their words") {
  CHECK(turf_species("hybrid bermudagrass") == TurfSpecies::bermudagrass);
  CHECK(turf_species("Zoysiagrass fairways") == TurfSpecies::zoysiagrass);
  CHECK(turf_species("tall fescue") == TurfSpecies::cool_season);
  CHECK(!turf_species("moss"));
}

TEST_CASE("the turf file holds the limits of the trade") {
  // Extension notes: growth at 65 F and slowing below 55 F at 4 inch; killing frost at 28 F; first green from
  // 55 to 60 F.
  const TurfRules shipped = bermuda_rules();
  CHECK(shipped.green_soil.fahrenheit() == Approx(65));
  CHECK(shipped.slowing_soil.fahrenheit() == Approx(55));
  CHECK(shipped.hard_frost.fahrenheit() == Approx(28));
  CHECK(shipped.breaking_soil.fahrenheit() == Approx(55));
  CHECK(shipped.greening_soil.fahrenheit() == Approx(60));
  CHECK(shipped.hard_nights == 2);
  CHECK(shipped.zoysia_heat.celsius_days() == Approx(200));
}

TEST_CASE("cooler soil in spring does not take green turf back, a freeze does") {
  const Day september = make_day(2024, 9, 1);
  Weather weather = whole_year(september);
  weather.span(september + Days{225}, 20, 61, 44, 66);
  const auto state = [&](int day) { return weather.on(september + Days{day}).state; };
  CHECK(state(224) == TurfState::green);
  CHECK(state(240) == TurfState::green);
  weather.span(september + Days{230}, 1, 61, 27, 50);
  CHECK(state(240) == TurfState::green);  // one night may be local
  weather.span(september + Days{231}, 1, 61, 27, 50);
  CHECK(state(231) == TurfState::green);
  CHECK(state(232) == TurfState::greening);
  // Once greener again it takes another freeze.
  weather.span(september + Days{233}, 8, 67, 50, 80);
  CHECK(state(241) == TurfState::green);
  CHECK(state(245) == TurfState::green);
}

TEST_CASE("turf that grew through a winter on record does not green up") {
  const Day september = make_day(2024, 9, 1);
  Weather weather{september - Days{120}, 400};
  weather.span(september + Days{60}, 140, 60, 45, 70);
  weather.span(september + Days{200}, 60, 68, 55, 80);
  for (int day = 100; day < 200; ++day) CHECK(weather.on(september + Days{day}).state == TurfState::slowing);
  CHECK(weather.on(september + Days{215}).state == TurfState::green);
  // Without the fall on record nobody knows that it did.
  Weather late{september + Days{110}, 200};
  late.span(september + Days{110}, 90, 60, 45, 70);
  CHECK(late.on(september + Days{150}).state == TurfState::greening);
}

TEST_CASE("a state that was seen overrides the estimate for two weeks and is the one to go on from") {
  const Day september = make_day(2024, 9, 1);
  const Weather weather = whole_year(september);
  const Day looked = september + Days{200};  // greening by temperature
  const TurfAssessment estimated = weather.on(looked);
  CHECK(!estimated.noted);
  CHECK((estimated.since == september + Days{195}));
  for (const TurfState seen : {TurfState::green, TurfState::slowing, TurfState::semi_dormant,
                               TurfState::breaking, TurfState::greening}) {
    CHECK(weather.noted(seen, looked, looked) == seen);
    CHECK(weather.noted(seen, looked, looked + Days{14}) == seen);
    CHECK(!weather.noted(seen, looked, looked + Days{15}));
    CHECK(!weather.noted(seen, looked, looked - Days{1}));
  }
  const auto green = [&](int days) {
    return weather.on(looked + Days{days}, TurfSpecies::bermudagrass, EyeCheck{looked, TurfState::green});
  };
  CHECK((green(5).since == looked));
  // In soil that stays at 62 F the estimate alone would say greening on day 208.
  Weather cool = whole_year(september);
  cool.span(september + Days{210}, 40, 62, 50, 74);
  const Day later = looked + Days{20};
  CHECK(cool.on(later).state == TurfState::greening);
  CHECK(cool.on(later, TurfSpecies::bermudagrass, EyeCheck{looked, TurfState::green}).state ==
        TurfState::green);
}

TEST_CASE("a freeze ends what was seen green, and a warm spell what was seen dormant; the answer says so") {
  const Day september = make_day(2024, 9, 1);
  Weather weather = whole_year(september);
  const Day looked = september + Days{200};
  weather.span(looked, 1, 62, 27, 70);  // the night before the look
  CHECK(weather.noted(TurfState::green, looked, looked + Days{3}) == TurfState::green);
  weather.span(looked + Days{2}, 1, 62, 27, 70);
  CHECK(weather.noted(TurfState::green, looked, looked + Days{2}) == TurfState::green);
  CHECK(!weather.noted(TurfState::green, looked, looked + Days{3}));
  const TurfAssessment after =
      weather.on(looked + Days{3}, TurfSpecies::bermudagrass, EyeCheck{looked, TurfState::green});
  REQUIRE(after.remarks.size() == 1);
  CHECK(after.remarks.front().code == "turf-look-outlived");

  const Day winter = september + Days{95};  // hard nights come on days 100 to 102
  CHECK(weather.noted(TurfState::dormant, winter, winter + Days{14}) == TurfState::dormant);
  const Day spell = september + Days{160};
  CHECK(weather.noted(TurfState::dormant, spell, spell + Days{6}) == TurfState::dormant);
  CHECK(!weather.noted(TurfState::dormant, spell, spell + Days{8}));
}
