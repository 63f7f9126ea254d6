// SPDX-License-Identifier: MIT
#include "advice/site/seen_stage.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <string>
#include <utility>

#include "core/text.hpp"

namespace soilclock::advice {

namespace {

bool holds(const std::string& text, std::string_view word) { return text.find(word) != std::string::npos; }

/// The largest number in digits or, up to three, in words.
std::optional<int> largest_number(const std::string& text) {
  std::optional<int> largest;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (std::isdigit(static_cast<unsigned char>(text[i])) == 0) continue;
    int number = 0;
    for (; i < text.size() && std::isdigit(static_cast<unsigned char>(text[i])) != 0; ++i) {
      number = std::min(1000, number * 10 + (text[i] - '0'));
    }
    largest = std::max(largest.value_or(0), number);
  }
  constexpr std::array<std::pair<std::string_view, int>, 3> words{{{"one", 1}, {"two", 2}, {"three", 3}}};
  for (const auto& [word, number] : words) {
    if (holds(text, word)) largest = std::max(largest.value_or(0), number);
  }
  return largest;
}

SeenStage by_tillers(int tillers) {
  if (tillers <= 1) return SeenStage::to_one_tiller;
  return tillers == 2 ? SeenStage::two_tillers : SeenStage::older;
}

/// Principal stages 1 (leaves) and 2 (tillers) of the scale for grasses; Hess et al. 1997, Weed Research
/// 37:433-441.
std::optional<SeenStage> by_bbch(int number) {
  if (number < 10 || number > 99) return std::nullopt;
  if (number <= 13) return SeenStage::leaves_1_3;
  if (number < 20) return SeenStage::to_one_tiller;
  return number < 30 ? by_tillers(number - 20) : SeenStage::older;
}

}  // namespace

std::optional<SeenStage> read_seen_stage(std::string_view written) {
  const std::string text = lowered(written);
  const std::optional<int> number = largest_number(text);
  if (holds(text, "bbch")) return number ? by_bbch(*number) : std::nullopt;
  for (const std::string_view grown : {"tillered", "mature", "flower", "seedhead", "seed head", "head"}) {
    if (holds(text, grown)) return SeenStage::older;
  }
  if (holds(text, "tiller")) return number ? std::optional{by_tillers(*number)} : std::nullopt;
  if (holds(text, "cotyledon") || holds(text, "seed leaf") || holds(text, "seedling"))
    return SeenStage::leaves_1_3;
  if ((holds(text, "leaf") || holds(text, "leaves")) && number) {
    return *number <= 3 ? SeenStage::leaves_1_3 : SeenStage::to_one_tiller;
  }
  return std::nullopt;
}

}  // namespace soilclock::advice
