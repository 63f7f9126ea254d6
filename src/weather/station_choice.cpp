// SPDX-License-Identifier: MIT
#include "weather/station_choice.hpp"

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

}  // namespace

Result<std::string> choose_station(const Table& table, const ColumnPlan& plan, const std::string& wanted,
                                   TimedRows& rows, ReadingNotes& notes) {
  std::vector<std::size_t> candidates = plan.all(Quantity::station);
  for (const std::size_t column : candidates) {
    const auto texts = different_texts(table, rows, column);
    if (texts.size() < 2) continue;
    const bool named = !wanted.empty() && std::any_of(texts.begin(), texts.end(), [&](std::string_view t) {
      return lowered(t) == lowered(wanted);
    });
    if (!named && !share_moments(table, rows, column)) continue;
    std::vector<std::string> names(texts.begin(), texts.end());
    std::string_view chosen = texts.front();
    if (!wanted.empty()) {
      const auto found = std::find_if(texts.begin(), texts.end(),
                                      [&](std::string_view t) { return lowered(t) == lowered(wanted); });
      if (found == texts.end()) {
        const auto near = nearest(wanted, names);
        return fail(Problem{Family::request,
                            "the wanted station is not in the file",
                            {notes.file(), {}, static_cast<int>(column) + 1, {}},
                            wanted,
                            shortened_list(names, 10),
                            near ? "did you mean '" + *near + "'?" : ""});
      }
      chosen = *found;
    } else {
      notes.doubt(fmt::format("the file holds {} stations ({}); '{}' is read, --station chooses another",
                              texts.size(), shortened_list(names, 6), chosen),
                  table.line(rows.records.front()), static_cast<int>(column) + 1);
    }
    TimedRows kept = rows;
    kept.records.clear();
    kept.moments.clear();
    for (std::size_t i = 0; i < rows.records.size(); ++i) {
      if (table.field(rows.records[i], column) != chosen) continue;
      kept.records.push_back(rows.records[i]);
      kept.moments.push_back(rows.moments[i]);
    }
    rows = std::move(kept);
    return std::string{chosen};
  }
  return std::string{};
}

}  // namespace soilclock::weather
