// SPDX-License-Identifier: MIT
#include "treatment/kill_matrix.hpp"

#include "model_files.hpp"

using namespace soilclock;
using namespace soilclock::treatment;

namespace {

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

Problem refused(const std::string& text) {
  const auto result = read_kill_matrix(text, "kill.json");
  REQUIRE(!result);
  return result.error();
}

}  // namespace

TEST_CASE("the kill matrix that comes along loads with grounds for every cell") {
  const KillMatrix matrix = shipped_rules().kill;
  CHECK(matrix.of(FoliarPartner::contact, StageClass::two_tillers).percent() == Approx(90));
  CHECK(matrix.of(FoliarPartner::translocated, StageClass::older).percent() == Approx(87));
  CHECK(matrix.cap.percent() == Approx(95));
  CHECK(matrix.collections_resistant.at(9).value == 64);
  for (const auto& row : matrix.grounds) {
    for (const Grounds& grounds : row) CHECK((!grounds.note.empty() || !grounds.source.empty()));
  }
}

TEST_CASE("a kill matrix with a mistake does not load and the message says where") {
  const std::string good = model_text("kill_matrix.json");
  CHECK(refused(replaced(good, "\"two_tillers\": {\"value\": 90", "\"two_tillers\": {\"value\": 190"))
            .where.json_pointer == "/kill/contact/two_tillers/value");
  CHECK(refused(replaced(good, "\"two_tillers\": {\"value\": 90", "\"two_tillers\": {\"value\": 94"))
            .where.json_pointer == "/kill/contact/two_tillers");
  CHECK(refused(replaced(good, "\"translocated\"", "\"translokated\"")).where.json_pointer ==
        "/kill/translocated");
  CHECK(refused(replaced(good, "\"cap\"", "\"caps\"")).where.json_pointer == "/cap");
  CHECK(
      refused(replaced(good, "\"basis\": \"derived\"", "\"basis\": \"guess\"")).expected.find("published") !=
      std::string::npos);
  CHECK(refused(replaced(good, "\"unit\": \"%\"", "\"unit\": \"share\"")).what ==
        "this word is not known here");
  CHECK(refused(replaced(good, "\"value\": 3.5", "\"value\": 2.5")).what ==
        "stage limits must rise with age");
  CHECK(refused("{").where.line == 1);
}

TEST_CASE("a published number without source and a derived one without note do not load") {
  const std::string good = model_text("kill_matrix.json");
  CHECK(refused(replaced(good, "\"basis\": \"published\", \"source\": \"brosnan-2020b\",",
                         "\"basis\": \"published\","))
            .what == "a published number needs its source");
  CHECK(refused(replaced(good, ", \"note\": \"first tiller at about leaf 4\"", "")).what ==
        "a derived number needs a note saying from what");
}

TEST_CASE("foliar action falls to 55 percent in the cold and is whole from 15.6 C on") {
  const auto factor = [](double celsius) { return warmth_factor(Temperature::from_celsius(celsius)); };
  CHECK(factor(-5.0) == Approx(0.55));
  CHECK(factor(8.0) == Approx(0.55));
  CHECK(factor(11.8) == Approx(0.775));
  CHECK(factor(15.6) == Approx(1.0));
  CHECK(factor(30.0) == Approx(1.0));
}

TEST_CASE("resistance is taken off by the group that still works best") {
  const std::map<int, Fraction> resistant{{3, Fraction::of(0.6)}, {9, Fraction::of(0.3)}};
  CHECK(resistant_to_all(std::vector{3}, resistant).value() == Approx(0.6));
  CHECK(resistant_to_all(std::vector{3, 9}, resistant).value() == Approx(0.3));
  CHECK(resistant_to_all(std::vector{3, 9, 14}, resistant).value() == 0.0);
  CHECK(resistant_to_all(std::vector<int>{}, resistant).value() == 1.0);
  CHECK(failing(Fraction::of(0.2), Fraction::of(0.5)).value() == Approx(0.6));
}
