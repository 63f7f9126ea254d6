// SPDX-License-Identifier: MIT
// Measured records of other agencies read as they are; counts from the notes that came with the records.
#include <catch2/catch.hpp>

#include "weather_texts.hpp"

using namespace weather_texts;

namespace {

template <class Series>
int known_days(const Series& series) {
  return series.size() - series.count_missing();
}

}  // namespace

TEST_CASE(
    "a climate reference station file gives air, rain, five soil depths, its place and standard-time days") {
  const auto durham = read_file(reference_file("NC_Durham_11_W"));
  CAPTURE(said(durham));
  REQUIRE(durham.outcome != Outcome::error);
  CHECK(durham.daily.day_definition == "local standard time");
  CHECK(durham.place->latitude_deg == 35.97);
  CHECK(durham.place->longitude_deg == -79.09);
  CHECK(durham.daily.soil.size() == 5);
  // First line of the file.
  CHECK(high(durham, "2020-01-01") == 11.6);
  CHECK(low(durham, "2020-01-01") == 0.2);
  CHECK(soil(durham, 5.0, "2020-01-01") == 8.7);
  CHECK(soil(durham, 100.0, "2020-01-01") == 12.2);
  CHECK(rain(durham, "2020-01-02") == 3.8);
  CHECK(known_days(durham.daily.air_max) == 365);
  CHECK(known_days(durham.daily.rain) == 366);
}

TEST_CASE("all climate reference stations read, with doubts about missing days only") {
  for (const auto& [name, file] : reference_files()) {
    const auto reading = read_file(file);
    CAPTURE(reading.file, said(reading));
    CHECK(reading.outcome != Outcome::error);
    for (const auto& doubt : reading.doubts) {
      const bool about_missing = doubt.text.find("without any usable temperature") != std::string::npos ||
                                 doubt.text.find("only one of minimum and maximum") != std::string::npos;
      CHECK(about_missing);
    }
    CHECK(reading.days_with_data + reading.missing_days + reading.partial_days == 366);
  }
}

TEST_CASE("missing codes of a reference station are missing at every depth and the half year stays half",
          "[records]") {
  const auto fairbanks = read_file(record_folder("uscrn_original") / "CRND0103-2020-AK_Fairbanks_11_NE.txt");
  REQUIRE(fairbanks.outcome != Outcome::error);
  CHECK(fairbanks.daily.soil.empty());
  CHECK(soilclock::iso(*fairbanks.last_date) == "2020-07-01");
  CHECK(low(fairbanks, "2020-01-03") == -25.4);
}

TEST_CASE("the Irish station files read with and without their header lines", "[records]") {
  const auto airport = read_file(record_folder("met_eireann") / "dly532.csv");
  CHECK(airport.outcome == Outcome::ok);
  CHECK(airport.days_with_data == 28794);
  CHECK(known_days(airport.daily.soil.begin()->second) == 24472);
  CHECK(airport.daily.soil.begin()->first.cm() == Approx(10.0));
  CHECK(airport.place->latitude_deg == 53.428);
  CHECK(airport.place->longitude_deg == -6.241);
  CHECK(airport.place->elevation_m == 71.0);
  CHECK(airport.daily.day_definition == "UTC");
  CHECK(high(airport, "1942-01-01") == 9.7);
  const auto park = read_file(record_folder("met_eireann") / "dly175.csv");
  CHECK(park.outcome == Outcome::warn);
  CHECK(known_days(park.daily.soil.begin()->second) == 6898);
  CHECK(soil(park, 10.0, "2005-05-18") == 12.960);
  CHECK(std::isnan(high(park, "2005-05-18")));
  CHECK(soilclock::iso(*park.last_date) == "2022-08-31");
}

TEST_CASE("the desert record passes: 129 F is weather", "[records]") {
  const auto valley =
      read_file(record_folder("api_samples") / "ncei" / "daily_summaries_death_valley_2021_standard.csv");
  CAPTURE(said(valley));
  REQUIRE(valley.outcome == Outcome::warn);
  CHECK(high(valley, "2021-07-10") == Approx(53.89).margin(0.006));
  CHECK(low(valley, "2021-07-10") == Approx(37.22).margin(0.006));
  CHECK(std::isnan(high(valley, "2021-05-04")));
}

TEST_CASE("the Alaskan order of daily summaries reads in Fahrenheit from its numbers", "[records]") {
  const auto sitka =
      read_file(record_folder("api_samples") / "ncei" / "daily_summaries_sitka_2021_standard.csv");
  REQUIRE(sitka.outcome == Outcome::warn);
  CHECK(high(sitka, "2021-07-10") == Approx(15.56).margin(0.006));
  CHECK(low(sitka, "2021-07-10") == Approx(10.56).margin(0.006));
  CHECK(rain(sitka, "2021-07-10") == 0.0);
}

TEST_CASE("service answers as text read with their place and their days", "[records]") {
  const auto samples = record_folder("api_samples");
  const auto solar = read_file(samples / "nasa_power" / "daily_point_sb_lst.csv");
  CHECK(solar.outcome == Outcome::ok);
  CHECK(high(solar, "1983-01-01") == -24.88);
  CHECK(solar.daily.day_definition == "local solar time");
  CHECK(solar.place->latitude_deg == -89.5);
  const auto utc = read_file(samples / "nasa_power" / "daily_point_ag_utc.csv");
  CHECK(high(utc, "1983-01-01") == -22.7);
  CHECK(utc.daily.day_definition == "UTC");
  const auto snow = read_file(samples / "awdb" / "report_daily_snotel_306_excerpt.csv");
  CHECK(high(snow, "2018-01-01") == Approx(2.78).margin(0.006));
  CHECK(low(snow, "2018-01-01") == Approx(-5.0));
  CHECK(rain(snow, "2018-01-01") == 0.0);
  CHECK(says(snow, "running total"));
  const auto upper = read_file(samples / "open_meteo" / "client_rewritten_no_units.csv");
  CHECK(upper.outcome == Outcome::error);
  CHECK(says(upper, "'temperature_300hPa' is not that"));
  CHECK(read_file(samples / "nasa_power" / "climatology_point_ag.csv").outcome == Outcome::error);
  CHECK(says(read_file(samples / "ncei" / "error_404_html_saved_as.csv"), "web page"));
}

TEST_CASE("the record with two cities reads one of them, and the same record without the city column too",
          "[records]") {
  const std::string bytes = bytes_of(record_folder("vega_noaa") / "weather.csv");
  const auto first = read(bytes);
  CHECK(first.days_with_data == 1461);
  CHECK(says(first, "Seattle and New York"));
  CHECK(high(first, "2012-01-01") == 12.8);
  ReadingOptions options;
  options.station = "new york";
  const auto second = read(bytes, options);
  CHECK(second.days_with_data == 1461);
  CHECK(high(second, "2012-01-01") != 12.8);
  std::string alone;
  for (std::size_t at = 0, line = 0; at < bytes.size() && line < 1462; ++line) {
    const auto end = bytes.find('\n', at);
    alone += bytes.substr(bytes.find(',', at) + 1, end - bytes.find(',', at));
    at = end + 1;
  }
  const auto stripped = read(alone);
  CHECK(stripped.days_with_data == 1461);
  CHECK(low(stripped, "2015-12-31") == low(first, "2015-12-31"));
}
