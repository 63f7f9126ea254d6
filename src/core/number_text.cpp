// SPDX-License-Identifier: MIT
#include "core/number_text.hpp"

#include <fmt/format.h>

#include <array>

namespace soilclock {

namespace {

bool rounds_to_nothing(const std::string& text) { return text.find_first_not_of("-0.") == std::string::npos; }

}  // namespace

std::string number_text(double value, int decimals) {
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.front() == '-' && rounds_to_nothing(text)) text.erase(0, 1);
  return text;
}

std::string signed_number_text(double value, int decimals) {
  std::string text = number_text(value, decimals);
  return value > 0.0 && !rounds_to_nothing(text) ? "+" + text : text;
}

std::string count_words(int count) {
  constexpr std::array words{"no",  "one",   "two",   "three", "four", "five",
                             "six", "seven", "eight", "nine",  "ten"};
  const auto index = static_cast<std::size_t>(count);
  return index < words.size() ? words.at(index) : fmt::format("{}", count);
}

}  // namespace soilclock
