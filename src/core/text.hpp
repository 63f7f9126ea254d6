// SPDX-License-Identifier: MIT
// Small text helpers without locale.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace soilclock {

/// The text without blanks, tabs and line ends at both ends.
std::string_view trimmed(std::string_view text);

/// ASCII lower case; other bytes stay.
std::string lowered(std::string_view text);

/// A number written with a decimal point and nothing else around it; "", "nan", "inf" and "1,5" give nothing.
std::optional<double> parse_number(std::string_view text);

/// Length in bytes of the valid UTF-8 character at the start of a text that is not empty, 0 when it is
/// broken.
std::size_t utf8_length(std::string_view text);

/// Whether a UTF-8 character would act on a terminal or a line of text instead of being seen: a control
/// character (U+0000 to U+001F, U+007F to U+009F), a line or paragraph separator, or one that turns the
/// direction of writing (Unicode Bidirectional Algorithm, UAX 9, explicit marks, embeddings, overrides and
/// isolates).
bool unseen_control(std::string_view character);

/// At most `limit` characters, unseen controls and broken UTF-8 shown as '?', "..." where cut.
std::string printable(std::string_view text, std::size_t limit);

/// "a, b and c".
std::string listed(const std::vector<std::string>& items);

/// The candidate nearest to what was typed, if it is near enough to be worth suggesting.
std::optional<std::string> nearest(std::string_view typed, const std::vector<std::string>& candidates);

}  // namespace soilclock
