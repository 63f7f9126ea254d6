// SPDX-License-Identifier: MIT
#include "weather/formats/archive_lines.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>
#include <vector>

#include "core/text.hpp"
#include "weather/formats/station_elements.hpp"
#include "weather/hour_days.hpp"
#include "weather/table/line_reading.hpp"

namespace soilclock::weather {

namespace {

constexpr std::size_t id_length = 11;

/// Positions of a monthly line, counted from 0.
constexpr std::size_t year_at = 11;
constexpr std::size_t month_at = 15;
constexpr std::size_t element_at = 17;
constexpr std::size_t first_group_at = 21;
constexpr std::size_t group_length = 8;
constexpr std::size_t month_line_length = first_group_at + 31 * group_length;
constexpr double missing_value = -9999.0;

bool all_of(std::string_view text, bool (*allowed)(char)) {
  return !text.empty() && std::all_of(text.begin(), text.end(), allowed);
}
bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_code(char c) { return is_digit(c) || (c >= 'A' && c <= 'Z') || c == '_' || c == '-'; }

bool is_station(std::string_view id) { return id.size() == id_length && all_of(id, is_code); }
bool is_element(std::string_view text) { return text.size() == 4 && all_of(text, is_code); }

unsigned whole(std::string_view digits) {
  unsigned number = 0;
  for (const char c : digits) number = number * 10 + static_cast<unsigned>(c - '0');
  return number;
}

/// A line padded to its full length: blanks at the end are often lost on the way.
std::optional<std::string> month_line(std::string_view line) {
  constexpr std::size_t flags = 3;
  if (line.size() > month_line_length || line.size() + flags < month_line_length) return std::nullopt;
  std::string padded{line};
  padded.resize(month_line_length, ' ');
  const std::string_view whole_line = padded;
  if (!is_station(whole_line.substr(0, id_length)) || !is_element(whole_line.substr(element_at, 4)) ||
      !all_of(whole_line.substr(year_at, 6), is_digit))
    return std::nullopt;
  return padded;
}

ParsedFile refused(ParsedFile reading, Problem problem) {
  reading.refusal = std::move(problem);
  return reading;
}

/// Puts the 31 values of a line into the record of the station.
Checked add_month(std::string_view line, int number, StationElements& elements, ReadingNotes& notes) {
  const int year = static_cast<int>(whole(line.substr(year_at, 4)));
  const unsigned month = whole(line.substr(month_at, 2));
  for (unsigned day_of_month = 1; day_of_month <= 31; ++day_of_month) {
    const std::string_view group =
        line.substr(first_group_at + (day_of_month - 1) * group_length, group_length);
    const auto value = parse_number(trimmed(group.substr(0, 5)));
    const auto day = checked_day(year, month, day_of_month);
    if (!value || (!day && *value != missing_value)) {
      return fail(notes.problem(
          value ? fmt::format("day {} does not exist in {}-{:02} but has a value", day_of_month, year, month)
                : fmt::format("the value of day {} is no number", day_of_month),
          number, static_cast<int>(first_group_at + (day_of_month - 1) * group_length) + 1,
          std::string{group}, "a number of five characters, -9999 where it is missing",
          "load the file again"));
    }
    if (*value == missing_value) continue;
    const auto done = elements.add(
        {*day, line.substr(element_at, 4), *value, group.substr(5, 1), group.substr(6, 1), {}, number},
        notes);
    if (!done) return done;
  }
  return {};
}

ParsedFile finished(StationElements& elements, const ReadingOptions& options, ParsedFile reading,
                    ReadingNotes& notes) {
  if (const auto done = elements.finish(options, reading, notes); !done)
    return refused(std::move(reading), done.error());
  conclude(reading, notes);
  return reading;
}

/// One line of the long form.
struct ValueLine {
  std::string_view station;
  Day day{};
  std::array<std::string_view, 8> fields;
  double value = 0.0;
};

std::optional<ValueLine> value_line(std::string_view line) {
  ValueLine result;
  std::size_t count = 0;
  for (std::size_t from = 0; from <= line.size(); ++count) {
    if (count == result.fields.size()) return std::nullopt;
    const std::size_t end = std::min(line.find(',', from), line.size());
    result.fields[count] = trimmed(line.substr(from, end - from));
    from = end + 1;
  }
  if (count < 7) return std::nullopt;
  const std::string_view date = result.fields[1];
  const auto value = parse_number(result.fields[3]);
  if (!is_station(result.fields[0]) || date.size() != 8 || !all_of(date, is_digit) ||
      !is_element(result.fields[2]) || !value)
    return std::nullopt;
  const auto day = checked_day(static_cast<int>(whole(date.substr(0, 4))), whole(date.substr(4, 2)),
                               whole(date.substr(6, 2)));
  if (!day) return std::nullopt;
  result.station = result.fields[0];
  result.day = *day;
  result.value = *value;
  return result;
}

bool is_value_heading(std::string_view line) {
  return line.starts_with("ID,") && line.find("ELEMENT") != std::string_view::npos;
}

struct Chosen {
  std::string station;
  std::vector<std::string> others;
};

/// The station to read, and those left out.
Chosen choose(std::string_view text, const std::string& wanted) {
  Chosen chosen;
  std::vector<std::string> all;
  std::set<std::string_view> known;
  LineReader lines{text};
  while (lines.next()) {
    const auto line = value_line(lines.line());
    // Lines of one station mostly stand together.
    if (!line || (!all.empty() && all.back() == line->station)) continue;
    if (known.emplace(line->station).second) all.emplace_back(line->station);
  }
  chosen.station = wanted.empty() && !all.empty() ? all.front() : wanted;
  for (std::string& station : all) {
    if (station != chosen.station) chosen.others.push_back(std::move(station));
  }
  return chosen;
}

}  // namespace

std::optional<ParsedFile> read_archive_months(std::string_view text, const std::string& file,
                                              const ReadingOptions& options) {
  LineReader lines{text};
  if (!lines.next() || !month_line(lines.line())) return std::nullopt;
  const std::string station{lines.line().substr(0, id_length)};
  ParsedFile reading;
  reading.file = file;
  ReadingNotes notes{file, options};
  if (!options.station.empty() && lowered(options.station) != lowered(station)) {
    return refused(std::move(reading), {Family::request,
                                        "the station asked for is not in the file",
                                        {file, 1, {}, {}},
                                        options.station,
                                        station,
                                        {}});
  }
  StationElements elements{Unit::tenths_celsius, Unit::tenths_millimeter};
  lines = LineReader{text};
  while (lines.next()) {
    if (trimmed(lines.line()).empty()) continue;
    const auto line = month_line(lines.line());
    if (!line && lines.cut()) {
      notes.doubt("the last line is cut off and is left out", lines.number());
      break;
    }
    if (!line || !line->starts_with(station)) {
      return refused(
          std::move(reading),
          notes.problem("this line does not have the shape of the lines before it", lines.number(), {},
                        std::string{lines.line()}, "269 characters of one station", "load the file again"));
    }
    if (const auto done = add_month(*line, lines.number(), elements, notes); !done)
      return refused(std::move(reading), done.error());
  }
  return finished(elements, options, std::move(reading), notes);
}

std::optional<ParsedFile> read_archive_values(std::string_view text, const std::string& file,
                                              const ReadingOptions& options) {
  LineReader lines{text};
  if (!lines.next()) return std::nullopt;
  const bool heading = is_value_heading(lines.line());
  if (heading && !lines.next()) return std::nullopt;
  if (!value_line(lines.line())) return std::nullopt;
  ParsedFile reading;
  reading.file = file;
  ReadingNotes notes{file, options};
  const Chosen chosen = choose(text, options.station);
  StationElements elements{Unit::tenths_celsius, Unit::tenths_millimeter};
  lines = LineReader{text};
  if (heading) lines.next();
  while (lines.next()) {
    if (trimmed(lines.line()).empty()) continue;
    const auto line = value_line(lines.line());
    if (!line && lines.cut()) {
      notes.doubt("the last line is cut off and is left out", lines.number());
      break;
    }
    if (!line) {
      return refused(std::move(reading),
                     notes.problem("this line does not have the shape of the lines before it", lines.number(),
                                   {}, std::string{lines.line()},
                                   "station, yyyymmdd, element, value and flags", "load the file again"));
    }
    if (line->station != chosen.station || line->value == missing_value) continue;
    const auto done = elements.add({line->day, line->fields[2], line->value, line->fields[4], line->fields[5],
                                    line->fields[7], lines.number()},
                                   notes);
    if (!done) return refused(std::move(reading), done.error());
  }
  if (elements.empty()) {
    return refused(std::move(reading),
                   notes.problem("this station is not in the file", {}, {}, chosen.station,
                                 "one of " + shortened_list(chosen.others, 6), "name it with --station"));
  }
  if (!chosen.others.empty()) {
    notes.doubt(fmt::format("the file holds {} stations; '{}' is read, not {} (--station chooses another)",
                            chosen.others.size() + 1, chosen.station, shortened_list(chosen.others, 6)));
  }
  return finished(elements, options, std::move(reading), notes);
}

}  // namespace soilclock::weather
