// SPDX-License-Identifier: MIT
#include "weather/columns/table_layout.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/text.hpp"
#include "weather/columns/heading_meaning.hpp"
#include "weather/columns/heading_tokens.hpp"
#include "weather/columns/heading_words.hpp"
#include "weather/table/stamp_parsing.hpp"

namespace soilclock::weather {

namespace {

bool is_comment(const Table& table, std::size_t record) { return table.whole(record).starts_with('#'); }

struct Count {
  int texts = 0;
  int numbers = 0;
};

/// A heading may start with a number: "2m T min". Cells seldom have three letters, and are not looked at.
bool names_a_value(std::string_view field) {
  const auto letters = std::count_if(field.begin(), field.end(),
                                     [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); });
  if (letters < 3) return false;
  const HeadingMeaning meaning = heading_meaning(field);
  const Quantity quantity = meaning.quantity == Quantity::not_used ? meaning.unqualified : meaning.quantity;
  return is_temperature(quantity) || is_rain(quantity);
}

Count count_fields(const Table& table, std::size_t record) {
  Count count;
  for (std::size_t column = 0; column < table.width(record); ++column) {
    const std::string_view field = table.field(record, column);
    if (field.empty()) continue;
    const bool number = starts_like_a_number(field) && !names_a_value(field);
    ++(number ? count.numbers : count.texts);
  }
  return count;
}

/// How much a record looks like the heading of a weather table: 0 not, 1 some known word, 2 a moment and a
/// value.
int heading_rank(const Table& table, std::size_t record) {
  const Count count = count_fields(table, record);
  if (table.width(record) < 2 || count.texts < 2 || count.numbers > count.texts / 4) return 0;
  bool moment = false;
  bool value = false;
  for (std::size_t column = 0; column < table.width(record); ++column) {
    const std::string_view field = table.field(record, column);
    if (field.size() > 120 || field.find(':') != std::string_view::npos) continue;
    const HeadingMeaning meaning = heading_meaning(field);
    const Quantity quantity = meaning.quantity == Quantity::not_used ? meaning.unqualified : meaning.quantity;
    moment = moment || is_time(quantity);
    value = value || is_temperature(quantity) || is_rain(quantity);
  }
  return (moment ? 1 : 0) + (value ? 1 : 0);
}

bool is_place_heading(const Table& table, std::size_t record) {
  bool latitude = false;
  bool longitude = false;
  for (std::size_t column = 0; column < table.width(record); ++column) {
    const Quantity quantity = heading_meaning(table.field(record, column)).quantity;
    latitude = latitude || quantity == Quantity::latitude;
    longitude = longitude || quantity == Quantity::longitude;
  }
  return latitude && longitude;
}

/// "0.1 mm": a unit that starts with a number.
bool is_part_of_unit_text(std::string_view field) {
  for (const char* sample : {"temp", "rain"}) {
    const HeadingMeaning meaning = heading_meaning(fmt::format("{} ({})", sample, field));
    if (meaning.unit != Unit::none && meaning.unknown.empty()) return true;
  }
  return false;
}

/// Units, statistics and dashes, and nothing that could be data.
bool is_units_line(const Table& table, std::size_t record) {
  bool known = false;
  for (std::size_t column = 0; column < table.width(record); ++column) {
    const std::string_view field = table.field(record, column);
    if (starts_like_a_number(field) && !is_part_of_unit_text(field)) return false;
    for (const HeadingToken& token : heading_tokens(field)) {
      const auto hints = hints_of(token.text);
      if (hints &&
          (has(*hints, Hint::celsius) || has(*hints, Hint::fahrenheit) || has(*hints, Hint::kelvin) ||
           has(*hints, Hint::millimeter) || has(*hints, Hint::inch) || has(*hints, Hint::mean) ||
           has(*hints, Hint::percent) || has(*hints, Hint::maximum) || has(*hints, Hint::minimum))) {
        known = true;
      }
    }
  }
  return known;
}

bool same_fields(const Table& table, std::size_t a, std::size_t b) {
  if (table.width(a) != table.width(b)) return false;
  for (std::size_t column = 0; column < table.width(a); ++column) {
    if (table.field(a, column) != table.field(b, column)) return false;
  }
  return true;
}

std::string first_text(const Table& table) {
  for (std::size_t record = 0; record < table.size(); ++record) {
    if (!table.blank(record)) return std::string{table.whole(record)};
  }
  return {};
}

constexpr std::size_t search_limit = 500;  // no known export has more lines than this ahead of its heading
/// Judgment: a file with more lines of words within a block is no table of weather; the rest is read as rows,
/// which costs far less than looking for a heading in each line.
constexpr std::size_t most_lines_of_words = 10'000;

/// The record to take as heading: the first of the highest rank.
std::optional<std::size_t> find_heading(const Table& table, std::size_t from) {
  std::optional<std::size_t> best;
  int best_rank = 0;
  const std::size_t end = std::min(table.size(), from + search_limit);
  for (std::size_t record = from; record < end && best_rank < 2; ++record) {
    if (table.blank(record) || is_comment(table, record) || is_place_heading(table, record)) continue;
    const int rank = heading_rank(table, record);
    if (rank > best_rank) {
      best_rank = rank;
      best = record;
    }
  }
  return best;
}

/// A row with a number in it, for telling "no heading" from "no table".
std::optional<std::size_t> first_data_row(const Table& table) {
  for (std::size_t record = 0; record < std::min(table.size(), search_limit); ++record) {
    if (is_comment(table, record) || table.width(record) < 2) continue;
    const Count count = count_fields(table, record);
    if (count.numbers >= 2 && starts_like_a_number(table.field(record, 0))) return record;
    if (count.numbers >= 2 && count.numbers > count.texts) return record;
  }
  return std::nullopt;
}

/// A line of unknown words directly above the first row: the user may name its columns, or a column may hold
/// dates.
std::optional<std::size_t> unknown_heading(const Table& table) {
  const auto row = first_data_row(table);
  if (!row || *row == 0) return std::nullopt;
  const std::size_t record = *row - 1;
  if (table.width(record) != table.width(*row)) return std::nullopt;
  const Count count = count_fields(table, record);
  return count.numbers == 0 && count.texts >= 2 ? std::optional{record} : std::nullopt;
}

/// Some exports write a heading on two lines ("Temp" over "Out"); the upper line is text of the same width.
bool has_upper_line(const Table& table, std::size_t heading) {
  if (heading == 0 || table.width(heading - 1) != table.width(heading)) return false;
  if (is_comment(table, heading - 1) || heading_rank(table, heading - 1) == 2) return false;
  const Count count = count_fields(table, heading - 1);
  return count.numbers == 0 && count.texts >= 2;
}

/// Reads a block from its heading on; returns the record after it.
std::size_t read_block(const Table& table, std::size_t heading, const Preamble& preamble,
                       TableSection& section, ReadingNotes& notes) {
  section.heading_record = heading;
  const bool two_lines = has_upper_line(table, heading);
  for (std::size_t column = 0; column < table.width(heading); ++column) {
    std::string name{table.field(heading, column)};
    if (column == 0 && name.starts_with('#')) name = trimmed(std::string_view{name}.substr(1));
    if (two_lines && !table.field(heading - 1, column).empty())
      name = fmt::format("{} {}", table.field(heading - 1, column), name);
    section.names.push_back(name);
    section.meanings.push_back(name);
    section.legends.emplace_back(legend_text(preamble, name));
  }
  std::vector<std::size_t> units_lines;
  std::size_t record = heading + 1;
  constexpr std::size_t most_units_lines = 3;
  for (; record < table.size() && units_lines.size() < most_units_lines && is_units_line(table, record);
       ++record) {
    units_lines.push_back(record);
    for (std::size_t column = 0; column < section.meanings.size(); ++column) {
      if (!table.field(record, column).empty())
        section.meanings[column] += fmt::format(" ({})", table.field(record, column));
    }
  }
  bool noted = false;
  std::size_t lines_of_words = 0;
  for (; record < table.size(); ++record) {
    if (table.width(record) > 0 && starts_like_a_number(table.field(record, 0))) {
      section.add_row(record);
      continue;
    }
    if (table.blank(record) || is_comment(table, record)) continue;
    const bool repeated_units = std::any_of(units_lines.begin(), units_lines.end(), [&](std::size_t line) {
      return same_fields(table, line, record);
    });
    if (repeated_units) continue;
    if (same_fields(table, heading, record)) {
      if (!noted) notes.doubt("the heading is repeated here; rows after it are read on", table.line(record));
      noted = true;
      continue;
    }
    if (lines_of_words++ < most_lines_of_words && heading_rank(table, record) == 2) break;
    section.add_row(record);
  }
  return record;
}

Problem no_table(const Table& table, const ReadingNotes& notes) {
  if (const auto row = first_data_row(table)) {
    return notes.problem("there is no heading line, so nothing says which column is which", table.line(*row),
                         {}, std::string{table.whole(*row)}, "a line such as date,tmin_c,tmax_c,rain_mm",
                         "name the columns, for example --columns date,tmin,tmax,rain");
  }
  return no_weather_table(first_text(table), notes);
}

/// A cell that is a date by itself, not a mere number.
bool is_calendar_date(std::string_view field) {
  const auto stamp = parse_stamp(field);
  return stamp && stamp->form != RawStamp::Form::serial && stamp->form != RawStamp::Form::epoch;
}

/// Values with few words among them, or a date and a value below a heading that names one of the two.
bool is_row_of_weather(const Table& table, std::size_t record, bool below_heading) {
  const Count count = count_fields(table, record);
  if (count.numbers >= 3 && count.numbers >= 3 * count.texts) return true;
  if (count.numbers < 2 || (count.numbers <= count.texts && !below_heading)) return false;
  for (std::size_t column = 0; column < table.width(record); ++column) {
    if (is_calendar_date(table.field(record, column))) return true;
  }
  return false;
}

}  // namespace

Problem no_weather_table(std::string found, const ReadingNotes& notes) {
  return notes.problem("no weather table found: no heading line with a date and a temperature", {}, {},
                       std::move(found),
                       "a heading line such as date,tmin_c,tmax_c,rain_mm with rows below it",
                       "check that this is the right file");
}

bool has_weather_lines(const Table& table) {
  const std::size_t end = std::min(table.size(), most_lines_of_words);
  bool below_heading = false;
  for (std::size_t record = 0; record < end; ++record) {
    const int rank = heading_rank(table, record);
    if (rank == 2 || is_row_of_weather(table, record, below_heading)) return true;
    below_heading = below_heading || rank == 1;
  }
  return false;
}

bool starts_like_a_number(std::string_view field) {
  if (field.empty()) return false;
  const std::size_t at = field.front() == '-' || field.front() == '+' || field.front() == '.' ? 1 : 0;
  return at < field.size() && field[at] >= '0' && field[at] <= '9';
}

Result<Layout> find_layout(const Table& table, bool no_heading, ReadingNotes& notes) {
  Layout layout;
  if (no_heading) {
    const auto first = first_data_row(table);
    if (!first) return fail(no_table(table, notes));
    TableSection section;
    std::vector<std::string_view> ahead;
    for (std::size_t record = 0; record < table.size(); ++record) {
      if (record < *first)
        ahead.push_back(table.whole(record));
      else if (!table.blank(record) && !is_comment(table, record))
        section.add_row(record);
    }
    layout.preamble = read_preamble(ahead);
    layout.sections.push_back(std::move(section));
    return layout;
  }
  auto heading = find_heading(table, 0);
  if (!heading) heading = unknown_heading(table);
  if (!heading) return fail(no_table(table, notes));
  std::vector<std::string_view> ahead;
  for (std::size_t record = 0; record < *heading; ++record) {
    ahead.push_back(table.whole(record));
    if (!layout.places && is_place_heading(table, record)) {
      layout.places = TableSection{record, {}, {}, {}, {}};
      for (std::size_t column = 0; column < table.width(record); ++column) {
        layout.places->names.emplace_back(table.field(record, column));
      }
      for (std::size_t row = record + 1; row < *heading && !table.blank(row); ++row)
        layout.places->add_row(row);
    }
  }
  layout.preamble = read_preamble(ahead);
  while (heading) {
    TableSection section;
    const std::size_t next = read_block(table, *heading, layout.preamble, section, notes);
    layout.sections.push_back(std::move(section));
    if (next >= table.size()) break;
    heading = next;
  }
  const bool any_row = std::any_of(layout.sections.begin(), layout.sections.end(),
                                   [](const TableSection& b) { return !b.rows.empty(); });
  if (!any_row) {
    const std::size_t record = layout.sections.front().heading_record;
    return fail(notes.problem("the file has a heading and no rows", table.line(record), {},
                              std::string{table.whole(record)}, "rows with a date and values",
                              "export the data again, or choose a range that has data"));
  }
  return layout;
}

}  // namespace soilclock::weather
