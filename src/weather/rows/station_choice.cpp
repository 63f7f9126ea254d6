// SPDX-License-Identifier: MIT
#include "weather/rows/station_choice.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "core/text.hpp"

namespace soilclock::weather {

namespace {

/// The different texts of a column in the order they come; empty when there are too many for stations.
std::vector<std::string_view> different_texts(const Table& table, const TimedRows& rows, std::size_t column) {
  constexpr std::size_t most_stations = 500;
  std::vector<std::string_view> texts;
  std::set<std::string_view> seen;
  for (const std::size_t record : rows.records) {
    const std::string_view text = table.field(record, column);
    if (!texts.empty() && text == texts.back()) continue;
    if (!seen.insert(text).second) continue;
    texts.push_back(text);
    if (texts.size() > most_stations) return {};
  }
  return texts;
}

/// Row numbers and names that change from row to row are no stations: a station has a moment in common with
/// another.
bool share_moments(const Table& table, const TimedRows& rows, std::size_t column) {
  std::map<long long, std::string_view> seen;
  for (std::size_t i = 0; i < rows.records.size(); ++i) {
    const std::string_view text = table.field(rows.records[i], column);
    const auto [at, fresh] = seen.emplace(rows.moments[i].instant, text);
    if (!fresh && at->second != text) return true;
  }
  return false;
}

auto same_text(const std::vector<std::string_view>& texts, const std::string& wanted) {
  return std::find_if(texts.begin(), texts.end(),
                      [&](std::string_view text) { return lowered(text) == lowered(wanted); });
}

/// A station that no column knows. A file that does not name its station may be any.
std::optional<Problem> wanted_is_absent(const Table& table, const TimedRows& rows,
                                        const std::vector<std::size_t>& candidates, const std::string& wanted,
                                        const ReadingNotes& notes) {
  if (wanted.empty()) return std::nullopt;
  std::optional<Problem> problem;
  for (const std::size_t column : candidates) {
    const auto texts = different_texts(table, rows, column);
    if (texts.empty()) continue;
    if (same_text(texts, wanted) != texts.end()) return std::nullopt;
    const std::vector<std::string> names(texts.begin(), texts.end());
    const auto near = nearest(wanted, names);
    if (!problem) {
      problem = Problem{Family::request,
                        "the station asked for is not in the file",
                        {notes.file(), {}, static_cast<int>(column) + 1, {}},
                        wanted,
                        shortened_list(names, 10),
                        near ? "did you mean '" + *near + "'?" : ""};
    }
  }
  return problem;
}

TimedRows rows_of(const Table& table, const TimedRows& rows, std::size_t column, std::string_view station) {
  TimedRows kept = rows;
  kept.records.clear();
  kept.moments.clear();
  for (std::size_t i = 0; i < rows.records.size(); ++i) {
    if (table.field(rows.records[i], column) != station) continue;
    kept.records.push_back(rows.records[i]);
    kept.moments.push_back(rows.moments[i]);
  }
  return kept;
}

}  // namespace

Result<std::string> choose_station(const Table& table, const ColumnPlan& plan, const std::string& wanted,
                                   TimedRows& rows, ReadingNotes& notes) {
  const std::vector<std::size_t> candidates = plan.all(Quantity::station);
  if (const auto problem = wanted_is_absent(table, rows, candidates, wanted, notes)) return fail(*problem);
  for (const std::size_t column : candidates) {
    const auto texts = different_texts(table, rows, column);
    if (texts.size() < 2) continue;
    const auto named = same_text(texts, wanted);
    if (wanted.empty() ? !share_moments(table, rows, column) : named == texts.end()) continue;
    const std::string_view chosen = wanted.empty() ? texts.front() : *named;
    if (wanted.empty()) {
      notes.doubt(fmt::format("the file holds {} stations ({}); '{}' is read, --station chooses another",
                              texts.size(), shortened_list({texts.begin(), texts.end()}, 6), chosen),
                  table.line(rows.records.front()), static_cast<int>(column) + 1);
    }
    rows = rows_of(table, rows, column, chosen);
    return std::string{chosen};
  }
  return std::string{};
}

}  // namespace soilclock::weather
