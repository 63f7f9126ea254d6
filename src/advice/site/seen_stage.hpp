// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string_view>

namespace soilclock::advice {

/// The stage most of the plants were in when somebody looked; the classes of emergence::StageShares.
enum class SeenStage { leaves_1_3, to_one_tiller, two_tillers, older };

/// Reads what people write: a number with leaf or tiller in it ("2 leaves", "one tiller", "3-4 leaf", the
/// larger number counts), a BBCH number ("BBCH 12", 10 to 99), or a word for a grown plant (tillered, mature,
/// flowering, seedhead). Nothing for anything else; a seed leaf or "seedling" counts as one to three leaves.
std::optional<SeenStage> read_seen_stage(std::string_view text);

}  // namespace soilclock::advice
