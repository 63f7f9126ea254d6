// SPDX-License-Identifier: MIT
#include "soil/soil_model.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <utility>

#include "soil_files.hpp"

using namespace soilclock;
using namespace soilclock::soil;
using soilclock::tests::estimate_rules;
using soilclock::tests::soil_file;
using soilclock::tests::soil_files;

namespace {

constexpr const char* changed_file = "two_memories_east_5cm.json";

std::string changed(const std::string& from, const std::string& to) {
  std::string text = tests::text_of(tests::soil_folder() / changed_file);
  const auto at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

std::string refusal(const std::string& text) {
  const auto model = read_soil_model(text, changed_file);
  REQUIRE_FALSE(model);
  return describe(model.error());
}

bool says(const SoilChoice& choice, const std::string& code) {
  for (const Remark& remark : choice.remarks) {
    if (remark.code == code) return true;
  }
  return false;
}

}  // namespace

TEST_CASE("the soil model does not jump at the edge of its area") {
  // Estimates of one state on both sides of the eastern area's western and northern edge, and inside the
  // fading belt.
  const SoilModels models = soil_files();
  const auto at = [&](double latitude, double longitude) {
    const SoilChoice choice = models.choose(Place{latitude, longitude, {}});
    return std::pair{value_at(choice.pair.shallow,
                              {{"fast_memory_c", 18.0}, {"slow_memory_c", 14.0}, {"radiation_mj_m2", 35.0}}),
                     choice.error_at(Depth::from_cm(5.0)).slow_variance};
  };
  for (const auto& [latitude, longitude] :
       {std::pair{38.0, -100.0}, {45.2, -90.0}, {38.0, -103.0}, {47.0, -101.5}}) {
    CAPTURE(latitude, longitude);
    const auto [here, spread_here] = at(latitude, longitude);
    const auto [west, spread_west] = at(latitude + 0.05, longitude - 0.05);
    CHECK(std::abs(west - here) < 0.1);
    CHECK(std::abs(spread_west - spread_here) < 0.1);
  }
  CHECK(at(38.0, -99.0).second == Approx(0.55));
  CHECK(at(38.0, -101.5).second == Approx(0.5 * (0.55 + 1.733)));
  CHECK(at(38.0, -103.5).second == Approx(1.733));
}

TEST_CASE("every soil model file loads, names its sources and meets its check points") {
  const SoilModels models = soil_files();
  CHECK(models.all().size() == 7);
  for (const SoilModel& model : models.all()) {
    CAPTURE(model.id);
    CHECK_FALSE(model.check_points.empty());
    CHECK_FALSE(model.sources.empty());
    for (const CheckPoint& point : model.check_points) {
      CHECK(value_at(model, point.input) == Approx(point.expected).margin(point.tolerance + 1e-12));
    }
  }
}

TEST_CASE("a soil model file with a fault is refused and the place named") {
  CHECK_THAT(refusal(changed("\"family\"", "\"famliy\"")), Catch::Contains("/family"));
  CHECK_THAT(refusal(changed("\"title\"", "\"color\": \"green\", \"title\"")), Catch::Contains("/color"));
  CHECK_THAT(refusal(changed("{\"value\": 60, \"unit\": \"d\"}", "{\"value\": 60}")),
             Catch::Contains("/parameters/slow_memory/unit"));
  CHECK_THAT(refusal(changed("{\"value\": 60, \"unit\": \"d\"}", "{\"value\": 60, \"unit\": \"h\"}")),
             Catch::Contains("/parameters/slow_memory/unit"));
  CHECK_THAT(refusal(changed("\"cold_slope\"", "\"cool_slope\"")), Catch::Contains("/parameters/cold_slope"));
  CHECK_THAT(refusal(changed("\"sources\": [", "\"sources\": [], \"sources_\": [")),
             Catch::Contains("/sources"));
  CHECK_THAT(refusal(changed("\"sources\"", "\"source\"")), Catch::Contains("/sources"));
  CHECK_THAT(refusal(changed("\"expected\": 10.76", "\"expected\": 10.77")),
             Catch::Contains("/check_points/0/expected"));
  CHECK_THAT(refusal(changed("\"radiation_mj_m2\": 30", "\"radiation\": 30")),
             Catch::Contains("/check_points/0/quantity"));
  CHECK_THAT(refusal(changed("\"outside\": \"remark\"", "\"outside\": \"weight zero\"")),
             Catch::Contains("/elsewhere"));
  CHECK_THAT(refusal(changed("\"two-memories\"", "\"two-memory\"")), Catch::Contains("did you mean"));
  CHECK_THAT(refusal(changed("\"value\": 2,", "\"value\": 0,")), Catch::Contains("/parameters/fast_memory"));
  CHECK_THAT(refusal("{\"format\": "), Catch::Contains("two_memories_east_5cm.json:1:"));
}

TEST_CASE("the place decides which coefficients hold") {
  const SoilModels models = soil_files();
  const SoilChoice tennessee = models.choose(Place{36.01, -85.13, {}});
  CHECK(tennessee.pair.shallow.id == "two_memories_east_5cm");
  CHECK(tennessee.pair.deep.id == "two_memories_east_10cm");
  CHECK(tennessee.remarks.empty());

  for (const Place& outside : {Place{33.0, -112.0, {}}, Place{48.9, -68.0, {}}}) {
    const SoilChoice wide = models.choose(outside);
    CHECK(wide.pair.shallow.id == "two_memories_wide_5cm");
    CHECK(says(wide, "soil-probe-needed"));
    CHECK(wide.shallow_error.slow_variance ==
          Approx(3.15 * tennessee.shallow_error.slow_variance).margin(1e-3));
  }

  const SoilChoice dublin = models.choose(Place{53.43, -6.24, {}});
  CHECK(dublin.pair.shallow.id == "two_memories_east_5cm");
  CHECK(says(dublin, "soil-model-outside-area"));
  CHECK(dublin.deep_error.fast_variance == Approx(3.15 * tennessee.deep_error.fast_variance));
  CHECK(dublin.deep_error.reading_variance == tennessee.deep_error.reading_variance);

  const SoilChoice nowhere = models.choose(std::nullopt);
  CHECK(nowhere.pair.shallow.id == "one_memory_5cm");
  CHECK(says(nowhere, "latitude-unknown"));
}

TEST_CASE("the error model between the depths follows the straight line") {
  const SoilChoice choice = soil_files().choose(Place{36.0, -85.0, {}});
  CHECK(choice.error_at(Depth::from_cm(5.0)).fast_lag1 == Approx(0.63));
  CHECK(choice.error_at(Depth::from_cm(7.5)).constant_variance == Approx(0.465));
  CHECK(choice.error_at(Depth::from_cm(2.5)).slow_variance == Approx(0.58));
}

TEST_CASE("an incomplete set of soil models is refused") {
  CHECK_FALSE(SoilModels::from({}, estimate_rules()));
  CHECK_FALSE(SoilModels::from({soil_file("canopy_recursion.json")}, estimate_rules()));
  const auto lonely = SoilModels::from(
      {soil_file("canopy_recursion.json"), soil_file("two_memories_east_5cm.json")}, estimate_rules());
  REQUIRE_FALSE(lonely);
  CHECK_THAT(describe(lonely.error()), Catch::Contains("two-memories-east"));
}
