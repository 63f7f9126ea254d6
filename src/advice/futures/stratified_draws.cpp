// SPDX-License-Identifier: MIT
#include "advice/futures/stratified_draws.hpp"

#include <algorithm>
#include <utility>

namespace soilclock::advice {

namespace {

/// FNV-1a, a stable hash of a name (std::hash may differ between libraries).
std::uint64_t stream_of(std::string_view name) {
  std::uint64_t hash = 0xCBF29CE484222325ULL;
  for (const char c : name) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001B3ULL;
  return hash;
}

}  // namespace

/// Sites answered one after another, and what-ifs, ask for the same numbers: those of the last few counts and
/// seeds. Each thread keeps its own, so that none waits for another.
std::shared_ptr<StratifiedDraws::Drawn> StratifiedDraws::drawn_before(std::uint64_t seed, int members) {
  constexpr std::size_t most = 4;
  struct Stored {
    std::uint64_t seed;
    int members;
    std::shared_ptr<Drawn> drawn;
  };
  static thread_local std::vector<Stored> stored;  // the oldest first
  const auto known = std::find_if(stored.begin(), stored.end(), [&](const Stored& one) {
    return one.seed == seed && one.members == members;
  });
  if (known != stored.end()) return known->drawn;
  if (stored.size() == most) stored.erase(stored.begin());
  return stored.emplace_back(Stored{seed, members, std::make_shared<Drawn>()}).drawn;
}

StratifiedDraws::StratifiedDraws(std::uint64_t seed, int members)
    : random_{seed}, members_{members}, drawn_{drawn_before(seed, members)} {}

const std::vector<double>& StratifiedDraws::of(std::string_view quantity) const {
  if (const auto known = drawn_->find(quantity); known != drawn_->end()) return known->second;
  const RandomStream stream = random_.of(stream_of(quantity));
  const auto count = static_cast<std::size_t>(members_);
  std::vector<std::pair<double, std::size_t>> shuffled(count);
  for (std::size_t i = 0; i < count; ++i) shuffled[i] = {stream.uniform(i), i};
  std::sort(shuffled.begin(), shuffled.end());
  std::vector<double> numbers(count);
  for (std::size_t i = 0; i < count; ++i) {
    const double within = stream.uniform(count + i);
    numbers[i] = (static_cast<double>(shuffled[i].second) + within) / static_cast<double>(count);
  }
  return drawn_->emplace(std::string{quantity}, std::move(numbers)).first->second;
}

}  // namespace soilclock::advice
