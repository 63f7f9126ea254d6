// SPDX-License-Identifier: MIT
// The files practitioners bring, against figures computed outside this program.
#include <catch2/catch.hpp>

#include <cmath>
#include <map>
#include <sstream>
#include <vector>

#include "core/text.hpp"
#include "weather_texts.hpp"

using namespace weather_texts;
using soilclock::parse_number;

namespace {

using Row = std::map<std::string, std::string>;

/// The fields ahead of the note (which alone may hold commas and quotes).
std::vector<Row> expected_rows(const std::filesystem::path& file) {
  std::istringstream text{bytes_of(file)};
  std::vector<std::string> names;
  std::vector<Row> rows;
  for (std::string line; std::getline(text, line);) {
    std::vector<std::string> fields;
    std::istringstream cells{line};
    for (std::string cell; fields.size() < 11 && std::getline(cells, cell, ',');) fields.push_back(cell);
    if (names.empty()) {
      names = fields;
      continue;
    }
    Row row;
    for (std::size_t i = 0; i < names.size(); ++i) row[names[i]] = i < fields.size() ? fields[i] : "";
    rows.push_back(row);
  }
  return rows;
}

ReadingOptions shape_options(const std::string& file) {
  ReadingOptions options;
  // The figures of this file are those of its site's clock.
  if (file.starts_with("13_")) options.time_zone = *soilclock::TimeZone::named("America/New_York");
  return options;
}

void check_value(const std::string& expected, double found) {
  CAPTURE(expected, found);
  if (expected.empty())
    CHECK(std::isnan(found));
  else
    CHECK(found == Approx(*parse_number(expected)).margin(0.006));
}

void check_figures(const Row& row, const ParsedFile& reading) {
  CHECK(soilclock::iso(reading.first_date.value()) == row.at("first_date"));
  CHECK(soilclock::iso(reading.last_date.value()) == row.at("last_date"));
  CHECK(std::to_string(reading.days_with_data) == row.at("days_with_data"));
  CHECK(std::to_string(reading.missing_days) == row.at("missing_days"));
  CHECK(std::to_string(reading.partial_days) == row.at("partial_days"));
  const std::string& day = row.at("check_date");
  if (day.empty()) return;
  check_value(row.at("tmin_c"), low(reading, day));
  check_value(row.at("tmax_c"), high(reading, day));
  check_value(row.at("rain_mm"), rain(reading, day));
}

}  // namespace

TEST_CASE("every shape of file gives the outcome and the figures computed for it", "[records]") {
  const auto rows = expected_rows(record_folder("csv_shapes") / "expected.csv");
  REQUIRE(rows.size() == 45);
  for (const Row& row : rows) {
    const std::string& file = row.at("file");
    const ParsedFile reading = read_file(record_folder("csv_shapes") / file, shape_options(file));
    CAPTURE(file, said(reading));
    CHECK(word(reading.outcome) == row.at("outcome"));
    CHECK(reading.refusal.has_value() == (reading.outcome == Outcome::error));
    CHECK((reading.outcome == Outcome::warn) == (!reading.doubts.empty() && !reading.refusal));
    if (row.at("outcome") != "error" && reading.outcome != Outcome::error) check_figures(row, reading);
  }
}

TEST_CASE("a refused file reads with its expected figures once the user has decided", "[records]") {
  const std::map<std::string, ReadingOptions> decisions{
      {"19_header_says_f_values_are_c.csv", with_units("C,mm")},
      {"33_no_header.csv", with_columns("date,tmin,tmax,rain")},
  };
  int checked = 0;
  for (const Row& row : expected_rows(record_folder("csv_shapes") / "expected.csv")) {
    const auto decision = decisions.find(row.at("file"));
    if (decision == decisions.end()) continue;
    const ParsedFile reading = read_file(record_folder("csv_shapes") / decision->first, decision->second);
    CAPTURE(decision->first, said(reading));
    REQUIRE(reading.outcome != Outcome::error);
    check_figures(row, reading);
    ++checked;
  }
  CHECK(checked == 2);
}

TEST_CASE("the day order of the single ambiguous row can be given", "[records]") {
  ReadingOptions options;
  options.dates = soilclock::weather::DateOrder::day_first;
  const auto june = read_file(record_folder("csv_shapes") / "15b_dates_ambiguous_single.csv", options);
  CHECK(june.outcome == Outcome::ok);
  CHECK(high(june, "2024-06-05") == Approx(24.8));
  options.dates = soilclock::weather::DateOrder::month_first;
  CHECK(high(read_file(record_folder("csv_shapes") / "15b_dates_ambiguous_single.csv", options),
             "2024-05-06") == Approx(24.8));
}

TEST_CASE("the messages about the shapes say what their notes say", "[records]") {
  const std::vector<std::pair<std::string, std::string>> expected{
      {"05_hourly_dst_end_repeat.csv", "lines 27 and 28"},
      {"08_utf16le_tab.txt", "day first"},
      {"09_latin1_degree.csv", "not UTF-8"},
      {"10_missing_markers.csv", "--, M, -9999, N/A, NaN, -99.9 and ***"},
      {"11_trailing_totals_blank_rows.csv", "5 lines below the data"},
      {"15b_dates_ambiguous_single.csv", "order of day and month"},
      {"15c_dates_contradict.csv",
       "line 4 (26/03/2024) can only be day first, line 2 (03/24/2024) only month first"},
      {"15d_date_impossible.csv", "15d_date_impossible.csv:4:1: this date does not exist"},
      {"16_daily_duplicates.csv", "lines 8 and 9"},
      {"18_tmin_above_tmax.csv", "2023-10-05"},
      {"19_header_says_f_values_are_c.csv", "Celsius is suspected"},
      {"20_many_temperature_columns.csv", "read as F"},
      {"22_rain_counters.csv", "reset of the counter"},
      {"23_logger_restart_bad_clock.csv", "2000-01-01"},
      {"26_morning_observer.csv", "07:00"},
      {"27_multiday_rain.csv", "31.5 mm fell over the 3 days"},
      {"29_truncated_last_line.csv", "2024-03-07,3."},
      {"30_html_instead_of_csv.csv", "web page"},
      {"31_empty.csv", "empty"},
      {"32_header_only.csv", "no rows"},
      {"33_no_header.csv", "name the columns"},
      {"34_spike_and_stuck_sensor.csv", "14 equal readings"},
      {"35_absent_rows.csv", "2023-04-07 to 2023-04-09 and 2023-04-15"},
      {"37_two_sites_one_file.csv", "North and South"},
      {"39_ampm_with_dots.csv", "month first"},
      {"40_zero_filled_outage.csv", "power failure"},
      {"42_step_changes_to_6_hours.csv", "2024-08-02 and 2024-08-03"},
  };
  for (const auto& [file, part] : expected) {
    const ParsedFile reading = read_file(record_folder("csv_shapes") / file);
    CAPTURE(file, part, said(reading));
    CHECK(says(reading, part));
  }
}

TEST_CASE("the soil columns of the shapes are read at their depths", "[records]") {
  const auto logger = read_file(record_folder("csv_shapes") / "07_preamble_two_header_lines_bom.csv");
  CHECK_FALSE(std::isnan(soil(logger, 5.0, "2023-05-13")));
  CHECK(logger.daily.day_definition == "local standard time");
  REQUIRE(logger.place);
  CHECK(logger.place->latitude_deg == 39.961);
  CHECK(logger.place->elevation_m == 247.0);
  const auto inches = read_file(record_folder("csv_shapes") / "10_missing_markers.csv");
  CHECK(soil(inches, 5.08, "2024-05-01") == Approx((57.0 - 32.0) / 1.8));
  const auto southern = read_file(record_folder("csv_shapes") / "28_southern_year_end.csv");
  REQUIRE(southern.place);
  CHECK(southern.place->hemisphere() == soilclock::Hemisphere::south);
}
