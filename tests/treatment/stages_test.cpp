// SPDX-License-Identifier: MIT
#include "treatment/stages.hpp"

#include "model_files.hpp"

using namespace soilclock::treatment;

namespace {

const StageLimits& bluegrass() {
  static const StageLimits limits = shipped_control("annual_bluegrass").limits;
  return limits;
}

}  // namespace

TEST_CASE("a plant just up is in the youngest class and an old one in the last") {
  CHECK(stage_of(0.0, 75.0, bluegrass()) == StageClass::leaves_1_3);
  CHECK(stage_of(10000.0, 75.0, bluegrass()) == StageClass::older);
}

TEST_CASE("a plant exactly at a limit still belongs to the younger class") {
  const auto stage = [](double age) { return stage_of(age, 90.0, bluegrass()); };
  CHECK(stage(2.5 * 90.0) == StageClass::leaves_1_3);
  CHECK(stage(2.5 * 90.0 + 0.1) == StageClass::to_one_tiller);
  CHECK(stage(3.5 * 90.0 + 0.1) == StageClass::two_tillers);
  CHECK(stage(4.5 * 90.0 + 0.1) == StageClass::three_to_five_tillers);
  CHECK(stage(7.5 * 90.0) == StageClass::three_to_five_tillers);
  CHECK(stage(7.5 * 90.0 + 0.1) == StageClass::older);
}

TEST_CASE("four weeks at 15 C leave a plant within two tillers and eight weeks do not") {
  // Dated trials: an active that needs small plants was still good 4 weeks after the pre date and failed at 8
  // (Brosnan et al. 2012, Weed Technology 26:48-53, Georgia).
  CHECK(stage_of(28 * 15.0, 90.0, bluegrass()) <= StageClass::three_to_five_tillers);
  CHECK(stage_of(24 * 15.0, 90.0, bluegrass()) == StageClass::two_tillers);
  CHECK(stage_of(56 * 15.0, 90.0, bluegrass()) == StageClass::older);
}

TEST_CASE("the stages of another grass begin at its own ages") {
  // Goosegrass counts days: three leaves for ten and a half of them, one tiller for three weeks.
  const StageLimits goosegrass = shipped_control("goosegrass").limits;
  CHECK(stage_of(10.5, 1.0, goosegrass) == StageClass::leaves_1_3);
  CHECK(stage_of(21.0, 1.0, goosegrass) == StageClass::to_one_tiller);
  CHECK(stage_of(21.5, 1.0, goosegrass) == StageClass::two_tillers);
  // A slow member lives through longer days.
  CHECK(stage_of(21.5, 1.3, goosegrass) == StageClass::to_one_tiller);
}
