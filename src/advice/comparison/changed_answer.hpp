// SPDX-License-Identifier: MIT
// What another soil, watering or plan changes in an answer: the words of a what-if.
#pragma once

#include <string>
#include <vector>

#include "advice/answer/answer.hpp"

namespace soilclock::advice {

/// One figure of an answer as people read it; the text is empty where the answer has none.
struct Figure {
  std::string label;
  std::string text;
};

/// The figures a what-if is judged by, in the order of a table and as many for every answer: half up, up
/// today, best weeks, kind, expected control, and the cost of waiting one, two and three weeks.
std::vector<Figure> compared_figures(const TargetAnswer& target);

/// What changed, a sentence each; one sentence that says so where nothing did. With `weeks_later` (0 to 3)
/// also what treating that much later costs. Both answers are of one grass and one morning.
std::vector<std::string> what_changed(const TargetAnswer& as_read, const TargetAnswer& asked,
                                      int weeks_later);

}  // namespace soilclock::advice
