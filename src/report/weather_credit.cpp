// SPDX-License-Identifier: MIT
#include "report/weather_credit.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/wrapped_text.hpp"

namespace soilclock::report {

namespace {

std::string with_year(std::string attribution, int year) {
  constexpr std::string_view place = "{year}";
  if (const auto at = attribution.find(place); at != std::string::npos)
    attribution.replace(at, place.size(), fmt::format("{}", year));
  return attribution;
}

std::string age_words(Day fetched_on, Day on) {
  const auto days = (on - fetched_on).count();
  if (days < 0) return "after the day of the answer";
  if (days == 0) return "the day of the answer";
  return fmt::format("{} day{} before the answer", days, days == 1 ? "" : "s");
}

std::string clock_words(Instant at) {
  const std::string text = iso(at);
  return text.substr(0, 10) + " " + text.substr(11, 5) + " UTC";
}

/// "attribution (license)", each once, in order.
std::vector<std::string> credits(const Origins& origins) {
  std::vector<std::string> result;
  for (const weather::WeatherOrigin& origin : origins) {
    const std::string credit = credit_line(origin.attribution, origin.license, civil(origin.fetched_on).year);
    if (std::find(result.begin(), result.end(), credit) == result.end()) result.push_back(credit);
  }
  return result;
}

}  // namespace

std::string credit_line(const std::string& attribution, const std::string& license, int year) {
  return with_year(attribution, year) + " (" + license + ")";
}

Json weather_sources_json(const Origins& origins) {
  Json list = Json::array();
  for (const weather::WeatherOrigin& origin : origins) {
    const bool any = !origin.days.empty();
    list.push_back(
        {{"source", origin.title},
         {"service", origin.service},
         {"model", origin.model},
         {"first", any ? Json(iso(origin.days.begin())) : Json(nullptr)},
         {"last", any ? Json(iso(origin.days.end() - Days{1})) : Json(nullptr)},
         {"from", origin.from},
         {"fetched_at", iso(origin.fetched)},
         {"provisional_from", origin.provisional_from ? Json(iso(*origin.provisional_from)) : Json(nullptr)},
         {"attribution", with_year(origin.attribution, civil(origin.fetched_on).year)},
         {"license", origin.license}});
  }
  return list;
}

std::vector<std::string> weather_source_lines(const Origins& origins, std::optional<Day> on) {
  std::vector<std::string> lines;
  for (const weather::WeatherOrigin& origin : origins) {
    std::string line = origin.title;
    if (!origin.model.empty()) line += " (" + origin.model + ")";
    if (!origin.days.empty()) line += " to " + iso(origin.days.end() - Days{1});
    line += ", fetched " + clock_words(origin.fetched);
    if (on) line += ", " + age_words(origin.fetched_on, *on);
    if (origin.provisional_from)
      line += "; days from " + iso(*origin.provisional_from) + " on may still change";
    lines.push_back(line + ".");
  }
  for (const std::string& credit : credits(origins)) lines.push_back(credit + ".");
  return lines;
}

std::string weather_sources_text(const Origins& origins, std::optional<Day> on) {
  std::string text;
  for (const std::string& line : weather_source_lines(origins, on)) text += wrapped("- " + line, 2);
  return text;
}

std::string weather_sources_cell(const Origins& origins) {
  std::string cell;
  for (const std::string& credit : credits(origins)) cell += (cell.empty() ? "" : "; ") + credit;
  return cell;
}

}  // namespace soilclock::report
