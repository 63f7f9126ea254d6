// SPDX-License-Identifier: MIT
// The cost of waiting as a sentence has it, whatever its words, beside the decision's own.
#pragma once

#include <cmath>
#include <regex>
#include <string>
#include <vector>

#include "advice/decision/decision.hpp"

namespace soilclock::tests {

/// All whole numbers of a text, in order.
inline std::vector<int> whole_numbers(const std::string& text) {
  static const std::regex digits{"[0-9]+"};
  std::vector<int> numbers;
  for (std::sregex_iterator found{text.begin(), text.end(), digits}, end; found != end; ++found)
    numbers.push_back(std::stoi(found->str()));
  return numbers;
}

/// The costs of one, two and three weeks that reach a point, rounded; of equal ones in a row, one.
inline std::vector<int> costs_of_a_point(const advice::Decision& decision) {
  std::vector<int> costs;
  for (const auto& cost : decision.cost_of_waiting) {
    if (!cost || *cost < 1.0) continue;
    const int points = static_cast<int>(std::round(*cost));
    if (costs.empty() || costs.back() != points) costs.push_back(points);
  }
  return costs;
}

}  // namespace soilclock::tests
