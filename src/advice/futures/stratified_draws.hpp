// SPDX-License-Identifier: MIT
// Even draws for the members of an ensemble: with n members every n-th part of a distribution is drawn
// exactly once, which steadies the quantiles without more members.
#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "core/random.hpp"

namespace soilclock::advice {

/// Numbers in (0, 1) by name of the quantity and number of the member; for one thread. The same seed, count
/// and name give the same numbers, whatever else is drawn.
class StratifiedDraws {
 public:
  StratifiedDraws(std::uint64_t seed, int members);
  int members() const { return members_; }
  /// All members' numbers for one quantity, by member.
  const std::vector<double>& of(std::string_view quantity) const;

 private:
  using Drawn = std::map<std::string, std::vector<double>, std::less<>>;
  static std::shared_ptr<Drawn> drawn_before(std::uint64_t seed, int members);

  RandomField random_;
  int members_;
  std::shared_ptr<Drawn> drawn_;
};

}  // namespace soilclock::advice
