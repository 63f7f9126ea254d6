// SPDX-License-Identifier: MIT
#include "report/text_columns.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "core/text.hpp"

namespace soilclock::report {

namespace {

/// Letters that take two columns: the wide and fullwidth ones of Unicode Standard Annex 11, in
/// blocks.
constexpr std::array<std::pair<char32_t, char32_t>, 10> wide_characters{{{0x1100, 0x115F},
                                                                         {0x2E80, 0x303E},
                                                                         {0x3041, 0x4DBF},
                                                                         {0x4E00, 0xA4CF},
                                                                         {0xAC00, 0xD7A3},
                                                                         {0xF900, 0xFAFF},
                                                                         {0xFE30, 0xFE6F},
                                                                         {0xFF00, 0xFF60},
                                                                         {0xFFE0, 0xFFE6},
                                                                         {0x1F300, 0x3FFFD}}};

bool is_wide(char32_t letter) {
  return std::any_of(wide_characters.begin(), wide_characters.end(),
                     [&](const auto& block) { return block.first <= letter && letter <= block.second; });
}

bool is_mark(char32_t letter) {
  return (letter >= 0x300 && letter <= 0x36F) || (letter >= 0x200B && letter <= 0x200F);
}

/// One letter of a text in well-formed UTF-8.
struct Letter {
  std::size_t bytes = 1;
  std::size_t columns = 1;
};

Letter letter_at(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  Letter letter;
  char32_t code = byte(at);
  if (code >= 0xC0) {
    letter.bytes = code >= 0xF0 ? 4 : code >= 0xE0 ? 3 : 2;
    code &= 0xFFU >> (letter.bytes + 1);
    for (std::size_t i = 1; i < letter.bytes; ++i) code = code << 6U | (byte(at + i) & 0x3FU);
  }
  letter.columns = is_wide(code) ? 2 : is_mark(code) ? 0 : 1;
  return letter;
}

/// The longest beginning of so many columns.
std::string_view beginning(std::string_view text, std::size_t columns) {
  std::size_t used = 0;
  for (std::size_t at = 0; at < text.size();) {
    const Letter letter = letter_at(text, at);
    if (used + letter.columns > columns) return text.substr(0, at);
    used += letter.columns;
    at += letter.bytes;
  }
  return text;
}

}  // namespace

std::size_t columns_of(std::string_view text) {
  const std::string shown = printable(text, text.size());
  std::size_t used = 0;
  for (std::size_t at = 0; at < shown.size();) {
    const Letter letter = letter_at(shown, at);
    used += letter.columns;
    at += letter.bytes;
  }
  return used;
}

std::string fitted(std::string_view text, std::size_t columns) {
  const std::string shown = printable(text, text.size());
  const std::string_view whole = beginning(shown, columns);
  if (whole.size() == shown.size()) return shown;
  const std::size_t clause = std::max(whole.rfind("; ") + 1, whole.rfind(". ") + 1);
  if (clause > 1 && 2 * columns_of(whole.substr(0, clause)) >= columns) {
    const bool sentence = whole[clause - 1] == '.';
    return std::string{whole.substr(0, clause - 1)} + (sentence ? "." : "");
  }
  const std::string_view cut = beginning(shown, columns - 3);
  const std::size_t blank = cut.rfind(' ');
  const bool word = blank != std::string_view::npos && 2 * columns_of(cut.substr(0, blank)) >= columns;
  return std::string{word ? cut.substr(0, blank) : cut} + "...";
}

}  // namespace soilclock::report
