// SPDX-License-Identifier: MIT
#include "treatment/grass_control.hpp"

#include "model_files.hpp"
#include "support/source_texts.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

const std::string bluegrass = "control/annual_bluegrass.json";
const std::string goosegrass = "control/goosegrass.json";

/// The problem of a shipped file with one part exchanged.
Problem refused(const std::string& file, const std::string& part, const std::string& by) {
  const auto result = read_grass_control(tests::exchanged(model_text(file), part, by), file);
  INFO(part << " -> " << by);
  REQUIRE(!result);
  INFO(describe(result.error()));
  CHECK(result.error().family == Family::request);
  CHECK(result.error().where.file == file);
  return result.error();
}

std::string place(const std::string& file, const std::string& part, const std::string& by) {
  return refused(file, part, by).where.json_pointer;
}

}  // namespace

TEST_CASE("the control file of annual bluegrass loads with grounds for every cell") {
  const GrassControl grass = shipped_control();
  CHECK(grass.targets == std::vector<std::string>{"POAAN"});
  CHECK(grass.row("contact")->kill[2].percent() == Approx(90));
  CHECK(grass.row("translocated")->kill[4].percent() == Approx(87));
  CHECK(grass.row("contact")->sprays == 1);
  CHECK(grass.row("no such row") == nullptr);
  CHECK(grass.unnamed_rows == std::vector<std::string>{"contact", "translocated"});
  CHECK(grass.cap.percent() == Approx(95));
  CHECK(grass.collections_resistant.at(9).value == 64);
  for (const KillRow& row : grass.rows) {
    for (const Grounds& grounds : row.grounds) CHECK((!grounds.note.empty() || !grounds.source.empty()));
  }
}

TEST_CASE("a file may have sprays and residual figures by active") {
  const GrassControl grass = shipped_control("goosegrass");
  CHECK(grass.row("topramezone")->sprays == 2);
  CHECK(!grass.warmth);
  CHECK(grass.greatest_by_active.at("oxadiazon").least == 92);
  CHECK(grass.greatest.most == 90);
}

TEST_CASE("a number outside its range, in another unit or without grounds does not load") {
  CHECK(place(bluegrass, "\"two_tillers\": {\"value\": 90", "\"two_tillers\": {\"value\": 190") ==
        "/foliar/rows/0/two_tillers/value");
  CHECK(place(bluegrass, "\"leaves_1_3\": {\"value\": 95, \"unit\": \"%\"",
              "\"leaves_1_3\": {\"value\": 0.95, \"unit\": \"share\"") == "/foliar/rows/0/leaves_1_3/unit");
  CHECK(place(bluegrass, "\"cap\": {\"value\": 95", "\"cap\": {\"value\": 101") == "/cap/value");
  CHECK(refused(bluegrass, "\"basis\": \"derived\"", "\"basis\": \"guess\"").expected.find("published") !=
        std::string::npos);
  CHECK(refused(bluegrass, "\"basis\": \"published\", \"source\": \"brosnan-2020b\",",
                "\"basis\": \"published\",")
            .what == "a published number needs its source");
  CHECK(refused(bluegrass, ", \"note\": \"as the contact row: young plants die of either\"", "").what ==
        "a derived number needs a note saying from what");
}

TEST_CASE("a misspelled or missing key does not load") {
  CHECK(place(bluegrass, "\"cap\"", "\"caps\"") == "/cap");
  CHECK(place(bluegrass, "\"title\": \"Annual", "\"color\": \"red\", \"title\": \"Annual") == "/color");
  CHECK(place(bluegrass, "\"two_tillers\": {\"value\": 90", "\"three_tillers\": {\"value\": 90") ==
        "/foliar/rows/0/two_tillers");
}

TEST_CASE("rows have one name each, and an unnamed partner is drawn from one or two that are there") {
  CHECK(place(bluegrass, "\"name\": \"translocated\"", "\"name\": \"contact\"") == "/foliar/rows/1/name");
  CHECK(place(bluegrass, "[\"contact\", \"translocated\"]", "[\"contact\", \"translokated\"]") ==
        "/foliar/unnamed");
  CHECK(place(bluegrass, "[\"contact\", \"translocated\"]", "[]") == "/foliar/unnamed");
  CHECK(place(bluegrass, "[\"contact\", \"translocated\"]",
              "[\"contact\", \"translocated\", \"glyphosate\"]") == "/foliar/unnamed");
  CHECK(place(goosegrass, "\"sprays\": 2", "\"sprays\": 0") == "/foliar/rows/0/sprays");
}

TEST_CASE("spans are not reversed, a long residual lasts longer than a short one, groups come once") {
  CHECK(place(bluegrass, "\"least\": 8, \"most\": 16", "\"least\": 16, \"most\": 8") ==
        "/residual/unnamed_weeks/most");
  CHECK(place(bluegrass, "\"long\": {\"value\": 16", "\"long\": {\"value\": 8") == "/residual/long");
  CHECK(place(bluegrass, "\"group\": 3,", "\"group\": 9,") == "/collections_resistant/1/group");
  CHECK(place(goosegrass, "\"active\": \"indaziflam\",\n        \"share\"",
              "\"active\": \"oxadiazon\",\n        \"share\"") == "/residual/greatest_by_active/1/active");
}

TEST_CASE("foliar action falls to 55 percent in the cold and is whole from 15.6 C on") {
  const WarmthRule rule = *shipped_control().warmth;
  const auto factor = [&](double celsius) { return warmth_factor(Temperature::from_celsius(celsius), rule); };
  CHECK(factor(-5.0) == Approx(0.55));
  CHECK(factor(8.0) == Approx(0.55));
  CHECK(factor(11.8) == Approx(0.775));
  CHECK(factor(15.6) == Approx(1.0));
  CHECK(factor(30.0) == Approx(1.0));
}
