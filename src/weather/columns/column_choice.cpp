// SPDX-License-Identifier: MIT
#include "weather/columns/column_choice.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "core/text.hpp"
#include "weather/columns/heading_tokens.hpp"
#include "weather/columns/heading_words.hpp"

namespace soilclock::weather {

namespace {

std::optional<int> choice_line(const Table& table, const TableSection& section) {
  return section.names.empty() ? std::nullopt : std::optional{table.line(section.heading_record)};
}

/// The plainest, of equal ones the preferred, of equal ones the first.
std::size_t best_of(const ColumnPlan& plan, const std::vector<std::size_t>& same) {
  return *std::min_element(same.begin(), same.end(), [&](std::size_t a, std::size_t b) {
    const int odd_a = oddity(plan.columns[a].meaning);
    const int odd_b = oddity(plan.columns[b].meaning);
    return odd_a != odd_b ? odd_a < odd_b
                          : preference(plan.columns[a].heading) > preference(plan.columns[b].heading);
  });
}

void keep_best(ColumnPlan& plan, const std::vector<std::size_t>& same, const Table& table,
               const TableSection& section, ReadingNotes& notes) {
  if (same.size() < 2) return;
  const std::size_t best = best_of(plan, same);
  const PlannedColumn& kept = plan.columns[best];
  const Quantity quantity = kept.meaning.quantity;
  // Readings at fixed hours beside the extremes of the day are common and not needed.
  const bool needless =
      (quantity == Quantity::air || quantity == Quantity::air_mean) && plan.find(Quantity::air_max);
  for (const std::size_t column : same) {
    if (column == best) continue;
    const PlannedColumn& other = plan.columns[column];
    const bool equal_claim = oddity(other.meaning) == oddity(kept.meaning) &&
                             preference(other.heading) == preference(kept.heading);
    if (equal_claim && !needless && quantity != Quantity::humidity && quantity != Quantity::wind &&
        !same_cells(table, section, best, column)) {
      notes.doubt(fmt::format("'{}' and '{}' both look like {}; '{}' is used", kept.heading, other.heading,
                              quantity_name(quantity, kept.meaning.depth_cm), kept.heading),
                  choice_line(table, section), static_cast<int>(column) + 1);
    }
    plan.columns[column].meaning.quantity = Quantity::not_used;
  }
}

/// A heading of rain, or an unknown one in a unit of rain.
bool looks_like_rain(const PlannedColumn& column) {
  const HeadingMeaning& meaning = column.meaning;
  if (meaning.quantity != Quantity::not_used || column.named) return false;
  if (meaning.names_rain || is_rain(meaning.unqualified)) return true;
  bool unit = false;
  for (const HeadingToken& token : heading_tokens(column.heading)) {
    const auto hints = hints_of(token.text);
    if (!hints) continue;
    unit = unit || has(*hints, Hint::millimeter) || (has(*hints, Hint::inch) && token.in_brackets());
    if (token.text == "water") continue;
    for (const Hint other : {Hint::not_value, Hint::not_air, Hint::not_amount, Hint::temperature, Hint::soil,
                             Hint::wind, Hint::humidity, Hint::maximum, Hint::minimum}) {
      if (has(*hints, other)) return false;
    }
  }
  return unit;
}

/// No word of the heading is known.
bool says_nothing(const PlannedColumn& column) {
  if (column.meaning.quantity != Quantity::not_used || column.named) return false;
  const auto tokens = heading_tokens(column.heading);
  return !tokens.empty() && std::none_of(tokens.begin(), tokens.end(), [](const HeadingToken& token) {
    const auto hints = hints_of(token.text);
    return hints && !has(*hints, Hint::harmless);
  });
}

/// Numbers as rain has them: never negative, often nothing, sometimes something with a fraction.
bool holds_rain_like_numbers(const Table& table, const TableSection& section, std::size_t column) {
  constexpr std::size_t fewest = 10;
  std::size_t numbers = 0;
  std::size_t zeros = 0;
  bool fraction = false;
  for (const std::size_t row : section.rows) {
    const auto value = parse_number(table.field(row, column));
    if (!value) continue;
    if (*value < 0.0 || *value > 500.0) return false;
    ++numbers;
    zeros += *value == 0.0 ? 1 : 0;
    fraction = fraction || *value != std::floor(*value);
  }
  return numbers >= fewest && fraction && zeros * 3 >= numbers && zeros < numbers;
}

void note_unread_rain(const ColumnPlan& plan, const Table& table, const TableSection& section,
                      ReadingNotes& notes) {
  const bool read = std::any_of(plan.columns.begin(), plan.columns.end(), [](const PlannedColumn& column) {
    return is_rain(column.meaning.quantity) && column.meaning.quantity != Quantity::rain_several_days;
  });
  if (read) return;
  std::vector<std::string> headings;
  for (std::size_t i = 0; i < plan.columns.size(); ++i) {
    const PlannedColumn& column = plan.columns[i];
    if (looks_like_rain(column) || (says_nothing(column) && holds_rain_like_numbers(table, section, i)))
      headings.push_back("'" + column.heading + "'");
  }
  if (headings.empty()) return;
  notes.doubt(
      fmt::format("no rain is read: {} {} not plainly the rain of a day or an hour; if a column is, "
                  "name it, for example --columns \"{}=rain\"",
                  shortened_list(headings, 4), headings.size() == 1 ? "is" : "are",
                  headings.front().substr(1, headings.front().size() - 2)));
}

}  // namespace

int oddity(const HeadingMeaning& meaning) {
  constexpr int word = 2;
  return static_cast<int>(meaning.unknown.size()) * word + (meaning.sensor_number ? 1 : 0);
}

int preference(const std::string& heading) {
  int score = 0;
  for (const HeadingToken& token : heading_tokens(heading)) {
    const auto hints = hints_of(token.text);
    if (token.text.starts_with("precip") || token.text.starts_with("niederschlag")) ++score;
    if (!hints) continue;
    if (token.text == "out" || has(*hints, Hint::outdoors) || has(*hints, Hint::local)) ++score;
    if (has(*hints, Hint::universal) || has(*hints, Hint::epoch)) --score;
  }
  return score;
}

bool same_cells(const Table& table, const TableSection& section, std::size_t a, std::size_t b) {
  return std::all_of(section.rows.begin(), section.rows.end(),
                     [&](std::size_t row) { return table.field(row, a) == table.field(row, b); });
}

void keep_one_each(ColumnPlan& plan, const Table& table, const TableSection& section, ReadingNotes& notes) {
  for (const Quantity quantity :
       {Quantity::air_min, Quantity::air_max, Quantity::air, Quantity::air_mean, Quantity::rain,
        Quantity::rain_today, Quantity::rain_running, Quantity::humidity, Quantity::wind,
        Quantity::time_of_day, Quantity::hour_ending, Quantity::year, Quantity::month, Quantity::day_of_month,
        Quantity::day_of_year, Quantity::observation_time}) {
    keep_best(plan, plan.all(quantity), table, section, notes);
  }
  std::map<double, std::vector<std::size_t>> by_depth;
  for (const std::size_t column : plan.all(Quantity::soil)) {
    if (const auto depth = plan.columns[column].meaning.depth_cm) by_depth[*depth].push_back(column);
  }
  for (const auto& [depth, same] : by_depth) keep_best(plan, same, table, section, notes);
}

Checked ask_about_qualified(const ColumnPlan& plan, std::optional<int> line, const ReadingNotes& notes) {
  const bool low = plan.find(Quantity::air_min).has_value();
  const bool high = plan.find(Quantity::air_max).has_value();
  if (low == high) return {};
  const Quantity lacking = low ? Quantity::air_max : Quantity::air_min;
  const auto only = std::find_if(plan.columns.begin(), plan.columns.end(), [&](const PlannedColumn& column) {
    return column.meaning.unqualified == lacking;
  });
  if (only == plan.columns.end()) return {};
  const char* what = low ? "maximum" : "minimum";
  return fail(notes.problem(
      fmt::format("the only {} is '{}', and that is not simply the one of the day ('{}')", what,
                  only->heading, only->meaning.qualifier),
      line, static_cast<int>(only - plan.columns.begin()) + 1, only->heading,
      fmt::format("a plain {} such as {}", what, low ? "tmax_c" : "tmin_c"),
      fmt::format("if it is the one to use, say --columns \"{}={}\"", only->heading, low ? "tmax" : "tmin")));
}

void note_unknown_words(const ColumnPlan& plan, const Table& table, const TableSection& section,
                        ReadingNotes& notes) {
  note_unread_rain(plan, table, section, notes);
  const std::optional<int> line = choice_line(table, section);
  for (std::size_t i = 0; i < plan.columns.size(); ++i) {
    const PlannedColumn& column = plan.columns[i];
    const HeadingMeaning& meaning = column.meaning;
    const bool value = is_temperature(meaning.quantity) || is_rain(meaning.quantity);
    const bool counts = value || is_time(meaning.quantity);
    if (column.named || !counts || meaning.unknown.empty()) continue;
    notes.doubt(
        fmt::format(
            "the heading '{}' is read as {}, but {} not known here ('{}'); say --columns \"{}={}\" if "
            "that is right",
            column.heading, quantity_name(meaning.quantity, meaning.depth_cm),
            meaning.unknown.size() == 1 ? "a word of it is" : "words of it are",
            fmt::join(meaning.unknown, "', '"), column.heading,
            quantity_name(meaning.quantity, meaning.depth_cm)),
        line, static_cast<int>(i) + 1);
  }
}

}  // namespace soilclock::weather
