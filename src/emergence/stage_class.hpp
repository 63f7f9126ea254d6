// SPDX-License-Identifier: MIT
// The stages of a plant, in the only terms that matter to a foliar treatment: leaves and tillers.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

namespace soilclock::emergence {

/// Stages by the age of a plant, youngest first.
enum class StageClass : std::size_t { leaves_1_3, to_one_tiller, two_tillers, three_to_five_tillers, older };
inline constexpr std::size_t stage_count = 5;
inline constexpr std::array<StageClass, stage_count> all_stages{
    StageClass::leaves_1_3, StageClass::to_one_tiller, StageClass::two_tillers,
    StageClass::three_to_five_tillers, StageClass::older};

/// "leaves_1_3", "to_one_tiller", ...: the words of model files and outputs.
std::string_view name(StageClass stage);
constexpr std::size_t index_of(StageClass stage) { return static_cast<std::size_t>(stage); }

/// Ages below which a plant is in each stage but the last, rising, in the unit of its growth model:
/// phyllochrons or days.
using StageLimits = std::array<double, stage_count - 1>;

}  // namespace soilclock::emergence
