// SPDX-License-Identifier: MIT
#include "treatment/gates.hpp"

#include <algorithm>

#include "model_files.hpp"
#include "treatment/spray_rules.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

const std::string file = "gates.json";

const GateRules& rules() {
  static const GateRules read = [] {
    GateRules shipped = taken(read_gate_rules(model_text(file), file));
    shipped.cold_air =
        taken(read_spray_rules(model_text("spray_day.json"), "spray_day.json")).post_stop_maximum;
    shipped.spring = taken(read_turf_rules(model_text("turf_state.json"), "turf_state.json")).spring;
    return shipped;
  }();
  return read;
}

Temperature fahrenheit(double degrees) { return Temperature::from_fahrenheit(degrees); }

/// A mild week of bermudagrass in growth: no gate at all.
WeekConditions mild(Day day = make_day(2025, 10, 6)) {
  WeekConditions week;
  week.day = day;
  week.species = TurfSpecies::bermudagrass;
  week.turf = TurfState::green;
  week.weather = {fahrenheit(66), fahrenheit(72), fahrenheit(73)};
  return week;
}

const Gate* find(const std::vector<Gate>& found, GateReason reason, bool stops) {
  const auto at = std::find_if(found.begin(), found.end(), [&](const Gate& gate) {
    return gate.reason == reason && gate.stops == stops;
  });
  return at == found.end() ? nullptr : &*at;
}

/// The first reason that stops each part; nothing for a part that may go out.
struct StoppedParts {
  std::optional<GateReason> residual;
  std::optional<GateReason> foliar;
};

StoppedParts stopped(const WeekConditions& week, const PlannedResidual& residual = {}) {
  StoppedParts parts;
  for (const Gate& gate : gates(week, rules(), residual)) {
    if (!gate.stops) continue;
    if (gate.residual && !parts.residual) parts.residual = gate.reason;
    if (gate.foliar && !parts.foliar) parts.foliar = gate.reason;
  }
  return parts;
}

}  // namespace

TEST_CASE("a mild week in growth has no gate") { CHECK(gates(mild(), rules()).empty()); }

TEST_CASE("green-up of warm-season turf stops foliar parts and never the residual") {
  for (const TurfSpecies species : {TurfSpecies::bermudagrass, TurfSpecies::zoysiagrass}) {
    for (const TurfState state : {TurfState::breaking, TurfState::greening}) {
      WeekConditions week = mild();
      week.species = species;
      week.turf = state;
      CHECK(stopped(week).foliar == GateReason::green_up);
      CHECK(!stopped(week).residual);
    }
  }
  for (const TurfState state : {TurfState::unknown, TurfState::green, TurfState::slowing,
                                TurfState::semi_dormant, TurfState::likely_dormant, TurfState::dormant}) {
    WeekConditions week = mild();
    week.turf = state;
    CHECK(!stopped(week).foliar);
  }
}

TEST_CASE("rules for warm-season turf do not act on cool-season turf, nor where the turf is not known") {
  for (const auto species : {std::optional{TurfSpecies::cool_season}, std::optional<TurfSpecies>{}}) {
    for (const TurfState state : {TurfState::breaking, TurfState::greening, TurfState::likely_dormant}) {
      WeekConditions week = mild(make_day(2026, 3, 20));
      week.species = species;
      week.turf = state;
      week.weather.soil_mean = fahrenheit(55);
      CHECK(gates(week, rules()).empty());
    }
  }
}

TEST_CASE("likely dormant turf asks for a look; turf seen dormant was looked at") {
  WeekConditions week = mild();
  week.turf = TurfState::likely_dormant;
  const auto found = gates(week, rules());
  REQUIRE(found.size() == 1);
  CHECK(found.front().reason == GateReason::dormant_turf);
  CHECK((found.front().foliar && !found.front().residual && !found.front().stops));
  week.turf = TurfState::dormant;
  CHECK(gates(week, rules()).empty());
}

TEST_CASE("days below 50 F stop the foliar part only") {
  WeekConditions week = mild();
  week.weather.air_max_first_days = fahrenheit(49.9);
  CHECK(stopped(week).foliar == GateReason::cold_air);
  CHECK(!stopped(week).residual);
  week.weather.air_max_first_days = fahrenheit(50.1);
  CHECK(gates(week, rules()).empty());
}

TEST_CASE("frozen ground, or days that never thaw, stop everything; cold soil alone does not") {
  WeekConditions week = mild();
  week.weather.soil_mean = fahrenheit(34.0 - 0.1);
  CHECK(stopped(week).residual == GateReason::frozen_ground);
  CHECK(stopped(week).foliar == GateReason::frozen_ground);
  week.weather = {fahrenheit(36), fahrenheit(31.9), fahrenheit(55)};
  CHECK(stopped(week).residual == GateReason::snow_or_frost_on_ground);
  CHECK(stopped(week).foliar == GateReason::snow_or_frost_on_ground);
  week.weather = {fahrenheit(35), fahrenheit(40), fahrenheit(40)};
  CHECK(!stopped(week).residual);
  CHECK(stopped(week).foliar == GateReason::cold_air);
}

TEST_CASE("what is not known gates nothing") {
  WeekConditions week;
  week.day = make_day(2026, 1, 19);
  week.species = TurfSpecies::bermudagrass;
  CHECK(gates(week, rules()).empty());
}

TEST_CASE("a residual is stopped around an overseeding, a foliar part called a caution for") {
  const Day seeded = make_day(2025, 10, 1);
  const auto on = [&](int days, const PlannedResidual& residual = {}) {
    WeekConditions week = mild(seeded + Days{days});
    week.overseed_on = seeded;
    return gates(week, rules(), residual);
  };
  CHECK(on(-57).empty());
  for (const int days : {-56, -1, 0, 104}) {
    INFO(days);
    const auto found = on(days);
    const Gate* stop = find(found, GateReason::overseeding, true);
    REQUIRE(stop);
    CHECK((stop->residual && !stop->foliar));
    CHECK((stop->until == seeded + Days{105}));
    const Gate* caution = find(found, GateReason::overseeding, false);
    REQUIRE(caution);
    CHECK((caution->foliar && !caution->residual));
    CHECK(sentence(*stop, rules()) != sentence(*caution, rules()));
  }
  CHECK(on(105).empty());
}

TEST_CASE("known actives bring their own interval before seed") {
  const Actives actives = taken(read_actives(model_text("actives.json"), "actives.json"));
  const auto interval = [&](const std::vector<std::string>& names) {
    std::vector<PlanEntry> entries;
    for (const std::string& name : names) entries.push_back(taken(read_plan_entry(name, actives)));
    return seeding_weeks_of(entries);
  };
  CHECK(interval({"dithiopyr"}) == 6.0);
  CHECK(interval({"dithiopyr", "prodiamine"}) == 14.0);
  CHECK(!interval({"14"}));
  CHECK(!interval({}));
  const Day seeded = make_day(2025, 10, 1);
  const auto residual_stopped = [&](int weeks_before, std::optional<double> interval) {
    WeekConditions week = mild(seeded - Days{7 * weeks_before});
    week.overseed_on = seeded;
    return stopped(week, {interval, {}}).residual == GateReason::overseeding;
  };
  CHECK(residual_stopped(13, 14.0));
  CHECK(!residual_stopped(13, {}));
  CHECK(!residual_stopped(7, 6.0));
  CHECK(residual_stopped(7, {}));
  CHECK(residual_stopped(-3, 6.0));
  // Seed tolerates it: neither before nor after.
  CHECK(!residual_stopped(1, 0.0));
  CHECK(!residual_stopped(-3, 0.0));
}

TEST_CASE("groups 3 and 29 are a caution for bermudagrass roots in spring soil of 50 to 60 F") {
  const Day march = make_day(2026, 3, 16);
  const auto warned = [&](WeekConditions week, const std::vector<int>& groups) {
    const auto found = gates(week, rules(), {{}, groups});
    const Gate* caution = find(found, GateReason::root_caution, false);
    return caution != nullptr && caution->residual && !caution->foliar;
  };
  WeekConditions week = mild(march);
  for (const double soil : {50.1, 55.0, 59.9}) {
    week.weather.soil_mean = fahrenheit(soil);
    CHECK(warned(week, {3}));
    CHECK(warned(week, {14, 29}));
    CHECK(warned(week, {}));
    CHECK(!warned(week, {14}));
    CHECK(!warned(week, {5, 14}));
  }
  CHECK(!stopped(week).residual);
  for (const double soil : {49.9, 60.1}) {
    week.weather.soil_mean = fahrenheit(soil);
    CHECK(!warned(week, {3}));
  }
  week.weather.soil_mean = fahrenheit(55);
  WeekConditions zoysiagrass = week;
  zoysiagrass.species = TurfSpecies::zoysiagrass;
  CHECK(!warned(zoysiagrass, {3}));
  WeekConditions november = week;
  november.day = make_day(2025, 11, 17);
  CHECK(!warned(november, {3}));
  november.hemisphere = Hemisphere::south;
  CHECK(warned(november, {3}));
}

TEST_CASE("of several reasons the ground's comes before the turf's and the turf's before the air's") {
  WeekConditions week = mild();
  week.turf = TurfState::greening;
  week.weather = {fahrenheit(58), fahrenheit(45), fahrenheit(45)};
  CHECK(stopped(week).foliar == GateReason::green_up);
  week.weather.soil_mean = fahrenheit(30);
  CHECK(stopped(week).foliar == GateReason::frozen_ground);
}

TEST_CASE("the weather of a week is the mean of the days from the treated one on") {
  std::vector<Temperature> soil(20, fahrenheit(50));
  std::vector<Temperature> air(20, fahrenheit(60));
  for (std::size_t i = 10; i < 17; ++i) soil[i] = fahrenheit(i == 10 ? 47.0 : 40.0);
  for (std::size_t i = 10; i < 15; ++i) air[i] = fahrenheit(45);
  const WeekWeather week = week_weather(soil, air, 10, rules());
  CHECK(week.soil_mean.fahrenheit() == Approx(41));
  CHECK(week.air_max_first_days.fahrenheit() == Approx(45));
  CHECK(week.air_max_mean.fahrenheit() == Approx((5 * 45.0 + 2 * 60.0) / 7));
  // Shorter at the end of the days, unknown beyond, and holes are left out.
  CHECK(week_weather(soil, air, 18, rules()).soil_mean.fahrenheit() == Approx(50));
  CHECK(!week_weather(soil, air, 20, rules()).soil_mean.known());
  soil[10] = Temperature::unknown();
  CHECK(week_weather(soil, air, 10, rules()).soil_mean.fahrenheit() == Approx(40));
}

TEST_CASE("every reason has a name of its own and a clause people can read") {
  std::vector<std::string> seen;
  for (const GateReason reason :
       {GateReason::frozen_ground, GateReason::snow_or_frost_on_ground, GateReason::green_up,
        GateReason::overseeding, GateReason::cold_air, GateReason::dormant_turf, GateReason::root_caution}) {
    seen.emplace_back(name(reason));
    const std::string clause = sentence({reason, true, true, true, {}}, rules());
    CHECK(clause.size() > 10);
    CHECK(clause.back() != '.');
    seen.push_back(clause);
  }
  std::sort(seen.begin(), seen.end());
  CHECK(std::adjacent_find(seen.begin(), seen.end()) == seen.end());
  const Gate roots{GateReason::root_caution, false, true, false, {}};
  CHECK(sentence(roots, rules()).find("group 3 or 29") != std::string::npos);
}

TEST_CASE("a gates file with one thing wrong is refused at its place") {
  struct Wrong {
    std::string part, by, place;
  };
  for (const Wrong& wrong :
       {Wrong{"\"frozen_soil\"", "\"frozen_sol\"", "/frozen_soil"},
        Wrong{"{\"value\": 34, \"unit\": \"F\"", "{\"value\": 1, \"unit\": \"C\"", "/frozen_soil/unit"},
        Wrong{"{\"value\": 60, \"unit\": \"F\"", "{\"value\": 40, \"unit\": \"F\"", "/root_soil_to/value"},
        Wrong{"[3, 29]", "[3.5, 29]", "/root_groups/groups"},
        Wrong{"[3, 29], \"basis\": \"common practice\"", "[3, 29], \"basis\": \"felt\"",
              "/root_groups/basis"},
        Wrong{"\"cold_air_days\": {\"value\": 5", "\"cold_air_days\": {\"value\": 0", "/cold_air_days/value"},
        Wrong{"\"title\"", "\"limit\": 1, \"title\"", "/limit"},
        Wrong{"soilclock-gates/1", "soilclock-gates/2", "/format"}}) {
    std::string text = model_text(file);
    const auto at = text.find(wrong.part);
    REQUIRE(at != std::string::npos);
    text.replace(at, wrong.part.size(), wrong.by);
    const auto result = read_gate_rules(text, file);
    INFO(wrong.by);
    REQUIRE_FALSE(result);
    CHECK(result.error().family == Family::request);
    CHECK(result.error().where.json_pointer == wrong.place);
  }
}
