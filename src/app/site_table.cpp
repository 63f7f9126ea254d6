// SPDX-License-Identifier: MIT
#include "app/site_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "core/text.hpp"
#include "records/csv.hpp"
#include "report/json_values.hpp"

namespace soilclock::app {

namespace {

using records::CsvCell;
using records::CsvRow;
using report::Json;

constexpr std::array headings{"id",    "name",      "latitude",    "longitude", "elevation_m", "time_zone",
                              "units", "group",     "weather",     "forecast",  "probe",       "targets",
                              "turf",  "irrigated", "overseed_on", "texture",   "plan"};

constexpr std::array needed{"id", "latitude", "longitude", "weather"};

/// The key of a site file in which a cell of a column comes to stand, for finding the cell of a problem.
std::string_view key_of(std::string_view heading) {
  if (heading == "irrigated" || heading == "overseed_on") return "turf";
  if (heading == "texture") return "soil";
  return heading == "forecast" ? "weather" : heading;
}

Problem at_cell(std::string what, const std::string& file, const CsvCell& cell, std::size_t column) {
  return {Family::request,
          std::move(what),
          {file, cell.line, static_cast<int>(column) + 1, {}},
          cell.text,
          {},
          {}};
}

/// The headings in their order; every one known, none twice.
Result<std::vector<std::string>> read_headings(const CsvRow& row, const std::string& file) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < row.size(); ++i) {
    const std::string name = lowered(trimmed(row[i].text));
    if (std::find(headings.begin(), headings.end(), name) == headings.end()) {
      Problem problem = at_cell("this heading is not known here", file, row[i], i);
      const auto near = nearest(name, {headings.begin(), headings.end()});
      problem.remedy =
          near ? "did you mean '" + *near + "'?" : "see the README for the headings of a table of sites";
      return fail(std::move(problem));
    }
    if (std::find(names.begin(), names.end(), name) != names.end())
      return fail(at_cell("this heading stands twice", file, row[i], i));
    names.push_back(name);
  }
  for (const char* name : needed) {
    if (std::find(names.begin(), names.end(), name) != names.end()) continue;
    return fail(Problem{Family::request,
                        fmt::format("the table has no column '{}'", name),
                        {file, 1, {}, {}},
                        {},
                        {},
                        "id, latitude, longitude and weather are needed for every site"});
  }
  return names;
}

/// As many cells as headings, and none of those needed empty.
Checked check_row(const CsvRow& row, const std::vector<std::string>& names, const std::string& file) {
  if (row.size() != names.size()) {
    return fail(Problem{Family::request,
                        "this row has another number of cells than the headings",
                        {file, row.front().line, {}, {}},
                        std::to_string(row.size()),
                        std::to_string(names.size()),
                        "a cell with a comma in it stands in quotes"});
  }
  for (std::size_t i = 0; i < row.size(); ++i) {
    const bool must = std::find(needed.begin(), needed.end(), names[i]) != needed.end();
    if (must && trimmed(row[i].text).empty())
      return fail(at_cell(fmt::format("the {} of this site is missing", names[i]), file, row[i], i));
  }
  return {};
}

std::vector<std::string> words_of_cell(std::string_view cell) {
  std::vector<std::string> parts;
  while (!cell.empty()) {
    const auto end = cell.find(';');
    const std::string_view part = trimmed(cell.substr(0, end));
    if (!part.empty()) parts.emplace_back(part);
    cell = end == std::string_view::npos ? std::string_view{} : cell.substr(end + 1);
  }
  return parts;
}

/// A number as one, anything else as text: the reader of site files then says what is wrong with it.
Json number_or_text(const std::string& cell) {
  const auto number = parse_number(cell);
  return number ? Json(*number) : Json(cell);
}

Json irrigated(const std::string& cell) {
  const std::string word = lowered(cell);
  if (word == "yes" || word == "true") return true;
  if (word == "no" || word == "false") return false;
  return number_or_text(cell);
}

void add_weather(const std::string& cell, bool forecast, Json& site) {
  constexpr std::string_view service = "service:";
  for (const std::string& part : words_of_cell(cell)) {
    Json entry;
    if (part.starts_with(service)) {
      const std::string name = part.substr(service.size());
      const auto colon = name.find(':');
      entry["service"] = name.substr(0, colon);
      if (colon != std::string::npos) entry["station"] = name.substr(colon + 1);
    } else {
      entry["file"] = part;
      if (forecast) entry["role"] = "forecast";
    }
    site["weather"].push_back(entry);
  }
}

/// Adds what a cell says to a site as a site file would have it.
void add_cell(const std::string& heading, const std::string& cell, Json& site) {
  if (heading == "latitude" || heading == "longitude" || heading == "elevation_m")
    site[heading] = number_or_text(cell);
  else if (heading == "weather" || heading == "forecast")
    add_weather(cell, heading == "forecast", site);
  else if (heading == "probe")
    for (const std::string& part : words_of_cell(cell)) site["probe"].push_back({{"file", part}});
  else if (heading == "targets")
    site["targets"] = words_of_cell(cell);
  else if (heading == "turf")
    site["turf"]["species"] = cell;
  else if (heading == "irrigated")
    site["turf"]["irrigated"] = irrigated(cell);
  else if (heading == "overseed_on")
    site["turf"]["overseed_on"] = cell;
  else if (heading == "texture")
    site["soil"]["texture"] = cell;
  else if (heading != "plan")
    site[heading] = cell;
}

/// A table being read.
struct Table {
  const std::string& file;
  std::vector<std::string> headings;
  std::vector<CsvRow> rows;

  std::string cell(std::size_t row, std::size_t column) const {
    return std::string{trimmed(rows[row][column].text)};
  }

  /// The list of sites as a site file has it.
  std::string as_site_file() const {
    Json sites = Json::array();
    for (std::size_t row = 0; row < rows.size(); ++row) {
      Json site = Json::object();
      for (std::size_t column = 0; column < headings.size(); ++column) {
        if (const std::string text = cell(row, column); !text.empty()) add_cell(headings[column], text, site);
      }
      sites.push_back(site);
    }
    return report::dumped(sites, -1);
  }

  /// The place of a problem of that file ("/2/latitude") in the table: its row, and its cell where it has
  /// one.
  void place(InputPlace& where) const {
    const auto steps = [&](std::size_t step) {
      std::string_view rest = where.json_pointer;
      for (std::size_t i = 0; i < step && !rest.empty(); ++i) {
        const auto next = rest.find('/', 1);
        rest = next == std::string_view::npos ? std::string_view{} : rest.substr(next);
      }
      return std::string{rest.empty() ? rest : rest.substr(1, rest.find('/', 1) - 1)};
    };
    const auto row = parse_number(steps(0));
    const std::string key = steps(1);
    where.json_pointer.clear();
    if (!row || *row < 0.0 || *row >= static_cast<double>(rows.size())) return;
    const CsvRow& found = rows[static_cast<std::size_t>(*row)];
    where.line = found.front().line;
    for (std::size_t column = 0; column < headings.size() && !key.empty(); ++column) {
      if (key_of(headings[column]) != key) continue;
      where.line = found[column].line;
      where.column = static_cast<int>(column) + 1;
      return;
    }
  }

  Checked add_plans(std::vector<Site>& sites) const {
    const auto plan = std::find(headings.begin(), headings.end(), "plan");
    if (plan == headings.end()) return {};
    const auto column = static_cast<std::size_t>(plan - headings.begin());
    for (std::size_t row = 0; row < rows.size(); ++row) {
      const std::string words = cell(row, column);
      if (words.empty()) continue;
      auto read = parse_plan(words);
      const InputPlace here{file, rows[row][column].line, static_cast<int>(column) + 1, {}};
      if (!read) {
        read.error().where = here;
        return fail(read.error());
      }
      for (SitePlan::Entry& entry : read->entries) entry.where = here;
      sites[row].plan = std::move(*read);
    }
    return {};
  }
};

}  // namespace

Result<std::vector<Site>> read_site_table(std::string_view text, const std::string& file,
                                          const std::string& folder) {
  const auto known = [](std::string_view word) {
    return std::find(headings.begin(), headings.end(), lowered(trimmed(word))) != headings.end();
  };
  if (!trimmed(text).empty() && !records::has_heading(text, known)) {
    return fail(Problem{Family::request,
                        "this is no table of sites: none of its headings is known here",
                        {file, 1, {}, {}},
                        {},
                        "id,latitude,longitude,weather, with commas between them",
                        "check that this is the right file; see the README for the headings"});
  }
  auto rows = records::parse_csv(text, file);
  if (!rows) {
    rows.error().family = Family::request;
    return fail(rows.error());
  }
  if (rows->empty())
    return fail(
        Problem{Family::request, "the table is empty", {file, 1, {}, {}}, {}, "a line of headings", {}});
  auto names = read_headings(rows->front(), file);
  if (!names) return fail(names.error());
  Table table{file, std::move(*names), {rows->begin() + 1, rows->end()}};
  for (const CsvRow& row : table.rows) {
    if (const auto good = check_row(row, table.headings, file); !good) return fail(good.error());
  }
  auto sites = read_sites(table.as_site_file(), file, folder);
  if (!sites) {
    table.place(sites.error().where);
    return sites;
  }
  if (const auto planned = table.add_plans(*sites); !planned) return fail(planned.error());
  return sites;
}

}  // namespace soilclock::app
