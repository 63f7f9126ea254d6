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

StratifiedDraws::StratifiedDraws(std::uint64_t seed, int members) : random_{seed}, members_{members} {}

const std::vector<double>& StratifiedDraws::of(std::string_view quantity) const {
  if (const auto known = drawn_.find(quantity); known != drawn_.end()) return known->second;
  const std::uint64_t stream = stream_of(quantity);
  const auto count = static_cast<std::size_t>(members_);
  std::vector<std::pair<double, std::size_t>> shuffled(count);
  for (std::size_t i = 0; i < count; ++i) shuffled[i] = {random_.uniform(stream, i), i};
  std::sort(shuffled.begin(), shuffled.end());
  std::vector<double> numbers(count);
  for (std::size_t i = 0; i < count; ++i) {
    const double within = random_.uniform(stream, count + i);
    numbers[i] = (static_cast<double>(shuffled[i].second) + within) / static_cast<double>(count);
  }
  return drawn_.emplace(std::string{quantity}, std::move(numbers)).first->second;
}

}  // namespace soilclock::advice
