// SPDX-License-Identifier: MIT
#include "weather/services/iso_interval.hpp"

namespace soilclock::weather {

namespace {

constexpr std::chrono::hours longest{60 * 24};

std::optional<std::chrono::seconds> parse_duration(std::string_view text) {
  if (text.size() < 3 || text[0] != 'P') return std::nullopt;
  text.remove_prefix(1);
  bool clock = false;
  std::chrono::seconds total{0};
  while (!text.empty()) {
    if (text.front() == 'T' && !clock) {
      clock = true;
      text.remove_prefix(1);
      if (text.empty()) return std::nullopt;
      continue;
    }
    int number = 0;
    std::size_t digits = 0;
    while (digits < text.size() && digits < 5 && text[digits] >= '0' && text[digits] <= '9')
      number = number * 10 + (text[digits++] - '0');
    if (digits == 0 || digits == text.size()) return std::nullopt;
    const char unit = text[digits];
    text.remove_prefix(digits + 1);
    if (!clock && unit == 'D')
      total += std::chrono::hours{24 * number};
    else if (!clock && unit == 'W')
      total += std::chrono::hours{7 * 24 * number};
    else if (clock && unit == 'H')
      total += std::chrono::hours{number};
    else if (clock && unit == 'M')
      total += std::chrono::minutes{number};
    else if (clock && unit == 'S')
      total += std::chrono::seconds{number};
    else
      return std::nullopt;
  }
  if (total <= std::chrono::seconds{0} || total > longest) return std::nullopt;
  return total;
}

}  // namespace

std::optional<TimeSpan> parse_time_span(std::string_view text) {
  const auto slash = text.find('/');
  if (slash == std::string_view::npos) return std::nullopt;
  const auto start = parse_iso_instant(text.substr(0, slash));
  const auto length = parse_duration(text.substr(slash + 1));
  if (!start || !length) return std::nullopt;
  return TimeSpan{*start, *length};
}

}  // namespace soilclock::weather
