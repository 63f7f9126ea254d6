// SPDX-License-Identifier: MIT
// Asks the library about one target at one station.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "pipeline.hpp"
#include "studies/stations.hpp"

namespace soilclock::obey {

using studies::Station;

/// The plans walked: none given, then short and long residual, each with both classes of foliar.
inline constexpr std::size_t plan_count = 5;
inline constexpr std::array<std::string_view, plan_count> plan_names{
    "no plan", "short, contact", "short, translocated", "long, contact", "long, translocated"};
std::array<treatment::TankPlan, plan_count> plans(const advice::DecisionRules& rules);

class Asker {
 public:
  /// The catalogue must outlive this.
  Asker(const Station& station, const std::string& target, const advice::Catalogue& catalogue);

  /// The decision for each of some plans, by their numbers, with weather before the day only; nothing when
  /// the library refuses to answer or has no single week to name.
  std::optional<std::vector<advice::Decision>> decisions(Day on,
                                                         std::span<const std::size_t> plan_numbers) const;

  /// The answer with the tables of all plans, and no plan as the site's own.
  advice::SiteAnswer with_tables(Day on) const;

  const advice::Catalogue& catalogue() const { return catalogue_; }
  const std::string& target() const { return request_.targets.front(); }

 private:
  const advice::Catalogue& catalogue_;
  std::array<treatment::TankPlan, plan_count> plans_;
  SiteRequest request_;
};

}  // namespace soilclock::obey
