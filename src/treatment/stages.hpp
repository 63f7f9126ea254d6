// SPDX-License-Identifier: MIT
// How old a plant is, in the only terms that matter to a foliar treatment: leaves and tillers.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

namespace soilclock::treatment {

/// Stage classes of the kill matrix, youngest first.
enum class StageClass : std::size_t { leaves_1_3, to_one_tiller, two_tillers, three_to_five_tillers, older };
inline constexpr std::size_t stage_count = 5;

/// "leaves_1_3", "to_one_tiller", ...: the words of model files and outputs.
std::string_view name(StageClass stage);

/// Oldest age of each class but the last, rising, in the unit the grass counts ages in: phyllochrons (thermal
/// age / degree-days a leaf) or days. A grass's file in models/treatment/control/ has them.
struct StageLimits {
  std::array<double, stage_count - 1> ages{};
};

/// The class of a plant of an age (not negative). `unit` is one phyllochron in the units of `age` (above 0),
/// or the drawn length of a day for grasses that count days. A plant exactly at a limit still belongs to the
/// younger class.
StageClass stage_of(double age, double unit, const StageLimits& limits);

}  // namespace soilclock::treatment
