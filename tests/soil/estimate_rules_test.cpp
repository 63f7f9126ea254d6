// SPDX-License-Identifier: MIT
#include "soil/estimate_rules.hpp"

#include <catch2/catch.hpp>

#include "soil_files.hpp"
#include "support/source_texts.hpp"

using namespace soilclock;
using namespace soilclock::soil;

TEST_CASE("the usual year swings with latitude, the same on either side of the equator, within its ends") {
  const UsualYear year = tests::estimate_rules().usual_year;
  CHECK(year.amplitude_kelvin(36.0) == Approx(10.5));
  CHECK(year.amplitude_kelvin(-36.0) == year.amplitude_kelvin(36.0));
  CHECK(year.amplitude_kelvin(0.0) == 2.0);
  CHECK(year.amplitude_kelvin(70.0) == 16.0);
  CHECK(year.warmest_day(Hemisphere::north) == 200);
  CHECK(year.warmest_day(Hemisphere::south) == 17);
}

TEST_CASE("two inches and five centimeters are one depth, four inches are another") {
  const EstimateRules rules = tests::estimate_rules();
  CHECK(rules.same_depth(Depth::from_inches(2.0), Depth::from_cm(5.0)));
  CHECK_FALSE(rules.same_depth(Depth::from_inches(4.0), Depth::from_cm(5.0)));
}

TEST_CASE("a file of the estimate with a slip is refused at its place") {
  const auto place = [](const std::string& part, const std::string& by) {
    const std::string file = "models/soil/estimate.json";
    const auto read = read_estimate_rules(tests::exchanged(tests::source_text(file), part, by), file);
    REQUIRE_FALSE(read);
    return read.error().where.json_pointer;
  };
  CHECK(place("\"amplitude_most\": {\"value\": 16", "\"amplitude_most\": {\"value\": 1") ==
        "/amplitude_most/value");
  CHECK(place("\"start_days\": {\"value\": 10", "\"start_days\": {\"value\": 9.5") == "/start_days/value");
  CHECK(place("\"unit\": \"K2 per 5 cm\"", "\"unit\": \"K2\"") == "/depth_variance/unit");
  CHECK(place("\"run_in\"", "\"run_out\"") == "/run_in");
}
