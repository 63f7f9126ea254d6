// SPDX-License-Identifier: MIT
// Zero bytes that a power cut leaves in a logger's file.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "weather/reading_notes.hpp"

namespace soilclock::weather {

/// The text with every line that holds zero bytes emptied, so that lines keep their numbers, and a doubt that
/// names them: what stands on such a line may be cut off. Nothing for a text without zero bytes, and for one
/// that is not text but for them.
std::optional<std::string> without_zero_bytes(std::string_view text, ReadingNotes& notes);

}  // namespace soilclock::weather
