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

/// At most `limit` characters, control characters and broken UTF-8 shown as '?', "..." where cut.
std::string printable(std::string_view text, std::size_t limit);

/// "a, b and c".
std::string listed(const std::vector<std::string>& items);

/// The candidate nearest to what was typed, if it is near enough to be worth suggesting.
std::optional<std::string> nearest(std::string_view typed, const std::vector<std::string>& candidates);

}  // namespace soilclock
