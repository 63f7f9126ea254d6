// SPDX-License-Identifier: MIT
#include "treatment/green_up.hpp"

#include "model_files.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

TurfRules turf_rules() { return taken(read_turf_rules(model_text("turf_state.json"), "turf_state.json")); }

const Day midsummer = make_day(2025, 6, 21);

DayRange green_up_in(std::span<const Temperature> soil, Day first, Hemisphere hemisphere,
                     const std::optional<KnownTurf>& known = {}) {
  const TurfRules rules = turf_rules();
  return GreenUp{{first, first + Days{365}}, hemisphere, rules}.in(soil, known);
}

/// A season of soil, day by day from midsummer.
class Soil {
 public:
  Soil() : days_(365, Temperature::from_fahrenheit(75.0)) { from(make_day(2025, 11, 1), 48.0); }
  Soil& from(Day day, double fahrenheit) {
    for (std::size_t i = index(day); i < days_.size(); ++i)
      days_[i] = Temperature::from_fahrenheit(fahrenheit);
    return *this;
  }
  DayRange green_up(const std::optional<KnownTurf>& known = {}) const {
    return green_up_in(days_, midsummer, Hemisphere::north, known);
  }
  DayRange southern_green_up() const { return green_up_in(days_, midsummer - Days{182}, Hemisphere::south); }

 private:
  static std::size_t index(Day day) { return static_cast<std::size_t>((day - midsummer).count()); }
  std::vector<Temperature> days_;
};

const Day march = make_day(2026, 3, 1);
const Day april = make_day(2026, 4, 1);

}  // namespace

TEST_CASE("green-up begins after five days at 55 F and ends when a week is at 65 F") {
  Soil soil;
  soil.from(march, 56.0).from(april, 66.0);
  CHECK((soil.green_up() == DayRange{march + Days{5}, april + Days{7}}));
  // Half a year earlier the south does the same.
  const DayRange south = soil.southern_green_up();
  CHECK(south.size() == soil.green_up().size());
}

TEST_CASE("green-up goes one way: neither a cold spell ends it nor a second begins") {
  Soil soil;
  soil.from(march, 56.0).from(march + Days{10}, 45.0).from(april, 66.0).from(april + Days{15}, 58.0);
  CHECK((soil.green_up() == DayRange{march + Days{5}, april + Days{7}}));
}

TEST_CASE("warm days before mid-January begin no green-up") {
  Soil soil;
  soil.from(make_day(2025, 12, 20), 58.0).from(make_day(2026, 1, 8), 48.0).from(march, 58.0);
  CHECK(iso(soil.green_up().begin()) == "2026-03-06");
  CHECK(iso(soil.green_up().end()) == "2026-06-21");
}

TEST_CASE("soil that never cools and soil that never warms have no green-up") {
  CHECK(Soil{}.green_up().empty());
  CHECK(Soil{}.from(make_day(2025, 11, 1), 58.0).green_up().empty());
}

TEST_CASE("what is known of the turf is gone on from") {
  Soil soil;
  soil.from(march, 56.0).from(april, 66.0);
  const auto known = [&](TurfState state, Day on) { return soil.green_up(KnownTurf{state, on}); };
  CHECK(known(TurfState::green, march + Days{20}).empty());
  CHECK((known(TurfState::greening, march - Days{20}) == DayRange{march - Days{20}, april + Days{7}}));
  CHECK((known(TurfState::dormant, march + Days{20}) == DayRange{march + Days{25}, april + Days{7}}));
  CHECK((known(TurfState::unknown, march + Days{20}) == soil.green_up()));
  CHECK((known(TurfState::green, make_day(2025, 10, 1)) == soil.green_up()));
  CHECK((known(TurfState::semi_dormant, make_day(2025, 12, 1)) == soil.green_up()));
  // Seen greening in soil that says green: a week passes before the soil is heard.
  CHECK((known(TurfState::greening, april + Days{10}) == DayRange{april + Days{10}, april + Days{17}}));
}

TEST_CASE("unknown soil days begin nothing") {
  std::vector<Temperature> none(365);
  CHECK(green_up_in(none, midsummer, Hemisphere::north).empty());
  CHECK(green_up_in({}, midsummer, Hemisphere::north).empty());
}
