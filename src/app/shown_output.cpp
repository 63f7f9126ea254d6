// SPDX-License-Identifier: MIT
#include "app/shown_output.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

#include "core/text.hpp"

namespace soilclock::app {

namespace {

unsigned code_point(std::string_view character) {
  unsigned code = static_cast<unsigned char>(character[0]);
  if (character.size() > 1) code &= 0xFFU >> (character.size() + 1);
  for (const char byte : character.substr(1)) code = (code << 6) | (static_cast<unsigned char>(byte) & 0x3FU);
  return code;
}

std::string harmless(std::string_view text) {
  std::string shown;
  shown.reserve(text.size());
  while (!text.empty()) {
    const std::size_t length = utf8_length(text);
    const std::string_view character = text.substr(0, std::max<std::size_t>(length, 1));
    const bool layout = character == "\n" || character == "\t" || text.starts_with("\r\n");
    if (length == 0)
      shown += '?';
    else if (!layout && unseen_control(character))
      shown += fmt::format("\\u{:04X}", code_point(character));
    else
      shown += character;
    text.remove_prefix(character.size());
  }
  return shown;
}

/// Where the last character begins, when it is one of several bytes and not all of them are there.
std::size_t whole_characters(std::string_view text) {
  for (std::size_t back = 1; back <= std::min<std::size_t>(3, text.size()); ++back) {
    const auto byte = static_cast<unsigned char>(text[text.size() - back]);
    if ((byte & 0xC0) == 0x80) continue;
    const std::size_t wanted = byte >= 0xF0 ? 4 : byte >= 0xE0 ? 3 : byte >= 0xC0 ? 2 : 1;
    return wanted > back ? text.size() - back : text.size();
  }
  return text.size();
}

}  // namespace

ShownOutput::int_type ShownOutput::overflow(int_type byte) {
  if (traits_type::eq_int_type(byte, traits_type::eof())) return traits_type::not_eof(byte);
  const char one = traits_type::to_char_type(byte);
  return xsputn(&one, 1) == 1 ? byte : traits_type::eof();
}

std::streamsize ShownOutput::xsputn(const char* bytes, std::streamsize count) {
  const std::string_view text{bytes, static_cast<std::size_t>(count)};
  waiting_ += text;
  if (text.find('\n') == std::string_view::npos) return count;
  return pass_on(true) ? count : 0;
}

int ShownOutput::sync() { return pass_on(false) && behind_.pubsync() == 0 ? 0 : -1; }

bool ShownOutput::pass_on(bool lines_only) {
  const std::size_t ready = lines_only ? waiting_.rfind('\n') + 1 : whole_characters(waiting_);
  const std::string text = harmless(std::string_view{waiting_}.substr(0, ready));
  waiting_.erase(0, ready);
  return behind_.sputn(text.data(), static_cast<std::streamsize>(text.size())) ==
         static_cast<std::streamsize>(text.size());
}

}  // namespace soilclock::app
