// SPDX-License-Identifier: MIT
#include "advice/data/usual_air.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "support/shipped_catalogue.hpp"
#include "support/source_texts.hpp"

using namespace soilclock;
using namespace soilclock::advice;
using namespace soilclock::tests;

namespace {

constexpr const char* path = "models/weather/usual_air.json";

/// Three cells of a grid of ten degrees around 45 N: two on both sides of the date line, one south of them.
UsualAir small_grid() {
  const std::string rows = R"("rows": [
    {"latitude": 50, "longitudes": [170, -180], "cos": [-10, -20], "sin": [1, 3], "cos_2": [0, 0], "sin_2": [2, 2]},
    {"latitude": 40, "longitudes": [170], "cos": [-30], "sin": [5], "cos_2": [1], "sin_2": [2]}
  ],)";
  std::string text = source_text(path);
  const auto begin = text.find("\"rows\"");
  const auto end = text.find("\"basis\": \"derived\",\n  \"basis_note\"");
  REQUIRE(begin != std::string::npos);
  REQUIRE(end != std::string::npos);
  text = text.substr(0, begin) + rows + text.substr(end);
  const auto air =
      read_usual_air(exchanged(text, R"("step": {"value": 2.5)", R"("step": {"value": 10)"), path);
  REQUIRE(air);
  return *air;
}

std::string refusal(const std::string& part, const std::string& by) {
  const auto air = read_usual_air(exchanged(source_text(path), part, by), path);
  REQUIRE_FALSE(air);
  return describe(air.error());
}

}  // namespace

TEST_CASE("between the cells the shape follows straight lines, across the date line too") {
  const UsualAir air = small_grid();
  CHECK(air.shape_at({50.0, 170.0, {}})->at(0) == Approx(-10.0));
  CHECK(air.shape_at({50.0, 175.0, {}})->at(0) == Approx(-15.0));
  CHECK(air.shape_at({50.0, -180.0, {}})->at(1) == Approx(3.0));
  CHECK(air.shape_at({45.0, 170.0, {}})->at(0) == Approx(-20.0));
  // Of four corners one is sea: the others share its weight, a quarter each of three quarters.
  CHECK(air.shape_at({45.0, 175.0, {}})->at(0) == Approx((-10.0 - 20.0 - 30.0) / 3.0));
}

TEST_CASE("where all cells are sea there is no shape") {
  CHECK(!small_grid().shape_at({0.0, 0.0, {}}));
  CHECK(!shipped_catalogue().futures.usual_air.shape_at({36.0, -40.0, {}}));
}

TEST_CASE("the shipped shapes are warm in July in the north and in January in the south") {
  const UsualAir& air = shipped_catalogue().futures.usual_air;
  CHECK(air.shape_at({40.0, -90.0, {}})->at(0) < -10.0);  // cold in January
  CHECK(air.shape_at({-33.0, 148.0, {}})->at(0) > 4.0);
  CHECK(std::abs(air.shape_at({0.0, 25.0, {}})->at(0)) < 3.0);
}

TEST_CASE("a grid with a fault is refused and the place named") {
  CHECK_THAT(
      refusal(R"({"latitude": 60, "longitudes": [-162.5, )", R"({"latitude": 60, "longitudes": [-162, )"),
      Catch::Contains("/rows/0/longitudes") && Catch::Contains("off the grid"));
  CHECK_THAT(refusal(R"({"latitude": 60, "longitudes": [-162.5, )", R"({"latitude": 60, "longitudes": [)"),
             Catch::Contains("/rows/0/cos") && Catch::Contains("one for each"));
  CHECK_THAT(refusal(R"("year_level")", R"("year_levle")"), Catch::Contains("/year_level"));
}
