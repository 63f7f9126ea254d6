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

/// Oldest leaf age of each class but the last, in phyllochrons (thermal age above 0 C / degree-days a leaf),
/// rising. Source: derived; first tiller about at leaf 4, one more tiller about every leaf interval; the
/// values are those with which the worked table of reach by date comes out within its rounding.
struct StageLimits {
  std::array<double, stage_count - 1> phyllochrons{2.5, 3.5, 4.5, 7.5};
};

/// The class of a plant whose thermal age since emergence is `age_c_days` (degree-days above 0 C, not
/// negative), when a leaf takes `phyllochron_c_days` (above 0). A plant exactly at a limit still belongs to
/// the younger class.
StageClass stage_of(double age_c_days, double phyllochron_c_days, const StageLimits& limits = {});

}  // namespace soilclock::treatment
