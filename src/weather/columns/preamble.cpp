// SPDX-License-Identifier: MIT
#include "weather/columns/preamble.hpp"

#include <algorithm>
#include <cctype>
#include <initializer_list>

#include "core/text.hpp"

namespace soilclock::weather {

namespace {

bool is_letter(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; }

/// The number that follows one of the words ("lat", "latitude"), with a sign or a letter N S E W.
std::optional<double> number_after(std::string_view line, std::initializer_list<std::string_view> words) {
  const std::string low = lowered(line);
  for (std::size_t i = 0; i < low.size();) {
    if (!is_letter(low[i])) {
      ++i;
      continue;
    }
    const std::size_t begin = i;
    while (i < low.size() && is_letter(low[i])) ++i;
    const std::string_view word = std::string_view{low}.substr(begin, i - begin);
    if (std::find(words.begin(), words.end(), word) == words.end()) continue;
    while (i < low.size() && (low[i] == ' ' || low[i] == ':' || low[i] == '=' || low[i] == '\t')) ++i;
    std::size_t end = i;
    while (end < low.size() && (std::isdigit(static_cast<unsigned char>(low[end])) != 0 || low[end] == '.' ||
                                low[end] == '-' || low[end] == '+')) {
      ++end;
    }
    const auto value = parse_number(std::string_view{low}.substr(i, end - i));
    if (!value) continue;
    while (end < low.size() && (low[end] == ' ' || static_cast<unsigned char>(low[end]) >= 0x80)) ++end;
    const bool letter_alone = end < low.size() && (end + 1 == low.size() || !is_letter(low[end + 1]));
    if (letter_alone && (low[end] == 's' || low[end] == 'w')) return -*value;
    return value;
  }
  return std::nullopt;
}

bool contains(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

std::string day_definition_of(const std::string& line) {
  if (contains(line, "standard time")) return "local standard time";
  const bool about_days = contains(line, "date") || contains(line, "time zone") || contains(line, "timezone");
  if (!about_days || contains(line, "utc_offset")) return {};
  if (contains(line, " in lst")) return "local solar time";
  const auto at = line.find("utc");
  if (at == std::string::npos) return {};
  const std::string_view after = trimmed(std::string_view{line}.substr(at + 3));
  const bool offset = !after.empty() && (after.front() == '+' || after.front() == '-');
  return offset ? "local standard time" : "UTC";
}

}  // namespace

std::optional<Place> checked_place(double latitude_deg, double longitude_deg,
                                   std::optional<double> elevation_m) {
  if (!(latitude_deg >= -90.0 && latitude_deg <= 90.0 && longitude_deg >= -180.0 && longitude_deg <= 180.0)) {
    return std::nullopt;
  }
  return Place{latitude_deg, longitude_deg, elevation_m};
}

Preamble read_preamble(const std::vector<std::string_view>& lines) {
  Preamble preamble;
  preamble.lines = lines;
  std::optional<double> latitude;
  std::optional<double> longitude;
  std::optional<double> elevation;
  for (const std::string_view line : lines) {
    if (!latitude) latitude = number_after(line, {"lat", "latitude"});
    if (!longitude) longitude = number_after(line, {"lon", "long", "longitude"});
    const std::string low = lowered(line);
    const bool meters = !contains(low, " ft") && !contains(low, "feet");
    if (!elevation && meters) elevation = number_after(line, {"elev", "elevation", "altitude", "height"});
    if (preamble.day_definition.empty()) preamble.day_definition = day_definition_of(low);
    if (contains(low, "missing")) {
      const auto last = low.find_last_of(" :");
      if (const auto code =
              parse_number(trimmed(std::string_view{low}.substr(last == std::string::npos ? 0 : last + 1)))) {
        preamble.missing_code = code;
      } else if (const auto before = low.find_last_not_of(" \t"); before != std::string::npos) {
        const std::string_view text = std::string_view{low}.substr(0, before + 1);
        const auto blank = text.find_last_of(' ');
        if (blank != std::string_view::npos) preamble.missing_code = parse_number(text.substr(blank + 1));
      }
    }
  }
  if (latitude && longitude) preamble.place = checked_place(*latitude, *longitude, elevation);
  return preamble;
}

std::string_view legend_text(const Preamble& preamble, std::string_view heading) {
  if (heading.empty()) return {};
  for (std::string_view line : preamble.lines) {
    line = trimmed(line);
    if (!line.starts_with(heading) || line.size() == heading.size()) continue;
    const std::string_view rest = line.substr(heading.size());
    // A legend sets its text off by a colon, or by more than one blank.
    if (rest.front() != ':' && !rest.starts_with("  ") && rest.front() != '\t') continue;
    return trimmed(rest.substr(1));
  }
  return {};
}

}  // namespace soilclock::weather
