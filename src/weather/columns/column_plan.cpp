// SPDX-License-Identifier: MIT
#include "weather/columns/column_plan.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/text.hpp"
#include "weather/columns/column_choice.hpp"
#include "weather/columns/date_column.hpp"

namespace soilclock::weather {

namespace {

std::vector<std::string> split_list(std::string_view text, char separator) {
  std::vector<std::string> items;
  for (;;) {
    const auto end = text.find(separator);
    items.emplace_back(trimmed(text.substr(0, end)));
    if (end == std::string_view::npos) return items;
    text.remove_prefix(end + 1);
  }
}

Problem option_problem(std::string what, std::string found, std::string expected, std::string remedy) {
  return {Family::request, std::move(what), {}, std::move(found), std::move(expected), std::move(remedy)};
}

Result<HeadingMeaning> named_quantity(const std::string& word) {
  if (const auto meaning = quantity_named(word)) return *meaning;
  const auto near =
      nearest(word, {"date", "time", "tmin", "tmax", "tmean", "temperature", "rain", "soil 5 cm", "humidity",
                     "wind", "station", "year", "month", "day", "day of year", "skip"});
  return fail(
      option_problem("the column option names an unknown quantity", word,
                     "date, time, year, month, day, day of year, tmin, tmax, temperature, rain, soil 5 cm, "
                     "humidity, wind, station or skip",
                     near ? "did you mean '" + *near + "'?" : ""));
}

/// Applies "date,tmin,tmax" or "High=tmax,Low=tmin" to the plan.
Checked apply_option(ColumnPlan& plan, const ReadingOptions& options) {
  const std::vector<std::string> items = split_list(options.columns, ',');
  if (columns_by_position(options)) {
    if (plan.columns.size() < items.size()) plan.columns.resize(items.size());
    for (PlannedColumn& column : plan.columns) column.meaning = {};
    for (std::size_t i = 0; i < items.size(); ++i) {
      const auto meaning = named_quantity(items[i]);
      if (!meaning) return fail(meaning.error());
      const Unit unit = plan.columns[i].meaning.unit;
      plan.columns[i].meaning = *meaning;
      plan.columns[i].meaning.unit = unit;
      plan.columns[i].named = true;
    }
    return {};
  }
  for (const std::string& item : items) {
    const auto equals = item.rfind('=');
    const auto meaning = named_quantity(equals == std::string::npos ? item : item.substr(equals + 1));
    if (!meaning) return fail(meaning.error());
    const std::string heading{trimmed(item.substr(0, equals))};
    const auto column = std::find_if(plan.columns.begin(), plan.columns.end(), [&](const PlannedColumn& c) {
      return lowered(c.heading) == lowered(heading);
    });
    if (column == plan.columns.end()) {
      std::vector<std::string> known;
      for (const PlannedColumn& c : plan.columns) known.push_back(c.heading);
      return fail(option_problem("the column option names a heading the file does not have", heading,
                                 listed(known), "write the heading as it stands in the file"));
    }
    // What the user names replaces what the headings would have given.
    for (PlannedColumn& other : plan.columns) {
      if (other.meaning.quantity == meaning->quantity && meaning->quantity != Quantity::soil)
        other.meaning = {};
    }
    const HeadingMeaning written = heading_meaning(column->heading);
    column->meaning = *meaning;
    column->meaning.unit = written.unit;
    column->meaning.unknown_unit = is_temperature(meaning->quantity) || is_rain(meaning->quantity)
                                       ? written.unknown_unit
                                       : std::string{};
    column->named = true;
  }
  return {};
}

bool has_moment(const ColumnPlan& plan) {
  if (plan.find(Quantity::stamp)) return true;
  if (!plan.find(Quantity::year)) return false;
  return plan.find(Quantity::day_of_year) ||
         (plan.find(Quantity::month) && plan.find(Quantity::day_of_month));
}

std::string heading_list(const ColumnPlan& plan) {
  std::vector<std::string> names;
  for (const PlannedColumn& column : plan.columns) names.push_back("'" + column.heading + "'");
  return listed(names);
}

Problem no_temperature(const ColumnPlan& plan, std::optional<int> line, const ReadingNotes& notes) {
  std::vector<std::string> others;
  for (const PlannedColumn& column : plan.columns) {
    if (column.meaning.names_temperature || column.meaning.quantity == Quantity::soil ||
        is_temperature(column.meaning.unqualified))
      others.push_back("'" + column.heading + "'");
  }
  std::string what =
      "there is no column with the air temperature near the ground (or a soil temperature with its depth)";
  if (!others.empty())
    what += fmt::format("; {} {} not that", listed(others), others.size() == 1 ? "is" : "are");
  return notes.problem(std::move(what), line, {}, heading_list(plan),
                       "minimum and maximum, or one temperature several times a day",
                       "name the columns, for example --columns \"High=tmax,Low=tmin\" or \"T=soil 5 cm\"");
}

}  // namespace

std::optional<std::size_t> ColumnPlan::find(Quantity quantity) const {
  for (std::size_t column = 0; column < columns.size(); ++column) {
    if (columns[column].meaning.quantity == quantity) return column;
  }
  return std::nullopt;
}

std::vector<std::size_t> ColumnPlan::all(Quantity quantity) const {
  std::vector<std::size_t> found;
  for (std::size_t column = 0; column < columns.size(); ++column) {
    if (columns[column].meaning.quantity == quantity) found.push_back(column);
  }
  return found;
}

bool ColumnPlan::any_temperature() const {
  return std::any_of(columns.begin(), columns.end(), [](const PlannedColumn& column) {
    const HeadingMeaning& m = column.meaning;
    return is_temperature(m.quantity) && (m.quantity != Quantity::soil || m.depth_cm);
  });
}

bool columns_by_position(const ReadingOptions& options) {
  return !options.columns.empty() && options.columns.find('=') == std::string::npos;
}

Result<ColumnPlan> plan_columns(const Table& table, const TableSection& section,
                                const ReadingOptions& options, ReadingNotes& notes) {
  ColumnPlan plan;
  std::size_t width = section.names.size();
  std::optional<int> line;
  if (section.names.empty()) {
    for (const std::size_t row : section.rows) width = std::max(width, table.width(row));
  } else {
    line = table.line(section.heading_record);
  }
  for (std::size_t column = 0; column < width; ++column) {
    if (column < section.names.size())
      plan.columns.push_back(
          {section.names[column], heading_meaning(section.meanings[column], section.legends[column]), false});
    else
      plan.columns.push_back({fmt::format("column {}", column + 1), {}, false});
  }
  // The Irish daily station files name their 10 cm soil column just "soil"; maxtp and mintp mark the format.
  const bool irish = std::count_if(plan.columns.begin(), plan.columns.end(), [](const PlannedColumn& c) {
                       return c.heading == "maxtp" || c.heading == "mintp";
                     }) == 2;
  if (irish) plan.day_definition = "UTC";
  for (PlannedColumn& column : plan.columns) {
    if (irish && column.heading == "soil" && !column.meaning.depth_cm) column.meaning.depth_cm = 10.0;
    if (irish && is_temperature(column.meaning.quantity) && column.meaning.unit == Unit::none)
      column.meaning.unit = Unit::celsius;
    if (irish && column.meaning.quantity == Quantity::rain && column.meaning.unit == Unit::none) {
      column.meaning.unit = Unit::millimeter;
    }
  }
  if (!options.columns.empty()) {
    if (const auto applied = apply_option(plan, options); !applied) return fail(applied.error());
  }
  keep_one_each(plan, table, section, notes);
  if (const auto settled = settle_date_column(plan, table, section, notes); !settled)
    return fail(settled.error());
  if (!has_moment(plan)) {
    return fail(notes.problem("no column holds dates", line, {}, heading_list(plan),
                              "a column such as date, or year with day of year",
                              "name the columns, for example --columns \"When=date\""));
  }
  for (PlannedColumn& column : plan.columns) {
    if (column.meaning.quantity != Quantity::soil || column.meaning.depth_cm) continue;
    if (plan.any_temperature()) {
      notes.doubt(fmt::format("the soil column '{}' names no depth and is not used; name it, for example "
                              "--columns \"{}=soil 5 cm\"",
                              column.heading, column.heading),
                  line);
      column.meaning.quantity = Quantity::not_used;
    }
  }
  if (!plan.any_temperature()) return fail(no_temperature(plan, line, notes));
  if (const auto plain = ask_about_qualified(plan, line, notes); !plain) return fail(plain.error());
  note_unknown_words(plan, table, section, notes);
  return plan;
}

}  // namespace soilclock::weather
