// SPDX-License-Identifier: MIT
#include "advice/answer.hpp"

namespace soilclock::advice {

std::string_view name(State state) {
  switch (state) {
    case State::hold:
      return "hold";
    case State::pre:
      return "pre";
    case State::pre_and_post:
      return "pre+post";
    case State::post:
      return "post";
    case State::second_pre:
      return "second-pre";
    case State::dormant_season:
      return "dormant-season";
    case State::stop:
      return "stop";
    case State::no_single_window:
      break;
  }
  return "no-single-window";
}

}  // namespace soilclock::advice
