// SPDX-License-Identifier: MIT
#include "advice/data/count_rule.hpp"

#include <catch2/catch.hpp>

#include "advice/scouting/scouting_evidence.hpp"
#include "support/clock_ensemble.hpp"
#include "support/shipped_catalogue.hpp"
#include "support/source_texts.hpp"

using namespace soilclock;
using namespace soilclock::advice;

namespace {

constexpr const char* file = "models/scouting/counts.json";

/// Logarithm of how likely one note is under the first member of the ensemble.
double likelihood(const LoggedCount& note, const CountRule& rule) {
  static const tests::ClockModels models;
  static const TargetRun run = tests::clock_ensemble(models, 5, 1);
  return log_likelihood(scouting_evidence(std::vector{note}, run.season, rule), run.members.front(),
                        *run.job.growth);
}

LoggedCount note_of_fall() {
  LoggedCount note;
  note.day = make_day(2021, 10, 20);
  note.target = "POAAN";
  return note;
}

}  // namespace

TEST_CASE("what a note weighs follows the loaded file") {
  const CountRule& shipped = tests::shipped_catalogue().scouting.counts;
  LoggedCount bare = note_of_fall();
  bare.ground_share = Fraction::from_percent(0.0);
  CountRule thin_plants = shipped;
  thin_plants.full_cover = 0.001;
  CHECK(likelihood(bare, thin_plants) > likelihood(bare, shipped));

  LoggedCount staged = note_of_fall();
  staged.stage = SeenStage::older;
  CountRule guessed = shipped;
  guessed.stage_misjudged = 1.0;  // a look that says nothing: one of four stages
  CHECK(likelihood(staged, guessed) == Approx(std::log(0.25)));
  CHECK(likelihood(staged, shipped) != Approx(std::log(0.25)));

  LoggedCount unsized = note_of_fall();
  unsized.counts = {3, 4};
  LoggedCount sized = unsized;
  sized.plot_area_m2 = 0.7;
  CountRule large_plots = shipped;
  large_plots.usual_plot_m2 = 0.7;
  CHECK(likelihood(unsized, large_plots) == likelihood(sized, shipped));
}

TEST_CASE("a file of counts with a slip is refused at its place") {
  const auto place = [](const std::string& part, const std::string& by) {
    const auto read = read_count_rule(tests::exchanged(tests::source_text(file), part, by), file);
    REQUIRE_FALSE(read);
    return read.error().where.json_pointer;
  };
  CHECK(place("\"value\": 5,", "\"value\": 0,") == "/full_cover/value");
  CHECK(place("\"unit\": \"m2\"", "\"unit\": \"ft2\"") == "/usual_plot/unit");
  CHECK(place("\"least_effective\"", "\"least_affective\"") == "/least_effective");
  CHECK(place("[30, 40, 50, 60, 70]", "[30, 100]") == "/empty_shares/percents");
  CHECK(place("[30, 40, 50, 60, 70]", "[]") == "/empty_shares/percents");
  CHECK(place("\"visit_density_most\": {\"value\": 5000", "\"visit_density_most\": {\"value\": 0.01") ==
        "/visit_density_most/value");
  CHECK(place("\"visits_judged\": {\"value\": 2", "\"visits_judged\": {\"value\": 2.5") ==
        "/visits_judged/value");
}
