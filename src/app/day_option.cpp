// SPDX-License-Identifier: MIT
#include "app/day_option.hpp"

#include <optional>
#include <vector>

#include "core/text.hpp"

namespace soilclock::app {

namespace {

/// The three numbers of a date written with one of the usual separators, or nothing.
std::optional<std::vector<int>> three_numbers(std::string_view text) {
  std::vector<int> numbers;
  while (true) {
    const auto end = text.find_first_of("-/.");
    const auto number = parse_number(text.substr(0, end));
    if (!number || *number < 0.0 || *number > 9999.0) return std::nullopt;
    numbers.push_back(static_cast<int>(*number));
    if (end == std::string_view::npos) break;
    text.remove_prefix(end + 1);
  }
  if (numbers.size() != 3) return std::nullopt;
  return numbers;
}

/// The days a text can have meant, as ISO dates; year first, or year last with either order of day and month.
std::vector<std::string> meant_days(std::string_view text) {
  std::vector<std::string> days;
  const auto add = [&](int year, int month, int day_of_month) {
    if (year < 1000) return;
    const auto day = checked_day(year, static_cast<unsigned>(month), static_cast<unsigned>(day_of_month));
    if (day && (days.empty() || days.front() != iso(*day))) days.push_back(iso(*day));
  };
  if (const auto numbers = three_numbers(text)) {
    const auto& n = *numbers;
    add(n[0], n[1], n[2]);
    add(n[2], n[1], n[0]);
    add(n[2], n[0], n[1]);
  }
  return days;
}

}  // namespace

Result<Day> read_day(const std::string& option, const std::string& text) {
  if (const auto day = parse_iso_day(text)) return *day;
  Problem problem{Family::request, option + " is not a date", {}, text, "YYYY-MM-DD", {}};
  const std::vector<std::string> meant = meant_days(trimmed(text));
  if (lowered(trimmed(text)) == "today") {
    problem.remedy = "leave " + option + " out for today";
  } else if (!meant.empty()) {
    problem.remedy = "did you mean " + meant.front() + (meant.size() > 1 ? " or " + meant.back() : "") + "?";
  } else if (const auto numbers = three_numbers(text); numbers && numbers->front() >= 1000) {
    problem.what = option + " names a day that does not exist";
  }
  return fail(problem);
}

}  // namespace soilclock::app
