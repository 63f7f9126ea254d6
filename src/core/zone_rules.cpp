// SPDX-License-Identifier: MIT
#include "core/zone_rules.hpp"

#include <algorithm>
#include <charconv>
#include <map>
#include <mutex>

namespace soilclock {

namespace {

using std::chrono::seconds;

/// The program reads days from 1700 to 2500; the clock stands still before the table and after that.
constexpr date::year last_year{2500};
const date::sys_seconds before_all{date::sys_days{date::year{1000} / 1 / 1}};
const date::sys_seconds after_all{date::sys_days{date::year{3000} / 1 / 1}};

/// Cuts the next part off a text, up to a mark or the end.
std::string_view cut(std::string_view& text, char mark) {
  const auto at = text.find(mark);
  const std::string_view part = text.substr(0, at);
  text.remove_prefix(at == std::string_view::npos ? text.size() : at + 1);
  return part;
}

/// A number of the table, which a script wrote and a test holds against the system's.
std::int64_t number_of(std::string_view text) {
  std::int64_t value = 0;
  std::from_chars(text.data(), text.data() + text.size(), value);
  return value;
}

/// The lines of the table that are zones.
template <class Use>
void each_zone(const Use& use) {
  std::string_view table = time_zone_table();
  while (!table.empty()) {
    std::string_view line = cut(table, '\n');
    if (line.starts_with('#') || line.find('|') == std::string_view::npos) continue;
    const std::string_view names = cut(line, '|');
    const std::string_view changes = cut(line, '|');
    use(names, changes, line);
  }
}

}  // namespace

std::string time_zone_version() {
  constexpr std::string_view word = "\nversion ";
  std::string_view rest = time_zone_table();
  rest.remove_prefix(rest.find(word) + word.size());
  return std::string{cut(rest, '\n')};
}

std::vector<std::string> time_zone_names() {
  std::vector<std::string> all;
  each_zone([&](std::string_view names, std::string_view, std::string_view) {
    while (!names.empty()) all.emplace_back(cut(names, ' '));
  });
  return all;
}

/// One copy for all that ask at a time: a zone takes 30 kB, and ten thousand sites may lie in the same one.
std::shared_ptr<const ZoneRules> ZoneRules::named(std::string_view name) {
  static std::mutex guard;
  static std::map<std::string, std::weak_ptr<const ZoneRules>, std::less<>> in_use;
  const std::lock_guard<std::mutex> lock{guard};
  if (const auto known = in_use.find(name); known != in_use.end()) {
    if (auto rules = known->second.lock()) return rules;
  }
  std::shared_ptr<const ZoneRules> found;
  each_zone([&](std::string_view names, std::string_view changes, std::string_view rule) {
    while (!found && !names.empty()) {
      if (cut(names, ' ') == name) found = std::make_shared<const ZoneRules>(read(changes, rule));
    }
  });
  if (found) in_use.insert_or_assign(std::string{name}, found);
  return found;
}

ZoneRules ZoneRules::read(std::string_view changes, std::string_view rule) {
  ZoneRules rules;
  rules.changes_.reserve(static_cast<std::size_t>(std::count(changes.begin(), changes.end(), ' ')) + 1);
  while (!changes.empty()) {
    std::string_view change = cut(changes, ' ');
    const seconds at{number_of(cut(change, ','))};
    const seconds offset{number_of(cut(change, ','))};
    rules.changes_.push_back({date::sys_seconds{at}, offset, change == "1"});
  }
  const seconds standard{number_of(cut(rule, ' '))};
  if (rule.empty()) return rules;  // the clock no longer changes
  const seconds summer{number_of(cut(rule, ' '))};
  const date::sys_seconds last = rules.changes_.back().at;
  const std::string_view start = cut(rule, ' ');
  rules.add_yearly(start, last, {{}, summer, true}, standard);
  rules.add_yearly(rule, last, {{}, standard, false}, summer);
  std::sort(rules.changes_.begin(), rules.changes_.end(),
            [](const Change& a, const Change& b) { return a.at < b.at; });
  return rules;
}

/// Adds the changes that a rule makes behind `last`, to the last year that is read anywhere.
void ZoneRules::add_yearly(std::string_view rule, date::sys_seconds last, Change change,
                           seconds offset_before) {
  const auto month = static_cast<unsigned>(number_of(cut(rule, ',')));
  const auto week = static_cast<unsigned>(number_of(cut(rule, ',')));
  const auto weekday = date::weekday{static_cast<unsigned>(number_of(cut(rule, ',')))};
  const seconds wall_time{number_of(rule)};
  for (date::year year = date::year_month_day{date::floor<date::days>(last)}.year(); year <= last_year;
       ++year) {
    const auto month_of_year = year / date::month{month};
    const date::sys_days day = week == 5 ? date::sys_days{month_of_year / weekday[date::last]}
                                         : date::sys_days{month_of_year / weekday[week]};
    change.at = day + wall_time - offset_before;
    if (change.at > last) changes_.push_back(change);
  }
}

ZoneRules::Period ZoneRules::period_at(date::sys_seconds at) const {
  const auto next = std::upper_bound(changes_.begin() + 1, changes_.end(), at,
                                     [](date::sys_seconds t, const Change& change) { return t < change.at; });
  const Change& now = *(next - 1);
  return {next - 1 == changes_.begin() ? before_all : now.at, next == changes_.end() ? after_all : next->at,
          now.offset, now.summer};
}

}  // namespace soilclock
