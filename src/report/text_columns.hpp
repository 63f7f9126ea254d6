// SPDX-License-Identifier: MIT
// How wide a text stands on a screen, and how it is cut to fit.
#pragma once

#include <string>
#include <string_view>

namespace soilclock::report {

/// Columns of a text in UTF-8 on a screen: two for a wide letter (East Asian, emoji), none for a combining
/// mark.
std::size_t columns_of(std::string_view text);

/// The text as printable() shows it on one line of at most so many columns (4 or more). What is too long ends
/// after a clause ("; " or ". ") where at least half of the line is left, else after a word or within one
/// with "...".
std::string fitted(std::string_view text, std::size_t columns);

}  // namespace soilclock::report
