// SPDX-License-Identifier: MIT
#include "weather/rows/section_reading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/text.hpp"
#include "weather/checks.hpp"
#include "weather/rows/daily_rows.hpp"
#include "weather/rows/station_choice.hpp"
#include "weather/rows/sub_daily_rows.hpp"
#include "weather/rows/table_section.hpp"
#include "weather/rows/unit_recognition.hpp"
#include "weather/rows/value_windows.hpp"
#include "weather/unit_evidence.hpp"

namespace soilclock::weather {

namespace {

std::optional<Place> place_of_row(const Table& table, std::size_t record,
                                  const std::vector<std::string>& names) {
  std::optional<double> latitude;
  std::optional<double> longitude;
  std::optional<double> elevation;
  for (std::size_t column = 0; column < names.size(); ++column) {
    const auto value = parse_number(table.field(record, column));
    if (!value) continue;
    const Quantity quantity = heading_meaning(names[column]).quantity;
    if (quantity == Quantity::latitude) latitude = value;
    if (quantity == Quantity::longitude) longitude = value;
    if (quantity == Quantity::elevation) elevation = value;
  }
  if (!latitude || !longitude) return std::nullopt;
  return checked_place(*latitude, *longitude, elevation);
}

/// Where the file says the chosen station is: the table of places, place columns, or the lines ahead of the
/// heading.
std::optional<Place> find_place(const Table& table, const Layout& layout, const SectionData& data,
                                const std::string& station) {
  if (layout.places) {
    for (const std::size_t row : layout.places->rows) {
      if (station.empty() || table.field(row, 0) == station)
        return place_of_row(table, row, layout.places->names);
    }
  }
  if (!data.rows.records.empty()) {
    if (const auto place = place_of_row(table, data.rows.records.front(), data.section.names)) return place;
  }
  return layout.preamble.place;
}

/// Which clock cuts the days: what the file says first, then what the stamps show.
std::string day_definition(const Layout& layout, const SectionData& data, const ParsedFile& reading) {
  if (!layout.preamble.day_definition.empty()) return layout.preamble.day_definition;
  if (!data.plan.day_definition.empty()) return data.plan.day_definition;
  if (layout.places) {
    const std::vector<std::string>& names = layout.places->names;
    const auto offset = std::find(names.begin(), names.end(), "utc_offset_seconds");
    if (offset != names.end() && !layout.places->rows.empty()) {
      // One offset for the whole answer: these days do not follow summer time.
      const auto seconds = parse_number(
          data.table.field(layout.places->rows.front(), static_cast<std::size_t>(offset - names.begin())));
      if (seconds && std::abs(*seconds) <= 14 * 3600) {
        return *seconds == 0.0 ? "UTC"
                               : "fixed offset " +
                                     TimeZone::fixed(std::chrono::seconds{static_cast<int>(*seconds)}).name();
      }
    }
  }
  if (data.rows.clock.empty() || (reading.step == "daily" && data.rows.clock == "wall clock"))
    return "as printed";
  return data.rows.clock;
}

void note_cells(const PlannedColumn& planned, std::size_t column, const ColumnValues& cells,
                const SectionData& data, ReadingNotes& notes) {
  const int shown = static_cast<int>(column) + 1;
  if (cells.marked_missing > 0) {
    notes.doubt(fmt::format("{} {} of '{}' {} marked as missing ({})", cells.marked_missing,
                            cells.marked_missing == 1 ? "value" : "values", planned.heading,
                            cells.marked_missing == 1 ? "is" : "are", shortened_list(cells.markers, 8)),
                data.heading_line(), shown);
  }
  if (cells.traces > 0) {
    notes.doubt(fmt::format("{} {} of rain in '{}': rain fell, the amount counts as 0", cells.traces,
                            cells.traces == 1 ? "trace" : "traces", planned.heading),
                data.heading_line(), shown);
  }
}

bool is_value(Quantity quantity) {
  return is_temperature(quantity) || is_rain(quantity) || quantity == Quantity::humidity ||
         quantity == Quantity::wind;
}

/// Units written behind the numbers count like those of the heading, and must not contradict them.
Checked adopt_cell_unit(PlannedColumn& planned, const std::string& text, int column, const SectionData& data,
                        const ReadingNotes& notes) {
  if (text.empty()) return {};
  const std::string_view sample = is_rain(planned.meaning.quantity)          ? "rain "
                                  : is_temperature(planned.meaning.quantity) ? "temp "
                                                                             : "rh ";
  const Unit unit = text == "in" && !is_rain(planned.meaning.quantity)
                        ? Unit::none
                        : heading_meaning(std::string{sample} + text).unit;
  if (unit == Unit::none || (planned.meaning.unit != Unit::none && planned.meaning.unit != unit)) {
    return fail(notes.problem(fmt::format("the numbers of '{}' are followed by {}", planned.heading, text),
                              data.heading_line(), column, text,
                              planned.meaning.unit == Unit::none
                                  ? "a unit that fits the column"
                                  : std::string{unit_name(planned.meaning.unit)} + " as in the heading",
                              "correct the heading or the cells"));
  }
  planned.meaning.unit = unit;
  return {};
}

Checked read_values(SectionData& data, std::optional<double> missing_code, ReadingNotes& notes) {
  for (std::size_t column = 0; column < data.plan.columns.size(); ++column) {
    PlannedColumn& planned = data.plan.columns[column];
    if (!is_value(planned.meaning.quantity)) continue;
    auto cells = read_column(data.table, data.rows.records, column, is_rain(planned.meaning.quantity),
                             missing_code, notes);
    if (!cells) return fail(cells.error());
    if (const auto done = adopt_cell_unit(planned, cells->unit, static_cast<int>(column) + 1, data, notes);
        !done)
      return done;
    note_cells(planned, column, *cells, data, notes);
    data.values.emplace(column, std::move(*cells));
  }
  return {};
}

Checked check_any_number(const SectionData& data, const ReadingNotes& notes) {
  std::vector<std::string> names;
  for (const auto& [column, cells] : data.values) {
    if (!is_temperature(data.plan.quantity(column))) continue;
    for (const double value : cells.values) {
      if (!std::isnan(value)) return {};
    }
    names.push_back("'" + data.plan.columns[column].heading + "'");
  }
  return fail(notes.problem(fmt::format("every temperature is missing (columns {})", listed(names)),
                            data.heading_line(), {}, {}, "at least one temperature",
                            "check the export, the station and the range of dates"));
}

/// The one unit of some columns; nothing when they differ or there is none.
Unit common_unit(const ColumnPlan& plan, bool (*wanted)(Quantity)) {
  std::optional<Unit> unit;
  for (const PlannedColumn& column : plan.columns) {
    if (!wanted(column.meaning.quantity)) continue;
    if (unit && *unit != column.meaning.unit) return Unit::none;
    unit = column.meaning.unit;
  }
  return unit.value_or(Unit::none);
}

bool of_air(Quantity quantity) { return is_temperature(quantity) && quantity != Quantity::soil; }
bool of_soil(Quantity quantity) { return quantity == Quantity::soil; }

/// What the user says of the units is not judged.
Checked check_labels(const SectionData& data, const ParsedFile& reading, const ReadingOptions& options,
                     ReadingNotes& notes) {
  if (data.unit_told) return {};
  const std::optional<Place>& place = data.place ? data.place : options.place;
  const auto air = check_unit(reading.daily, common_unit(data.plan, of_air),
                              data.unit_guessed ? UnitSource::guessed : UnitSource::named, place, notes);
  if (!air) return air;
  std::vector<ProbeObservation> soil = reading.spots;
  for (const auto& [depth, series] : reading.daily.soil) {
    for (Day day = series.days().begin(); day < series.days().end(); day += Days{1}) {
      if (const auto value = series.at(day)) soil.push_back({day, 0, depth, *value});
    }
  }
  return check_soil_unit(soil, common_unit(data.plan, of_soil), place, notes);
}

}  // namespace

Result<ParsedFile> read_block(const Table& table, const Layout& layout, const TableSection& section,
                              const ReadingOptions& options, ReadingNotes& notes) {
  ParsedFile reading;
  reading.file = notes.file();
  auto plan = plan_columns(table, section, options, notes);
  if (!plan) return fail(plan.error());
  auto rows = read_moments(table, section, *plan, options, notes);
  if (!rows) return fail(rows.error());
  const std::optional<int> heading =
      section.names.empty() ? std::nullopt : std::optional{table.line(section.heading_record)};
  if (const auto done = set_windows_aside(*plan, *rows, heading, notes); !done) return fail(done.error());
  const auto station = choose_station(table, *plan, options.station, *rows, notes);
  if (!station) return fail(station.error());
  SectionData data{table, section, std::move(*plan), std::move(*rows), {}, {}};
  data.place = find_place(table, layout, data, *station);
  if (const auto done = read_values(data, layout.preamble.missing_code, notes); !done)
    return fail(done.error());
  if (const auto done = check_any_number(data, notes); !done) return fail(done.error());
  if (const auto done = settle_units(data, options, notes); !done) return fail(done.error());
  reading.place = data.place;
  for (const PlannedColumn& column : data.plan.columns) {
    const HeadingMeaning& m = column.meaning;
    reading.columns.push_back({column.heading, quantity_name(m.quantity, m.depth_cm),
                               is_value(m.quantity) ? std::string{unit_name(m.unit)} : std::string{}});
  }
  if (is_daily(data.rows)) {
    if (const auto done = read_daily_rows(data, options, reading, notes); !done) return fail(done.error());
    count_days(reading);
    check_daily_series(reading, notes);
  } else if (const auto done = read_sub_daily_rows(data, options, reading, notes); !done) {
    return fail(done.error());
  }
  reading.daily.day_definition = day_definition(layout, data, reading);
  if (const auto done = check_labels(data, reading, options, notes); !done) return fail(done.error());
  return reading;
}

}  // namespace soilclock::weather
