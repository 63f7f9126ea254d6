// SPDX-License-Identifier: MIT
#include "weather/table/zero_bytes.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace soilclock::weather {

namespace {

bool is_control(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte < 0x20 && c != '\t' && c != '\n' && c != '\r' && c != '\0';
}

}  // namespace

std::optional<std::string> without_zero_bytes(std::string_view text, ReadingNotes& notes) {
  if (text.find('\0') == std::string_view::npos || std::any_of(text.begin(), text.end(), is_control))
    return std::nullopt;
  std::string good;
  good.reserve(text.size());
  int line = 0;
  int kept = 0;
  int emptied = 0;
  int first = 0;
  while (!text.empty()) {
    ++line;
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string_view whole = text.substr(0, std::min(end + 1, text.size()));
    text.remove_prefix(whole.size());
    if (whole.find('\0') == std::string_view::npos) {
      ++kept;
      good += whole;
      continue;
    }
    if (emptied++ == 0) first = line;
    good += '\n';
  }
  if (emptied >= kept) return std::nullopt;
  notes.doubt(fmt::format("{} {} zero bytes, as after a power cut, and {} left out", emptied,
                          emptied == 1 ? "line holds" : "lines hold", emptied == 1 ? "is" : "are"),
              first);
  return good;
}

}  // namespace soilclock::weather
