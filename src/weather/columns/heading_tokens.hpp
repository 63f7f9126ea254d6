// SPDX-License-Identifier: MIT
// A heading cut into its words and numbers.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace soilclock::weather {

/// `HeadingToken::before` of a word that follows the one before it without a sign: the 2 of "T2".
inline constexpr char attached = '\0';

struct HeadingToken {
  std::string text;   ///< lower-case letters without accents, or digits with a decimal point, or "%"
  char before = ' ';  ///< the sign that parts it from the word before; a blank for the first
  int bracket = 0;    ///< which (), [] or {} of the heading it stands in, from 1; 0 for none
  bool in_brackets() const { return bracket > 0; }
};

/// Words and numbers of a heading: parted at signs, between letters and digits and before capitals. Degree
/// signs are dropped; an inch sign (", two primes) becomes the word "in".
std::vector<HeadingToken> heading_tokens(std::string_view heading);

}  // namespace soilclock::weather
