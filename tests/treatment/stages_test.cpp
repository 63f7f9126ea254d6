// SPDX-License-Identifier: MIT
#include "treatment/stages.hpp"

#include <catch2/catch.hpp>

using namespace soilclock::treatment;

TEST_CASE("a plant just up is in the youngest class and an old one in the last") {
  CHECK(stage_of(0.0, 75.0) == StageClass::leaves_1_3);
  CHECK(stage_of(10000.0, 75.0) == StageClass::older);
}

TEST_CASE("a plant exactly at a limit still belongs to the younger class") {
  CHECK(stage_of(2.5 * 90.0, 90.0) == StageClass::leaves_1_3);
  CHECK(stage_of(2.5 * 90.0 + 0.1, 90.0) == StageClass::to_one_tiller);
  CHECK(stage_of(3.5 * 90.0 + 0.1, 90.0) == StageClass::two_tillers);
  CHECK(stage_of(4.5 * 90.0 + 0.1, 90.0) == StageClass::three_to_five_tillers);
  CHECK(stage_of(7.5 * 90.0, 90.0) == StageClass::three_to_five_tillers);
  CHECK(stage_of(7.5 * 90.0 + 0.1, 90.0) == StageClass::older);
}

TEST_CASE("four weeks at 15 C leave a plant within two tillers and eight weeks do not") {
  // Dated trials: an active that needs small plants was still good 4 weeks after the pre date and failed at 8
  // (Brosnan et al. 2012, Weed Technology 26:48-53, Georgia).
  CHECK(stage_of(28 * 15.0, 90.0) <= StageClass::three_to_five_tillers);
  CHECK(stage_of(24 * 15.0, 90.0) == StageClass::two_tillers);
  CHECK(stage_of(56 * 15.0, 90.0) == StageClass::older);
}
