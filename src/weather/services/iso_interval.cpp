// SPDX-License-Identifier: MIT
#include "weather/services/iso_interval.hpp"

#include <algorithm>

namespace soilclock::weather {

namespace {

constexpr std::chrono::hours longest{60 * 24};

/// Two digits at a position, or -1.
int two_digits(std::string_view text, std::size_t at) {
  if (text.size() < at + 2) return -1;
  const auto digit = [&](std::size_t i) { return text[i] >= '0' && text[i] <= '9' ? text[i] - '0' : -1; };
  return digit(at) < 0 || digit(at + 1) < 0 ? -1 : digit(at) * 10 + digit(at + 1);
}

/// "+05:30", "-0500" or "Z" to seconds east of UTC.
std::optional<std::chrono::seconds> parse_offset(std::string_view text) {
  if (text == "Z") return std::chrono::seconds{0};
  if (text.size() < 5 || (text[0] != '+' && text[0] != '-')) return std::nullopt;
  const bool colon = text[3] == ':';
  if (text.size() != (colon ? 6U : 5U)) return std::nullopt;
  const int hours = two_digits(text, 1);
  const int minutes = two_digits(text, colon ? 4 : 3);
  if (hours < 0 || hours > 14 || minutes < 0 || minutes > 59) return std::nullopt;
  const std::chrono::seconds size = std::chrono::hours{hours} + std::chrono::minutes{minutes};
  return text[0] == '-' ? -size : size;
}

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

std::optional<Instant> parse_instant(std::string_view text) {
  if (text.size() < 20 || text[10] != 'T' || text[13] != ':' || text[16] != ':') return std::nullopt;
  const auto day = parse_iso_day(text.substr(0, 10));
  const int hour = two_digits(text, 11);
  const int minute = two_digits(text, 14);
  const int second = two_digits(text, 17);
  std::size_t at = 19;
  if (text[at] == '.') {
    do ++at;
    while (at < text.size() && text[at] >= '0' && text[at] <= '9');
  }
  const auto offset = parse_offset(text.substr(at));
  if (!day || !offset || hour < 0 || hour > 23 || minute < 0 || minute > 59 || second < 0 || second > 60)
    return std::nullopt;
  return Instant{*day} + std::chrono::hours{hour} + std::chrono::minutes{minute} +
         std::chrono::seconds{second} - *offset;
}

std::optional<TimeSpan> parse_time_span(std::string_view text) {
  const auto slash = text.find('/');
  if (slash == std::string_view::npos) return std::nullopt;
  const auto start = parse_instant(text.substr(0, slash));
  const auto length = parse_duration(text.substr(slash + 1));
  if (!start || !length) return std::nullopt;
  return TimeSpan{*start, *length};
}

}  // namespace soilclock::weather
