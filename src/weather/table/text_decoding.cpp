// SPDX-License-Identifier: MIT
#include "weather/table/text_decoding.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>
#include <optional>

namespace soilclock::weather {

namespace {

void append_utf8(std::string& text, std::uint32_t code) {
  const auto add = [&](std::uint32_t byte) { text += static_cast<char>(static_cast<unsigned char>(byte)); };
  if (code < 0x80) {
    add(code);
  } else if (code < 0x800) {
    add(0xC0 | (code >> 6));
    add(0x80 | (code & 0x3F));
  } else if (code < 0x10000) {
    add(0xE0 | (code >> 12));
    add(0x80 | ((code >> 6) & 0x3F));
    add(0x80 | (code & 0x3F));
  } else {
    add(0xF0 | (code >> 18));
    add(0x80 | ((code >> 12) & 0x3F));
    add(0x80 | ((code >> 6) & 0x3F));
    add(0x80 | (code & 0x3F));
  }
}

std::string from_utf16(std::string_view bytes, bool little_endian) {
  std::string text;
  text.reserve(bytes.size());
  const auto unit = [&](std::size_t at) -> std::uint32_t {
    const auto low = static_cast<unsigned char>(bytes[little_endian ? at : at + 1]);
    const auto high = static_cast<unsigned char>(bytes[little_endian ? at + 1 : at]);
    return static_cast<std::uint32_t>(high) << 8 | low;
  };
  for (std::size_t at = 0; at + 1 < bytes.size(); at += 2) {
    std::uint32_t code = unit(at);
    const bool high_surrogate = code >= 0xD800 && code < 0xDC00;
    if (high_surrogate && at + 3 < bytes.size() && unit(at + 2) >= 0xDC00 && unit(at + 2) < 0xE000) {
      code = 0x10000 + ((code - 0xD800) << 10) + (unit(at + 2) - 0xDC00);
      at += 2;
    } else if (code >= 0xD800 && code < 0xE000) {
      code = '?';
    }
    append_utf8(text, code);
  }
  return text;
}

/// Code points of the Windows-1252 bytes 0x80 to 0x9F (Unicode mapping table of that code page).
constexpr std::array<std::uint16_t, 32> upper_controls{
    0x20AC, 0x81,   0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0x8D,   0x017D, 0x8F,   0x90,   0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0x9D,   0x017E, 0x0178};

std::string from_one_byte(std::string_view bytes) {
  std::string text;
  text.reserve(bytes.size() + bytes.size() / 16);
  for (const char c : bytes) {
    const auto byte = static_cast<unsigned char>(c);
    append_utf8(text, byte >= 0x80 && byte < 0xA0 ? upper_controls[byte - 0x80u] : byte);
  }
  return text;
}

/// The place of the first byte at or after `from` that is not ASCII, eight bytes at a time: most files have
/// none.
std::size_t end_of_ascii(std::string_view text, std::size_t from) {
  constexpr std::uint64_t high_bits = 0x8080808080808080U;
  std::uint64_t eight = 0;
  for (; from + sizeof eight <= text.size(); from += sizeof eight) {
    std::memcpy(&eight, text.data() + from, sizeof eight);
    if ((eight & high_bits) != 0) break;
  }
  while (from < text.size() && static_cast<unsigned char>(text[from]) < 0x80) ++from;
  return from;
}

bool is_valid_utf8(std::string_view text) {
  for (std::size_t i = end_of_ascii(text, 0); i < text.size(); i = end_of_ascii(text, i)) {
    const auto first = static_cast<unsigned char>(text[i]);
    std::size_t more = 0;
    if (first >= 0xC2 && first < 0xE0)
      more = 1;
    else if (first >= 0xE0 && first < 0xF0)
      more = 2;
    else if (first >= 0xF0 && first < 0xF5)
      more = 3;
    else
      return false;
    if (i + more >= text.size()) return false;
    for (std::size_t k = 1; k <= more; ++k) {
      if ((static_cast<unsigned char>(text[i + k]) & 0xC0) != 0x80) return false;
    }
    i += more + 1;
  }
  return true;
}

/// UTF-16 without a mark shows as a zero byte in nearly every second place of a Western text.
std::optional<Encoding> unmarked_utf16(std::string_view bytes) {
  const std::size_t sample = std::min<std::size_t>(bytes.size(), 512) & ~std::size_t{1};
  if (sample < 8) return std::nullopt;
  std::size_t even = 0;
  std::size_t odd = 0;
  for (std::size_t i = 0; i < sample; i += 2) {
    even += bytes[i] == '\0' ? 1 : 0;
    odd += bytes[i + 1] == '\0' ? 1 : 0;
  }
  const std::size_t most = sample / 2 * 8 / 10;
  if (odd >= most && even == 0) return Encoding::utf16_little_endian;
  if (even >= most && odd == 0) return Encoding::utf16_big_endian;
  return std::nullopt;
}

}  // namespace

DecodedText decode_text(std::string_view bytes) {
  if (bytes.starts_with("\xEF\xBB\xBF"))
    bytes.remove_prefix(3);
  else if (bytes.starts_with("\xFF\xFE")) {
    return {from_utf16(bytes.substr(2), true), Encoding::utf16_little_endian};
  } else if (bytes.starts_with("\xFE\xFF")) {
    return {from_utf16(bytes.substr(2), false), Encoding::utf16_big_endian};
  } else if (const auto encoding = unmarked_utf16(bytes)) {
    return {from_utf16(bytes, *encoding == Encoding::utf16_little_endian), *encoding};
  }
  if (is_valid_utf8(bytes)) return {bytes, Encoding::utf8};
  return {from_one_byte(bytes), Encoding::one_byte};
}

}  // namespace soilclock::weather
