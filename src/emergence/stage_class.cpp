// SPDX-License-Identifier: MIT
#include "emergence/stage_class.hpp"

namespace soilclock::emergence {

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

}  // namespace soilclock::emergence
