// SPDX-License-Identifier: MIT
// Figures of recorded answers, from the notes that came with the recordings.
#include <catch2/catch.hpp>

#include "service_texts.hpp"

using namespace weather_texts;
using namespace service_texts;

namespace {

std::optional<ServiceAnswer> sample(const std::string& name, const ReadingOptions& options = {}) {
  const auto folder = records_folder();
  if (!folder) return std::nullopt;
  auto result = read_service_answer(bytes_of(*folder / "api_samples" / name), name, options);
  if (!result) FAIL(soilclock::describe(result.error()));
  return std::move(*result);
}

/// Values of days one after another, not-a-number where unknown.
template <class Get>
std::vector<double> days_from(const char* first, int count, const Get& get) {
  std::vector<double> values;
  values.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i)
    values.push_back(get(soilclock::iso(*soilclock::parse_iso_day(first) + soilclock::Days{i})));
  return values;
}

void check_close(const std::vector<double>& found, const std::vector<double>& expected, double margin) {
  REQUIRE(found.size() == expected.size());
  for (std::size_t i = 0; i < found.size(); ++i) {
    CAPTURE(i);
    if (std::isnan(expected[i]))
      CHECK(std::isnan(found[i]));
    else
      CHECK(found[i] == Approx(expected[i]).margin(margin));
  }
}

const double unknown = std::nan("");

}  // namespace

TEST_CASE("ten years of New York keep their leap days and their one offset") {
  const auto read = sample("open_meteo/archive_daily_nyc_10y_fahrenheit.json");
  if (!read) return;
  const ParsedFile& reading = read->series.front().reading;
  CHECK(reading.days_with_data == 3653);
  CHECK(reading.missing_days == 0);
  CHECK_FALSE(says(reading, "above the maximum"));
  CHECK(high(reading, "2024-02-29") == Approx(4.89).margin(0.005));
  CHECK(low(reading, "2024-02-29") == Approx(-2.78).margin(0.005));
  for (const char* day : {"2016-02-29", "2020-02-29"}) CHECK_FALSE(std::isnan(low(reading, day)));
  CHECK(reading.daily.day_definition == "fixed offset UTC-05:00");
  CHECK(says(reading, "standard-time days"));
  CHECK(reading.daily.air_min.quality(reading.daily.air_min.first()) == soilclock::Quality::modelled);
}

TEST_CASE("a daily maximum equals the highest of its hours, whichever block is read") {
  const auto folder = records_folder();
  const auto read = sample("open_meteo/archive_hourly_and_daily_brasilia_1d.json");
  if (!folder || !read) return;
  const ParsedFile& reading = read->series.front().reading;
  CHECK(high(reading, "2022-12-29") == Approx(26.4));
  std::string daily_only =
      bytes_of(*folder / "api_samples/open_meteo/archive_hourly_and_daily_brasilia_1d.json");
  for (const char* key : {"\"hourly\"", "\"hourly_units\""}) {
    const auto at = daily_only.find(key);
    REQUIRE(at != std::string::npos);
    daily_only.replace(at, 2, "\"_");
  }
  const auto daily = answer(daily_only);
  REQUIRE(daily.has_value());
  CHECK(daily->series.front().reading.hours.empty());
  CHECK(high(daily->series.front().reading, "2022-12-29") == Approx(26.4));
}

TEST_CASE("a longitude with the wrong sign is seen by its sea") {
  const auto read = sample("open_meteo/archive_hourly_wrong_sign_longitude.json");
  if (!read) return;
  CHECK(says(read->series.front().reading, "open sea"));
  CHECK(says(read->series.front().reading, "sign of the longitude"));
}

TEST_CASE("Unix seconds of days are read by the offset of the answer, never by the rules of a zone") {
  const auto lisbon = sample("open_meteo/forecast_daily_unixtime_lisbon.json");
  if (!lisbon) return;
  CHECK(soilclock::iso(*lisbon->series.front().reading.first_date) == "2024-01-26");
  const auto vienna = sample("constructed/open_meteo_unixtime_over_dst_end.json");
  check_close(days_from("2025-10-24", 5,
                        [&](const std::string& day) { return high(vienna->series.front().reading, day); }),
              {11.2, 9.8, 8.1, 7.7, 9.0}, 1e-9);
}

TEST_CASE("members and models of one answer are series of their own") {
  const auto members = sample("constructed/open_meteo_ensemble_members.json");
  if (!members) return;
  REQUIRE(members->series.size() == 3);
  check_close({high(members->series[0].reading, "2024-05-02"), high(members->series[1].reading, "2024-05-02"),
               high(members->series[2].reading, "2024-05-02")},
              {23.1, 24.6, 22.0}, 1e-9);
  CHECK(members->series[0].member == 0);
  CHECK(members->series[2].member == 2);
  const auto models = sample("constructed/open_meteo_two_models.json");
  REQUIRE(models->series.size() == 2);
  CHECK(models->series[0].model == "ecmwf_ifs025");
  CHECK(low(models->series[0].reading, "2024-05-01") == Approx(9.9));
  CHECK(models->series[1].model == "gfs_seamless");
  CHECK(low(models->series[1].reading, "2024-05-01") == Approx(9.4));
}

TEST_CASE("extremes beside null sums stay, the sums are unknown, the soil of a model is not taken") {
  const auto read = sample("constructed/open_meteo_extremes_beside_null_sums.json");
  if (!read) return;
  const ParsedFile& reading = read->series.front().reading;
  CHECK(high(reading, "2024-05-01") == Approx(14.8));
  CHECK(rain(reading, "2024-04-29") == Approx(2.1));
  CHECK(std::isnan(rain(reading, "2024-04-30")));
  CHECK(reading.daily.soil.empty());
  bool listed = false;
  for (const auto& column : reading.columns)
    listed = listed || (column.header == "soil_temperature_0_to_7cm_mean" && column.quantity == "not used");
  CHECK(listed);
}

TEST_CASE("the eastern grid gives the day maxima, the night minima and the split rain of its notes") {
  const auto read = sample("nws/gridpoint_tae_2022-02-04.json", in_zone("America/New_York"));
  if (!read) return;
  const ParsedFile& reading = read->series.front().reading;
  CAPTURE(said(reading));
  // The first maximum (24.44 on 3 February) covers four hours and is none.
  check_close(days_from("2022-02-03", 8, [&](const std::string& day) { return high(reading, day); }),
              {unknown, 22.22, 12.78, 14.44, 15.56, 15.00, 16.67, 18.33}, 0.006);
  check_close(days_from("2022-02-04", 8, [&](const std::string& day) { return low(reading, day); }),
              {17.78, 3.89, 3.33, 5.56, 4.44, 3.89, 3.33, 4.44}, 0.006);
  check_close(days_from("2022-02-04", 8, [&](const std::string& day) { return rain(reading, day); }),
              {14.224, 2.794, 0.0, 0.254, 1.439, 1.312, unknown, unknown}, 0.0006);
  CHECK(std::isnan(rain(reading, "2022-02-03")));
  double least = 99.0;
  double most = -99.0;
  int hours = 0;
  for (const auto& hour : reading.hours) {
    if (soilclock::iso(hour.day) != "2022-02-04" || !hour.air) continue;
    least = std::min(least, hour.air->celsius());
    most = std::max(most, hour.air->celsius());
    ++hours;
    CHECK_FALSE(hour.rain.has_value());
  }
  CHECK(hours == 24);
  CHECK(least == Approx(9.44).margin(0.006));
  CHECK(most == Approx(22.22).margin(0.006));
  // First wind value 20.372 km/h.
  CHECK(reading.hours.front().wind_m_per_s.value_or(0.0) == Approx(20.372 / 3.6));
  CHECK(reading.hours.front().humidity_percent.value_or(0.0) == 73.0);
  REQUIRE(read->issued.has_value());
  CHECK(*read->issued == Instant{soilclock::make_day(2022, 2, 4)} + std::chrono::hours{3} +
                             std::chrono::minutes{15} + std::chrono::seconds{41});
  CHECK(reading.place->latitude_deg == Approx(30.0185).margin(0.001));
  CHECK(reading.place->longitude_deg == Approx(-84.9803).margin(0.001));
  CHECK(reading.place->elevation_m == Approx(3.9624));
}

TEST_CASE("the western grid leaves out the rest of the running day") {
  const auto read = sample("nws/gridpoint_boi_2024-06-25.json", in_zone("America/Los_Angeles"));
  if (!read) return;
  const ParsedFile& reading = read->series.front().reading;
  CHECK(std::isnan(high(reading, "2024-06-25")));
  CHECK(std::isnan(low(reading, "2024-06-25")));
  CHECK(high(reading, "2024-06-26") == Approx(29.44).margin(0.006));
  CHECK(low(reading, "2024-06-26") == Approx(14.44).margin(0.006));
  CHECK(rain(reading, "2024-06-26") == Approx(0.254).margin(0.0006));
}

TEST_CASE("the older archive service writes tenths: 33.2 mm in the month, its traces count zero") {
  const auto read = sample("ncei/cdo_v2_ghcnd_prcp_mi_2013-09.json");
  if (!read) return;
  const ParsedFile& reading = read->series.front().reading;
  double sum = 0.0;
  int days = 0;
  for (soilclock::Day day = *reading.first_date; day <= *reading.last_date; day += soilclock::Days{1}) {
    if (const auto amount = reading.daily.rain.at(day)) {
      sum += amount->mm();
      ++days;
    }
  }
  CHECK(days == 28);
  CHECK(sum == Approx(33.2));
  CHECK(rain(reading, "2013-09-13") == 0.0);
  CHECK(says(reading, "a trace of rain on 2013-09-13"));
  CHECK_FALSE(says(reading, "read in the morning"));
  CHECK(read->series.front().location == "GHCND:USC00200230");
}

TEST_CASE("the newer archive service writes padded text, and what it leaves out is missing") {
  const auto read = sample("constructed/ncei_access_v1_daily_metric.json");
  if (!read) return;
  const ParsedFile& reading = read->series.front().reading;
  CHECK(high(reading, "2023-04-10") == Approx(18.9));
  CHECK(low(reading, "2023-04-12") == Approx(10.0));
  CHECK(rain(reading, "2023-04-10") == 0.0);
  CHECK(std::isnan(rain(reading, "2023-04-12")));
  CHECK(reading.daily.air_max.quality(*reading.first_date) == soilclock::Quality::measured);
}

TEST_CASE("the fill value of the header is missing in every parameter") {
  const auto read = sample("constructed/nasa_power_daily_point.json");
  if (!read) return;
  const ParsedFile& reading = read->series.front().reading;
  check_close(days_from("2024-04-28", 5, [&](const std::string& day) { return high(reading, day); }),
              {24.81, 26.02, 22.5, unknown, unknown}, 1e-9);
  check_close(days_from("2024-04-28", 5, [&](const std::string& day) { return rain(reading, day); }),
              {0.0, 3.12, unknown, unknown, unknown}, 1e-9);
  CHECK(reading.daily.day_definition == "local solar time");
  CHECK(reading.place->longitude_deg == -83.0);
}

TEST_CASE("the services' tables keep their known figures") {
  const auto folder = records_folder();
  if (!folder) return;
  const auto desert = read_file(*folder / "api_samples/ncei/daily_summaries_death_valley_2021_standard.csv");
  CHECK(high(desert, "2021-07-10") == Approx(53.89).margin(0.005));
  CHECK(low(desert, "2021-07-10") == Approx(37.22).margin(0.005));
  CHECK(std::isnan(high(desert, "2021-05-04")));
  const auto sitka = read_file(*folder / "api_samples/ncei/daily_summaries_sitka_2021_standard.csv");
  CHECK(high(sitka, "2021-07-10") == Approx(15.56).margin(0.005));
  CHECK(low(sitka, "2021-07-10") == Approx(10.56).margin(0.005));
  CHECK(rain(sitka, "2021-07-10") == 0.0);
  CHECK(std::isnan(high(sitka, "2021-04-23")));
  const auto utc = read_file(*folder / "api_samples/nasa_power/daily_point_sb_utc.csv");
  const auto solar = read_file(*folder / "api_samples/nasa_power/daily_point_sb_lst.csv");
  CHECK(high(utc, "1983-01-01") == Approx(-22.7).margin(0.005));
  CHECK(high(solar, "1983-01-01") == Approx(-24.88).margin(0.005));
  const auto snow = read_file(*folder / "api_samples/awdb/report_daily_snotel_306_excerpt.csv");
  CHECK(high(snow, "2018-01-01") == Approx(2.78).margin(0.005));
  CHECK(low(snow, "2018-01-01") == Approx(-5.0).margin(0.005));
  // Totals read at the start of a day: their difference fell on the day before.
  CHECK(rain(snow, "2018-01-01") == 0.0);
}
