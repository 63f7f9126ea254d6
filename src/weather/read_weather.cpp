// SPDX-License-Identifier: MIT
#include "weather/read_weather.hpp"

#include <algorithm>

#include "core/text.hpp"
#include "weather/checks.hpp"
#include "weather/columns/column_plan.hpp"
#include "weather/columns/long_form.hpp"
#include "weather/columns/table_layout.hpp"
#include "weather/formats/archive_lines.hpp"
#include "weather/formats/fixed_width_reference.hpp"
#include "weather/formats/hourly_reference.hpp"
#include "weather/reading_notes.hpp"
#include "weather/rows/section_reading.hpp"
#include "weather/services/series_choice.hpp"
#include "weather/services/service_answer.hpp"
#include "weather/table/table_splitting.hpp"
#include "weather/table/text_decoding.hpp"
#include "weather/table/zero_bytes.hpp"

namespace soilclock::weather {

namespace {

ParsedFile refused(const std::string& file, Problem problem) {
  ParsedFile reading;
  reading.file = file;
  if (problem.where.file.empty()) problem.where.file = file;
  reading.refusal = std::move(problem);
  return reading;
}

/// A workbook of a spreadsheet program, seen from its first bytes.
std::optional<Problem> workbook(std::string_view bytes, const ReadingNotes& notes) {
  if (!bytes.starts_with("PK\x03\x04") && !bytes.starts_with("\xD0\xCF\x11\xE0")) return std::nullopt;
  return notes.problem(
      "this is a spreadsheet workbook, not a text table", {}, {}, {}, "comma separated text (CSV)",
      "open it in the spreadsheet program, choose the sheet with the weather, then File, Save "
      "As (or Export, or Download), and CSV as the type; read the CSV file");
}

/// A text that is something else than a table of weather.
std::optional<Problem> wrong_kind(std::string_view text, const ReadingNotes& notes) {
  const std::string_view body = trimmed(text);
  if (body.empty()) {
    return notes.problem("the file is empty", {}, {}, {}, "a table of daily or hourly weather",
                         "load or export the data again");
  }
  const std::string start = lowered(body.substr(0, 200));
  if (start.starts_with("<!doctype html") || start.starts_with("<html") ||
      start.find("<head") != std::string::npos) {
    return notes.problem("this is a web page saved under the name of a data file, not data", 1, {}, {},
                         "a table of daily or hourly weather",
                         "the service answered with a page (perhaps an error); load the data again");
  }
  if (text.find('\0') != std::string_view::npos) {
    return notes.problem("the file holds binary data", {}, {}, {}, "a text table", "export the data as text");
  }
  return std::nullopt;
}

/// The series of a service's answer that stands for a file.
ParsedFile read_json_text(std::string_view text, const std::string& file, const ReadingOptions& options) {
  auto answer = read_service_answer(text, file, options);
  if (!answer) return refused(file, answer.error());
  auto chosen = choose_series(std::move(*answer), options.station);
  return chosen ? std::move(*chosen) : refused(file, chosen.error());
}

/// A text in one of the shapes that need no heading, or nothing.
std::optional<ParsedFile> read_without_heading(std::string_view text, const std::string& file,
                                               const ReadingOptions& options) {
  if (auto reading = read_reference_station(text, file, options)) return reading;
  if (auto reading = read_reference_hours(text, file, options)) return reading;
  if (auto reading = read_archive_months(text, file, options)) return reading;
  return read_archive_values(text, file, options);
}

template <class Value>
void add_absent_days(DailySeries<Value>& into, const DailySeries<Value>& from) {
  for (Day day = from.days().begin(); day < from.days().end(); day += Days{1}) {
    const auto value = from.at(day);
    if (value && !into.at(day)) into.set(day, *value, from.quality(day));
  }
}

/// Joins the tables of one file: daily values as printed win over those made from hours.
void join(ParsedFile& whole, ParsedFile part) {
  const bool daily = part.step == "daily";
  if (daily) std::swap(whole.daily, part.daily);
  add_absent_days(whole.daily.air_min, part.daily.air_min);
  add_absent_days(whole.daily.air_max, part.daily.air_max);
  add_absent_days(whole.daily.rain, part.daily.rain);
  for (const auto& [depth, series] : part.daily.soil) add_absent_days(whole.daily.soil[depth], series);
  whole.hours.insert(whole.hours.end(), part.hours.begin(), part.hours.end());
  whole.columns.insert(whole.columns.end(), part.columns.begin(), part.columns.end());
  if (whole.step != part.step)
    whole.step = daily ? part.step + " and " + whole.step : whole.step + " and " + part.step;
  if (!whole.place) whole.place = part.place;
  whole.first_date = std::min(*whole.first_date, *part.first_date);
  whole.last_date = std::max(*whole.last_date, *part.last_date);
}

/// Where the delimiter can be seen: after a header block that marks its own end, else everywhere.
std::string_view after_header_block(std::string_view text) {
  constexpr std::string_view mark = "-END HEADER-";
  const auto at = text.substr(0, 20000).find(mark);
  return at == std::string_view::npos ? text : text.substr(at + mark.size());
}

/// A table in columns, or one value a row.
Result<ParsedFile> read_section(const Table& table, const Layout& layout, const TableSection& section,
                                const ReadingOptions& options, ReadingNotes& notes) {
  const auto wide = options.columns.empty() ? widened(table, section, notes) : nullptr;
  if (!wide) return read_block(table, layout, section, options, notes);
  Layout around = layout;
  around.places.reset();  // its rows are those of the other table
  return read_block(wide->table, around, wide->section, options, notes);
}

ParsedFile read_tables(const Table& table, const std::string& file, const ReadingOptions& options,
                       ReadingNotes& notes) {
  const auto layout = find_layout(table, columns_by_position(options), notes);
  if (!layout) return refused(file, layout.error());
  std::optional<ParsedFile> whole;
  std::optional<Problem> first_problem;
  for (const TableSection& section : layout->sections) {
    if (section.rows.empty()) continue;
    auto part = read_section(table, *layout, section, options, notes);
    if (!part) {
      if (!first_problem) first_problem = part.error();
      continue;
    }
    if (!whole) {
      whole = std::move(*part);
    } else {
      join(*whole, std::move(*part));
      count_days(*whole);
    }
  }
  // A table that cannot be used beside one that can is named by a doubt.
  if (!whole) return refused(file, *first_problem);
  if (layout->sections.size() > 1) clear_reversed_days(whole->daily, notes);
  if (first_problem)
    notes.doubt("one table of the file is not used: " + first_problem->what, first_problem->where.line);
  return std::move(*whole);
}

ParsedFile read_table_text(std::string_view text, const std::string& file, const ReadingOptions& options,
                           ReadingNotes& notes) {
  const Table table{text, detect_delimiter(after_header_block(text))};
  ParsedFile reading = read_tables(table, file, options, notes);
  if (reading.refusal && !has_weather_lines(table)) return refused(file, no_weather_table({}, notes));
  reading.doubts = notes.finished();
  if (!reading.refusal) reading.outcome = reading.doubts.empty() ? Outcome::ok : Outcome::warn;
  return reading;
}

}  // namespace

ParsedFile read_weather_text(std::string_view bytes, const std::string& file, const ReadingOptions& options) {
  ReadingNotes notes{file, options};
  if (auto problem = workbook(bytes, notes)) return refused(file, std::move(*problem));
  const DecodedText decoded = decode_text(bytes);
  if (const auto good = without_zero_bytes(decoded.text(), notes)) {
    ParsedFile reading = read_weather_text(*good, file, options);
    const std::vector<Doubt> about = notes.finished();
    reading.doubts.insert(reading.doubts.begin(), about.begin(), about.end());
    if (!reading.refusal) reading.outcome = Outcome::warn;
    return reading;
  }
  if (auto problem = wrong_kind(decoded.text(), notes)) return refused(file, std::move(*problem));
  if (const char first = trimmed(decoded.text()).front(); first == '{' || first == '[')
    return read_json_text(decoded.text(), file, options);
  if (auto reading = read_without_heading(decoded.text(), file, options)) return std::move(*reading);
  if (decoded.encoding() == Encoding::one_byte) {
    notes.doubt(
        "the text is not UTF-8; it is read as a one-byte Western encoding (degree signs and accents may be "
        "wrong)");
  }
  return read_table_text(decoded.text(), file, options, notes);
}

}  // namespace soilclock::weather
