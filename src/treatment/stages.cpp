// SPDX-License-Identifier: MIT
#include "treatment/stages.hpp"

namespace soilclock::treatment {

std::string_view name(StageClass stage) {
  switch (stage) {
    case StageClass::leaves_1_3:
      return "leaves_1_3";
    case StageClass::to_one_tiller:
      return "to_one_tiller";
    case StageClass::two_tillers:
      return "two_tillers";
    case StageClass::three_to_five_tillers:
      return "three_to_five_tillers";
    case StageClass::older:
      break;
  }
  return "older";
}

StageClass stage_of(double age, double unit, const StageLimits& limits) {
  const double units = age / unit;
  std::size_t stage = 0;
  while (stage < limits.ages.size() && units > limits.ages[stage]) ++stage;
  return static_cast<StageClass>(stage);
}

}  // namespace soilclock::treatment
