// SPDX-License-Identifier: MIT
#include "treatment/site_cautions.hpp"

#include "model_files.hpp"
#include "treatment/gates.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

const Actives& site_actives() {
  static const Actives all = taken(read_actives(model_text("actives.json"), "actives.json"));
  return all;
}

double stand_weeks() {
  return taken(read_gate_rules(model_text("gates.json"), "gates.json")).residual_after_seeding_weeks;
}

std::vector<SeedingWarning> warnings(const std::string& entry, int weeks) {
  const Day applied = make_day(2025, 7, 1);
  return seeding_warnings(std::vector{taken(read_plan_entry(entry, site_actives()))}, applied,
                          applied + Days{7 * weeks}, site_actives(), stand_weeks());
}

}  // namespace

TEST_CASE("seeding nearer than the measured interval is a hard warning") {
  // Seeding-interval study, Weed Technology 19(1), 2005: prodiamine 14 weeks broadcast, 16 slit seed.
  REQUIRE(warnings("prodiamine", 10).size() == 1);
  CHECK(warnings("prodiamine", 10).front().risk == SeedingRisk::hard);
  CHECK(warnings("prodiamine", 10).front().weeks_between == Approx(10));
  CHECK(warnings("prodiamine", 15).front().risk == SeedingRisk::ask);
  CHECK(warnings("prodiamine", 16).empty());
  CHECK(warnings("dithiopyr", 5).front().risk == SeedingRisk::hard);
}

TEST_CASE("a bare group is judged by its longest interval and an unknown interval asks") {
  CHECK(warnings("group 3", 15).size() == 1);
  CHECK(warnings("flumioxazin", 4).front().risk == SeedingRisk::ask);
  CHECK(warnings("flumioxazin", 4).front().text.find("ask the label") != std::string::npos);
  CHECK(warnings("flumioxazin", 52).size() == 1);  // the longest interval known of any
  CHECK(warnings("flumioxazin", 53).empty());
  CHECK(warnings("mesotrione", 0).empty());
}

TEST_CASE("a stand already seeded is a hard warning") {
  REQUIRE(warnings("prodiamine", -3).size() == 1);
  CHECK(warnings("prodiamine", -3).front().risk == SeedingRisk::hard);
  // The gate of an overseeding opens in the same week.
  CHECK(warnings("prodiamine", -15).size() == 1);
  CHECK(warnings("prodiamine", -16).empty());
}

TEST_CASE("a slope to a green warns before half an inch of rain within three days") {
  DailySeries<Rain> rain;
  const Day day = make_day(2025, 10, 6);
  const SlopeRules slope = taken(read_gate_rules(model_text("gates.json"), "gates.json")).slope;
  for (int i = 0; i < 4; ++i) rain.set(day + Days{i}, Rain::from_mm(0.0), Quality::forecast);
  CHECK(!slope_caution(true, rain, day, false, slope));
  CHECK(slope_caution(true, rain, day, true, slope));
  rain.set(day + Days{3}, Rain::from_mm(50.0), Quality::forecast);
  CHECK(!slope_caution(true, rain, day, false, slope));
  rain.set(day + Days{2}, Rain::from_inches(0.5), Quality::forecast);
  CHECK(slope_caution(true, rain, day, false, slope));
  CHECK(!slope_caution(false, rain, day, true, slope));
  CHECK(slope_caution(true, DailySeries<Rain>{}, day, false, slope)->text.find("not known") !=
        std::string::npos);
}
